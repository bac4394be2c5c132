"""Vans and boats whose engine charges: the sound one is silent, one mistake is found."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.cases.judged import Judged
from tests.findings.banks import THICK
from tests.findings.engines import FUSE, LEAD, with_dc_charger, with_relay, with_selector
from tests.findings.test_enumeration import assert_as_enumerated
from tests.findings.test_windings import told
from tests.findings.told import found, gaps
from tests.trial.rigs import RIGS

RULE = "alternator-at-risk"


def test_a_dc_charger_between_the_batteries_is_sound() -> None:
    assert told(with_dc_charger()) == set()


def test_it_takes_what_it_gives_and_loses() -> None:
    # 30 A at 13.5 V, 90 %: 450 W from starter battery and alternator, and what the wires lose
    draft = with_dc_charger()
    report = Judged(draft).report("G2=running", "TB5=on")
    given = {s.part: s.watts for s in report.sources}
    assert given["G2"] + given["GB2"] == pytest.approx(30.0 * 13.5 / 0.9, rel=0.06)


def test_the_cable_of_a_dc_charger_behind_a_larger_fuse() -> None:
    draft = with_dc_charger()
    draft.rate_run("W54", size="12 AWG")
    assert "W54" in {place for _, where in told(draft) for place in where}


def test_a_dc_charger_on_a_battery_of_another_voltage() -> None:
    draft = with_dc_charger(in_voltage="24 V")
    assert ("voltage-wrong", ("TB5",)) in told(draft)
    assert ("voltage-wrong", ("TB5",)) in told(with_dc_charger(dc_voltage="24 V"))


def test_a_lithium_bank_behind_a_dc_charger_does_not_strain_the_alternator() -> None:
    draft = with_dc_charger()
    draft.rate("GB1", chemistry="lithium")
    assert found(draft, RULE) == []


def test_a_charge_relay_between_two_lead_batteries_is_sound() -> None:
    assert told(with_relay()) == set()


def test_through_a_charge_relay_a_lithium_bank_strains_the_alternator() -> None:
    draft = with_relay()
    draft.rate("GB1", chemistry="lithium")
    (finding,) = found(draft, RULE)
    assert (finding.level, finding.subjects) == (Level.WARNING, ("G2",))
    assert "QA5=joined" in " ".join(finding.states)


def test_the_cable_of_a_relay_behind_fuses_too_large_for_it() -> None:
    draft = with_relay()
    draft.rate_run("W54", size="10 AWG")
    assert "W54" in {place for _, where in told(draft) for place in where}


def test_a_selector_that_parts_the_alternator_from_its_batteries() -> None:
    assert told(with_selector("F1.load")) == set()
    ((rule, where),) = told(with_selector())
    assert (rule, where) == (RULE, ("G2",))
    (finding,) = found(with_selector(), RULE)
    assert any("QB1=off" in state for state in finding.states)


def behind_a_disconnect(alternator_on: str) -> Draft:
    """A boat with one battery, its disconnect, an alternator and a pump."""
    d = Draft(place="boat")
    d.part("battery", "GB1", capacity="100 Ah", chemistry="flooded", fault_current="2 kA")
    d.part("fuse", "F1", rating="150 A", **FUSE)
    d.part("battery_disconnect", "QB1", rating="300 A")
    d.run("GB1.dc", "F1.line", "A", length="0.5 ft", **THICK)
    d.run("F1.load", "QB1.line", "B", length="2 ft", **THICK)
    d.part("alternator", "G2", current="60 A")
    d.run(alternator_on, "G2.dc", "C", length="4 ft", **THICK)
    d.part("fuse", "F3", rating="20 A", **FUSE)
    d.run("QB1.load", "F3.line", "E", length="0.5 ft", **LEAD)
    d.part("load", "EA1", circuit="dc", voltage="12 V", power="120 W")
    d.run("F3.load", "EA1.in", "D", length="10 ft", size="10 AWG")
    return d


def test_a_disconnect_that_parts_the_alternator_from_its_battery() -> None:
    """On the battery's side of it, and behind a breaker, which only a fault opens, nothing is."""
    assert found(behind_a_disconnect("F1.load"), RULE) == []
    (finding,) = found(behind_a_disconnect("QB1.load"), RULE)
    assert (finding.level, finding.where) == (Level.NOTE, ("G2",))
    assert "QB1" in finding.message
    draft = behind_a_disconnect("F1.load")
    draft.part("breaker", "QF9", circuit="dc", rating="100 A", direct="yes", interrupting="5 kA")
    draft.cut("C")
    draft.run("F1.load", "QF9.line", "C1", length="1 ft", **THICK)
    draft.run("QF9.load", "G2.dc", "C2", length="4 ft", **THICK)
    assert found(draft, RULE) == []


