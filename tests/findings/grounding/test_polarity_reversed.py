"""Line and neutral, or plus and minus, exchanged."""

from __future__ import annotations

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from linework.wiring import Pole
from tests.findings.banks import van
from tests.findings.camps import camp, levels
from tests.findings.told import cured, found
from tests.trial.rigs import RIGS

RULE = "polarity-reversed"


def test_an_exchange_is_a_warning_on_the_run_that_makes_it() -> None:
    draft = camp()
    draft.run_poles("W3", "L>N N>L PE")
    assert levels(draft, RULE) == {("W3",): Level.WARNING}


def test_what_opens_the_wrong_side_is_said_where_a_device_of_one_pole_lies_behind() -> None:
    """A breaker of both poles opens both; only one of a single pole leaves all behind it live."""
    draft = RIGS["narrow_boat"]()
    draft.run_poles("WS1", "L>N N>L PE")
    (hit,) = found(draft, RULE)
    assert "No breaker or switch of one pole is drawn behind" in hit.message
    draft.rate("QF10", poles="lines")
    assert "Single-pole breakers and switches open the wrong side" in found(draft, RULE)[0].message
    draft = camp()
    draft.run_poles("W1", "L>N N>L PE")
    assert "Single-pole breakers and switches open the wrong side" in found(draft, RULE)[0].message


def test_straight_wires_are_silent() -> None:
    assert found(camp(), RULE) == []


def test_all_that_lies_behind_is_one_finding_as_grave_as_what_follows() -> None:
    draft = camp()
    draft.run_poles("W1", "L>N N>L PE")
    # the branch breakers open the neutral, so that the set's 30 A alone protect the branches
    assert levels(draft, RULE) == {("W1",): Level.DANGER}
    (only,) = (f for f in analyse(draft.design).findings if f.level > Level.NOTE)
    below = {(f.rule, f.subjects) for f in only.consequences}
    assert ("device-above-ampacity", ("W2", "G1")) in below
    assert ("device-in-grounded-conductor", ("QF1",)) in below


def test_a_wire_too_thin_elsewhere_does_not_hide_under_it() -> None:
    draft = camp()
    draft.run_poles("W3", "L>N N>L PE")
    draft.rate_run("W2", size="14 AWG")
    top = {(f.rule, f.subjects) for f in analyse(draft.design).findings if f.level > Level.NOTE}
    assert top == {("polarity-reversed", ("W3",)), ("device-above-ampacity", ("W2", "QF1"))}


def test_a_battery_turned_round_is_one_finding() -> None:
    draft = van()
    draft.run_poles("W3", "+>- ->+")
    (only,) = (f for f in analyse(draft.design).findings if f.level > Level.NOTE)
    assert (only.rule, only.subjects) == (RULE, ("W3",))
    assert {f.rule for f in only.consequences} >= {"device-in-grounded-conductor"}


def test_two_exchanges_in_a_row_show_where_the_wires_are_wrong() -> None:
    draft = camp()
    draft.run_poles("W1", "L>N N>L PE")
    draft.run_poles("W3", "L>N N>L PE")
    # behind both the outlet is right again; the board and the load before it are not
    assert levels(draft, RULE) == {("W1",): Level.DANGER}


def test_two_exchanges_on_two_branches_are_two_findings() -> None:
    draft = camp()
    draft.run_poles("W2", "L>N N>L PE")
    draft.run_poles("W3", "L>N N>L PE")
    assert set(levels(draft, RULE)) == {("W2",), ("W3",)}


def test_one_leg_exchanged_with_neutral_counts() -> None:
    draft = Draft(place="building")
    draft.part("supply", "GS1", circuit="split", breaker="30 A", outage="no")
    draft.part("panel", "QP1", circuit="split", bond="absent")
    draft.run("GS1.out", "QP1.feed", "W1", poles="L1>N N>L1 L2 PE", size="10 AWG", length="9 ft")
    assert levels(draft, RULE) == {("W1",): Level.WARNING}


def bank(poles: str) -> Draft:
    draft = Draft(place="field")
    draft.part("battery", "GB1", voltage="12 V", fault_current="2 kA")
    draft.part("fuse", "F1", rating="10 A", type="class_t")
    draft.part("lamp", "EL1", circuit="dc", voltage="12 V", power="20 W")
    draft.run("GB1.dc", "F1.line", "W1", size="12 AWG", length="0.5 ft")
    draft.run("F1.load", "EL1.in", "W2", poles=poles, size="12 AWG", length="6 ft")
    return draft


def test_plus_and_minus_exchanged_are_a_danger() -> None:
    assert levels(bank("+>- ->+"), RULE) == {("W2",): Level.DANGER}
    assert found(bank("+ -"), RULE) == []


def test_the_mend_exchanges_the_two_wires() -> None:
    draft = camp()
    draft.run_poles("W3", "L>N N>L PE")
    assert cured(draft, found(draft, RULE)[0]).silent


def test_the_mend_of_a_battery_turned_round_turns_it_back() -> None:
    # a plus lead to a fuse, which has both poles, and a minus lead to a bar, which has but minus
    draft = bank("+")
    draft.part("busbar", "WC2", bar="minus", rating="100 A", taps="2")
    draft.run("GB1.dc", "WC2.feed", "W3", poles="+>-", size="12 AWG", length="1 ft")
    draft.run("WC2.1", "EL1.in", "W4", size="12 AWG", length="6 ft")
    draft.run_poles("W1", "->+")
    (only,) = found(draft, RULE)
    assert only.subjects == ("W1", "W3")
    assert only.mend is not None
    draft.design.apply(only.mend.edit(draft.design))
    assert found(draft, RULE) == []
    poles = [run.poles for run in draft.design.runs if run.designation in ("W1", "W3")]
    assert poles == [((Pole.POS, Pole.POS),), ((Pole.NEG, Pole.NEG),)]
