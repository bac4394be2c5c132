"""device-above-ampacity: the links and the minus of a string of batteries."""

from __future__ import annotations

import pytest

from linework.design import Draft
from tests.findings.told import places

RULE = "device-above-ampacity"
WIRE = {"size": "4 AWG", "length": "1 ft"}


def string(**sizes: str) -> Draft:
    """Two batteries in series, a fuse of 60 A, a load; 4 AWG carries 70 A, 8 AWG 40 A at 60 C
    (table 310.16)."""
    d = Draft(place="building")
    for name in ("GB1", "GB2"):
        d.part("battery", name, fault_current="3 kA")
    d.run("GB1.dc", "GB2.dc", "link", poles="->+", **WIRE)
    d.part("fuse", "F1", rating="60 A", type="class_t")
    d.run("GB1.dc", "F1.line", "plus", poles="+", **WIRE)
    d.part("load", "EA1", circuit="dc", voltage="24 V", power="240 W")
    d.run("F1.load", "EA1.in", "on", poles="+", **WIRE)
    d.run("GB2.dc", "EA1.in", "minus", poles="-", **WIRE)
    for run, size in sizes.items():
        d.rate_run(run, size=size)
    return d


def test_all_of_the_size_of_the_plus_is_silent() -> None:
    assert places(string(), RULE) == set()


@pytest.mark.parametrize("thin", ["link", "minus", "plus"])
def test_each_must_stand_the_fuse(thin: str) -> None:
    assert places(string(**{thin: "8 AWG"}), RULE) == {(thin, "F1")}
