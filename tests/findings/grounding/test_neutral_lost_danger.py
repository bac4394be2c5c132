"""neutral-lost-danger: what hangs on one neutral of both legs, and where it is spliced."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.told import found, gaps, number

RULE = "neutral-lost-danger"


def workshop(first: str = "400 W", second: str = "1200 W") -> Draft:
    """A board of two legs with a load on each."""
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", prospective="3 kA", outage="no")
    d.part("panel", "QP1", circuit="split", bond="absent")
    d.run("GS1.out", "QP1.feed", "W1", size="8 AWG", length="30 ft")
    for n, place, watts in (("1", "1", first), ("2", "3", second)):
        d.part("breaker", f"QF{n}", rating="20 A")
        d.seat(f"QF{n}", "QP1", place)
        d.part("load", f"EA{n}", power=watts)
        d.run(f"QF{n}.load", f"EA{n}.in", f"B{n}", size="12 AWG", length="9 ft")
    return d


def test_the_loss_of_a_feeders_neutral_is_a_note_with_the_load_that_gets_most() -> None:
    (finding,) = found(workshop(), RULE)
    assert finding.level is Level.NOTE
    assert finding.subjects == ("W1",)
    assert "EA1 would get 179 V" in finding.message
    # 400 W and 1200 W in series on 240 V: 240 x 1200 / 1600, less what the cables take
    assert number(finding, "voltage at it then") == pytest.approx(180.0, rel=0.01)


@pytest.mark.parametrize(("first", "hit"), [("1000 W", False), ("940 W", True)])
def test_up_to_110_percent_is_silent(first: str, hit: bool) -> None:
    # 240 V x 1200 / 2200 = 130.9 V; 1200 / 2140: 134.6 V, less a volt or two; the limit is 132 V
    assert bool(found(workshop(first), RULE)) == hit


def spliced(through: str) -> Draft:
    """A circuit of two hots and one neutral to two outlets, by way of one of them or of a box."""
    d = workshop("1000 W", "1000 W")
    d.remove("QF1", "QF2", "EA1", "EA2")
    d.part("breaker", "QF3", circuit="split", rating="20 A")
    d.seat("QF3", "QP1", "1")
    d.part("junction_box", "XJ1", circuit="split")
    d.run("QF3.load", "XJ1.a", "M1", size="12 AWG", length="20 ft")
    for n in "12":
        d.part("outlet", f"XD{n}")
    d.run("XJ1.b", "XD1.feed", "M2", poles="L1>L N PE", size="12 AWG", length="5 ft")
    if through == "outlet":
        d.run("XD1.onward", "XD2.feed", "M3", poles="N PE", size="12 AWG", length="5 ft")
        d.run("XJ1.b", "XD2.feed", "M4", poles="L2>L", size="12 AWG", length="9 ft")
    else:
        d.run("XJ1.b", "XD2.feed", "M3", poles="L2>L N PE", size="12 AWG", length="9 ft")
    return d


def test_a_neutral_of_both_legs_spliced_at_an_outlet_is_a_warning() -> None:
    (finding,) = found(spliced("outlet"), RULE)
    assert finding.level is Level.WARNING
    assert finding.subjects == ("XD1",)
    assert finding.clause == "300.13(B)"
    assert number(finding, "voltage between the legs") == pytest.approx(240.0)


def test_spliced_in_the_box_it_is_silent() -> None:
    assert not found(spliced("box"), RULE)


def test_an_outlet_that_passes_on_a_circuit_of_one_hot_is_silent() -> None:
    draft = workshop("1000 W", "1000 W")
    for n in "34":
        draft.part("outlet", f"XD{n}")
    draft.run("EA1.in", "XD3.feed", size="12 AWG", length="5 ft")
    draft.run("XD3.onward", "XD4.feed", size="12 AWG", length="5 ft")
    assert not [f for f in found(draft, RULE) if f.level is Level.WARNING]


def test_a_motor_between_the_legs_alone_needs_no_neutral() -> None:
    draft = workshop()
    draft.remove("EA1", "EA2")
    draft.part("motor", "MA1", circuit="ac240", power="1 kW")
    draft.run("QP1.feed", "MA1.in", size="12 AWG", length="9 ft")
    assert not found(draft, RULE)


def test_what_was_not_solved_is_said_and_not_judged() -> None:
    draft = workshop()
    draft.part("battery", "GB1")
    draft.part("inverter", "TB1", power="3 kVA", neutral="bonded")
    draft.part("load", "EA9", power="2900 W")
    draft.run("GB1.dc", "TB1.dc", size="14 AWG", length="200 ft")
    draft.run("TB1.ac_out", "EA9.in", size="10 AWG", length="3 ft")
    assert any("was not solved" in gap.reason for gap in gaps(draft, "not-analysed"))
    (finding,) = found(draft, RULE)  # the circuit of the utility is solved, whatever TB1 does
    assert finding.subjects == ("W1",)
    assert not finding.states


def old_feeder(rod: str = "25 ohm") -> Draft:
    """A board fed by two hots and a neutral without a ground wire, bonded at its own rod."""
    d = workshop("200 W", "2000 W")
    d.rate("QP1", bond="fitted")
    d.run_poles("W1", "L1 L2 N")
    d.part("electrode", "XE1", resistance=rod)
    d.run("QP1.ground", "XE1.ground", "W9", size="6 AWG", length="8 ft")
    d.rate("GS1", electrode="5 ohm")
    return d


def test_metal_that_the_neutral_alone_holds_at_earth() -> None:
    # 72 and 7.2 ohm in series on 240 V, their midpoint held by 5 and 25 ohm in series: by the
    # node's equation (120/7.2 - 120/72) / (1/7.2 + 1/72 + 1/30) = 80.6 V, of which 25/30 on the rod
    hits = [f for f in found(old_feeder(), RULE) if "would stand" in f.message]
    (finding,) = hits
    assert finding.level is Level.NOTE
    assert finding.subjects == ("W1",)
    assert number(finding, "voltage on metal then") == pytest.approx(80.6 * 25 / 30, rel=0.02)


def test_with_a_ground_wire_metal_stays_where_it_is() -> None:
    draft = old_feeder()
    draft.rate("QP1", bond="absent")
    draft.run_poles("W1", "L1 L2 N PE")
    assert not [f for f in found(draft, RULE) if "would stand" in f.message]


def halves(onward: bool) -> Draft:
    """A cable of both legs ends at an outlet with its hot tab broken out, or goes on from there."""
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", prospective="3 kA", outage="no")
    d.part("panel", "QP1", circuit="split", bond="absent")
    d.run("GS1.out", "QP1.feed", "W1", size="8 AWG", length="30 ft")
    d.part("breaker", "QF1", circuit="split", rating="20 A")
    d.seat("QF1", "QP1", "1")
    d.part("split_outlet", "XD1", tabs="hot")
    wire = {"size": "12 AWG", "length": "10 ft"}
    d.run("QF1.load", "XD1.feed", "W2", poles="L1>L N PE", **wire)
    d.run("QF1.load", "XD1.feed_2", "W3", poles="L2>L", **wire)
    if onward:
        d.part("split_outlet", "XD2", tabs="hot")
        d.run("XD1.feed", "XD2.feed", "W4", **wire)
        d.run("XD1.feed_2", "XD2.feed_2", "W5", poles="L", **wire)
    return d


@pytest.mark.parametrize("onward", [False, True])
def test_an_outlet_at_the_end_of_both_legs_passes_no_neutral_on(onward: bool) -> None:
    """300.13(B) is about what lies behind the device."""
    told = {f.subjects for f in found(halves(onward), RULE) if f.level is Level.WARNING}
    assert told == ({("XD1",)} if onward else set())
