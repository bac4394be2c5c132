"""A source that runs, and nothing arrives at what another source feeds."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import levels
from tests.findings.told import found, number
from tests.trial.rigs import RIGS

RULE = "dead-on-source"
RUN = {"size": "10 AWG", "length": "10 ft"}


def house(switch: str = "transfer_switch", *, split: bool = True, **ratings: str) -> Draft:
    """A supply and a set on a switch of two legs; behind it a pump on both and a lamp on one."""
    d = Draft(place="building")
    two = {"circuit": "split"}
    d.part("supply", "GS1", outage="yes", **two)
    d.part("generator", "G1", power="5 kVA", neutral="floating", **(two if split else {}))
    d.part(switch, "QT1", poles="lines", second="set", **two, **ratings)
    d.part("panel", "QP1", circuit="split", bond="absent")
    d.run("GS1.out", "QT1.in1", "w1", **RUN)
    d.run("G1.out", "QT1.in2", "w2", poles="L1 L2 N PE" if split else "L>L1 L>L2 N PE", **RUN)
    d.run("QT1.load", "QP1.feed", "w3", **RUN)
    d.part("breaker", "QF1", circuit="ac240", rating="15 A")
    d.seat("QF1", "QP1", "1")
    d.part("motor", "MA1", circuit="ac240", voltage="240 V", power="500 W")
    d.run("QF1.load", "MA1.in", "w4", size="14 AWG", length="10 ft")
    d.part("breaker", "QF2", rating="15 A")
    d.seat("QF2", "QP1", "5")
    d.part("lamp", "EL1", power="100 W")
    d.run("QF2.load", "EL1.in", "w5", size="14 AWG", length="10 ft")
    return d


@pytest.mark.parametrize("switch", ["transfer_switch", "transfer_automatic"])
def test_a_set_that_brings_both_legs_and_the_neutral_is_silent(switch: str) -> None:
    assert found(house(switch), RULE) == []


def test_both_hots_of_the_feed_on_one_leg_of_the_set() -> None:
    draft = house()
    draft.cut("w2")
    draft.run("G1.out", "QT1.in2", "w2", poles="L1 L1>L2 N PE", **RUN)
    (hit,) = found(draft, RULE)
    assert (hit.subjects, hit.level) == (("MA1",), Level.WARNING)
    assert "0 V between them" in hit.message
    assert "G1" in hit.message
    assert number(hit, "states in which it feeds them") == 0.0


def test_a_set_of_one_leg_feeds_no_pump_on_two_hots_which_is_a_note() -> None:
    """Joined to both legs on purpose, for the loads on one hot."""
    assert levels(house(split=False), RULE) == {("MA1",): Level.NOTE}


def test_an_open_hot_of_the_set() -> None:
    draft = house()
    draft.cut("w2")
    draft.run("G1.out", "QT1.in2", "w2", poles="L1 N PE", **RUN)
    (cause,) = [f for f in analyse(draft.design).findings if f.rule == RULE]
    assert (cause.subjects, cause.level) == (("QP1",), Level.WARNING)
    assert "G1 never brings all" in cause.message
    told = {hit.subjects: hit for hit in found(draft, RULE)}
    assert "no way back" in told["MA1",].message
    assert told["MA1",].level is Level.WARNING
    assert [f.subjects for f in cause.consequences if f.rule == RULE] == [("MA1",)]


def test_a_set_of_one_leg_on_one_hot_of_the_board_is_a_note() -> None:
    draft = house(split=False)
    draft.cut("w2")
    draft.run("G1.out", "QT1.in2", "w2", poles="L>L1 N PE", **RUN)
    assert levels(draft, RULE)[("QP1",)] is Level.NOTE


def test_an_automatic_switch_between_the_hots_does_not_take_a_set_of_one_leg() -> None:
    draft = house("transfer_automatic", split=False)
    told = found(draft, RULE)
    assert [(hit.subjects, hit.level) for hit in told] == [(("QT1",), Level.WARNING)]
    assert "never goes over to G1" in told[0].message
    assert "its input set" in told[0].message
    draft.rate("QT1", senses="neutral")
    assert levels(draft, RULE) == {("MA1",): Level.NOTE}


def test_an_open_neutral_is_not_noticed_between_the_hots_and_is_to_the_neutral() -> None:
    """The first closes on it, and the lamp and all else on 120 V lie in series."""
    draft = house("transfer_automatic")
    draft.cut("w2")
    draft.run("G1.out", "QT1.in2", "w2", poles="L1 L2 PE", **RUN)
    draft.part("breaker", "QF3", rating="15 A")
    draft.seat("QF3", "QP1", "4")
    draft.part("lamp", "EL2", power="300 W")
    draft.run("QF3.load", "EL2.in", "w6", size="14 AWG", length="10 ft")
    assert found(draft, RULE) == []
    # in series on 240 V by 100 to 300 W: the smaller gets three quarters
    wrong = {hit.subjects: hit for hit in found(draft, "voltage-wrong")}
    assert number(wrong["EL1",], "voltage at it") == pytest.approx(180.0, abs=2.0)
    assert number(wrong["EL2",], "voltage at it") == pytest.approx(60.0, abs=2.0)
    draft.rate("QT1", senses="neutral")
    assert found(draft, "voltage-wrong") == []
    assert [hit.subjects for hit in found(draft, RULE)] == [("QT1",)]


def test_beside_a_supply_that_is_never_dead_the_switch_is_not_judged() -> None:
    draft = house("transfer_automatic", split=False)
    draft.rate("GS1", outage="no")
    assert found(draft, RULE) == []


def test_it_waits_for_all_states() -> None:
    draft = house("transfer_automatic", split=False)
    partial = analyse(draft.design, shown="G1=running")
    assert RULE not in {f.rule for f in partial.findings}


def outlet(poles: str, **source: str) -> Draft:
    """An outlet for 240 V on a supply of two legs."""
    d = Draft(place="building")
    d.part("supply", "GS1", **({"circuit": "split", "outage": "no"} | source))
    d.part("outlet", "XD1", circuit="ac240", configuration="6-20")
    d.run("GS1.out", "XD1.feed", "w1", poles=poles, size="12 AWG", length="10 ft")
    return d


def test_an_outlet_of_two_hots_fed_twice_from_one_leg() -> None:
    (hit,) = found(outlet("L1 L1>L2 PE"), RULE)
    assert (hit.subjects, hit.level) == (("XD1",), Level.WARNING)
    assert "0 V between them" in hit.message
    assert found(outlet("L1 L2 PE"), RULE) == []


def test_on_a_supply_of_one_leg_it_is_a_note() -> None:
    assert levels(outlet("L>L1 L>L2 PE", circuit="ac"), RULE) == {("XD1",): Level.NOTE}


def test_a_set_that_is_switched_to_one_voltage_brings_two_in_its_other_position() -> None:
    d = Draft(place="field")
    d.part("generator", "G1", circuit="split", power="5 kVA", switch_120="in_phase")
    d.part("breaker", "QF1", circuit="split", rating="20 A")
    d.seat("QF1", "G1", "1")
    d.part("outlet", "XD1", circuit="split", configuration="L14-30")
    d.seat("XD1", "QF1", "load")
    assert found(d, RULE) == []


def by_inlet(poles: str) -> Draft:
    """A set that feeds a board of one hot by cord and inlet."""
    d = Draft(place="building")
    d.part("generator", "G1", power="3 kVA", neutral="bonded")
    d.part("outlet", "XD1", configuration="L5-30")
    d.seat("XD1", "G1", "1")
    d.part("plug", "XP1", configuration="L5-30")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration="L5-30")
    d.run("XP1.cord", "XI1.outside", "w1", installation="cord", **RUN)
    d.part("panel", "QP1", bond="absent")
    d.run("XI1.inside", "QP1.feed", "w2", poles=poles, **RUN)
    return d


def test_what_comes_in_at_an_inlet_and_reaches_nothing() -> None:
    assert found(by_inlet("L N PE"), RULE) == []
    (hit,) = found(by_inlet("N PE"), RULE)
    assert (hit.subjects, hit.level) == (("XI1",), Level.WARNING)
    assert "reaches nothing" in hit.message


def test_a_hybrid_refuses_a_supply_of_which_one_leg_is_on_both_hots() -> None:
    draft = RIGS["homestead"]()
    assert found(draft, RULE) == []
    draft.run_poles("W1", "L1>L1 L1>L2 N PE")
    (only,) = found(draft, RULE)
    assert (only.subjects, only.level) == (("TB1",), Level.WARNING)
    assert "never passes GS1 on, as it does G1" in only.message
