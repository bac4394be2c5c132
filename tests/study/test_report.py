"""What is told of a state."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from tests.trial.rigs import RIGS


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


def test_a_common_return_carries_what_all_circuits_send() -> None:
    """Two batteries with a plus wire each and one minus wire for both."""
    d = Draft(place="vehicle")
    for bar in ("WC1", "WC2"):
        d.part("busbar", bar, bar="minus", rating="100 A", taps="6")
    for n in ("1", "2"):
        d.part("battery", f"GB{n}", voltage="12 V", capacity="100 Ah")
        d.part("load", f"EA{n}", circuit="dc", power="150 W", voltage="12 V")
        d.run(f"GB{n}.dc", f"EA{n}.in", f"WP{n}", poles="+", size="12 AWG", length="1 m")
        d.run(f"GB{n}.dc", f"WC1.{n}", size="10 AWG", length="0.5 m", poles="-")
        d.run(f"WC2.{n}", f"EA{n}.in", size="12 AWG", length="0.5 m")
    d.run("WC1.3", "WC2.3", "WM", size="10 AWG", length="1 m")
    (report,) = analyse(d.design).reports
    plus = report.run_a["WP1", "+"] + report.run_a["WP2", "+"]
    assert plus > 20.0
    assert report.run_a["WM", "-"] == pytest.approx(plus, rel=1e-6)


@pytest.mark.parametrize("wrong", ["feed", "feed_2"])
def test_of_an_outlet_with_two_faces_the_one_that_is_not_right_is_shown(wrong: str) -> None:
    d = Draft(place="building")
    d.part("supply", "GS1", breaker="20 A", prospective="1 kA", outage="no")
    d.part("split_outlet", "XD1", tabs="both")
    for name, feed in (("W1", "feed"), ("W2", "feed_2")):
        poles = "L>N N>L PE" if feed == wrong else ""
        d.run("GS1.out", f"XD1.{feed}", name, poles=poles, size="12 AWG", length="9 ft")
    (report,) = analyse(d.design).reports
    assert len(report.readings) == 2
    shown = report.reading("XD1")
    assert shown is not None
    assert shown.picture == "reversed"
    assert report.reading("GS1") is None


def test_a_board_that_a_breaker_feeds_past_its_open_main_is_not_called_dead() -> None:
    made = analyse(RIGS["house_with_interlock"]().design)
    # QF7 brings the set to the bars of QP1; a lamp on it burns, so that its bars are live
    fed = [
        r
        for r in made.reports
        if any(x.part == "EL1" and x.sources == ("G1",) and x.volts > 100.0 for x in r.loads)
    ]
    assert fed
    assert {r.title for r in fed} == {"on G1"}