@pytest.mark.parametrize("draw", [with_dc_charger, with_relay, with_selector])
def test_its_live_circuits_are_those_of_all_states(draw) -> None:  # type: ignore[no-untyped-def]
    assert_as_enumerated(draw().design)


def test_an_alternator_whose_battery_has_lost_its_minus() -> None:
    draft = with_selector("F1.load")
    draft.cut("C1")
    (finding,) = found(draft, RULE)
    assert finding.subjects == ("G2",)
    assert "without a battery" in finding.message


def test_the_cable_of_a_starter_may_lie_behind_any_fuse() -> None:
    # ABYC E-11: conductors to cranking motors need none; by good practice some get a large one
    d = with_selector("F1.load")
    d.part("motor", "MA1", circuit="dc", voltage="12 V", power="1.2 kW", duty="starter")
    d.run("QB1.load", "MA1.in", "S1", poles="+", length="4 ft", size="2 AWG")
    d.run("MA1.in", "WC1.feed", "S2", poles="-", length="4 ft", size="2 AWG")
    d.rate("WC1", rating="200 A")  # 2 x 150 A could come back from a load that lasts
    assert {place for _, place in told(d) if {"S1", "S2", "WC1"} & set(place)} == set()
    d.rate("MA1", duty="motor")
    assert {"S1", "S2", "WC1"} <= {name for _, place in told(d) for name in place}


def test_a_dc_charger_turned_round_empties_what_it_should_fill() -> None:
    d = with_dc_charger()
    assert found(d, "charger-turned") == []
    d.cut("W54", "W56")
    lead = {"size": "4 AWG", "terminals": "75", "insulation": "90"}
    d.run("F11.load", "TB5.dc", "W54", length="10 ft", **lead)
    d.run("F12.load", "TB5.dc_in", "W56", length="3 ft", **lead)
    # the sun fills the house bank: it may be meant to keep the starter's full
    assert found(d, "charger-turned") == []
    d.remove("GP1", "TC1")
    (finding,) = found(d, "charger-turned")
    assert finding.subjects == ("TB5",)
    assert "GB2, which G2 charges" in finding.message


@pytest.mark.parametrize(("chemistry", "asked"), [(None, True), ("flooded", False)])
def test_a_chemistry_that_is_not_given_decides(chemistry: str | None, asked: bool) -> None:
    draft = with_relay()
    draft.rate("GB2", chemistry=chemistry)
    assert found(draft, RULE) == []
    assert {gap.where for gap in gaps(draft, RULE)} == ({("GB2",)} if asked else set())


def test_what_helps_a_starter_by_a_charge_relay_is_no_cranking_circuit() -> None:
    """The lead of the second battery to the relay, without its fuse: 3 ft that nothing guards."""
    d = RIGS["rescue_van"]()
    d.rate("F6", type="mega")
    assert not [hit for hit in found(d, "run-unprotected") if "W23" in hit.subjects]
    d.remove("F6")
    d.run("GB3.dc", "QA1.load", "W99", poles="+", size="2 AWG", length="3 ft")
    hits = [hit for hit in found(d, "run-unprotected") if "W99" in hit.subjects]
    assert {hit.level for hit in hits} == {Level.DANGER}
