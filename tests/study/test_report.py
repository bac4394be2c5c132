"""What is told of a state."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft


def test_the_most_through_a_fuse_whose_return_passes_elsewhere() -> None:
    # four batteries of 12 V and 4 kA, 3 mohm each; the cables of no length: 48 V / 12 mohm
    d = Draft(place="building")
    for n in range(1, 5):
        d.part("battery", f"GB{n}", fault_current="4 kA")
    for n in range(1, 4):
        d.run(f"GB{n}.dc", f"GB{n + 1}.dc", poles="->+", size="4/0 AWG", length="0 ft")
    d.part("fuse", "F1", rating="150 A", type="class_t")
    d.part("load", "EA1", circuit="dc", voltage="48 V", power="1 kW")
    d.run("GB1.dc", "F1.line", poles="+", size="4/0 AWG", length="0 ft")
    d.run("F1.load", "EA1.in", poles="+", size="4/0 AWG", length="0 ft")
    d.run("GB4.dc", "EA1.in", poles="-", size="4/0 AWG", length="0 ft")
    (report,) = analyse(d.design).reports
    assert report.device_fault_a["F1"] == pytest.approx(4000.0, rel=0.01)
