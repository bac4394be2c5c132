"""Bare pins that are live from behind."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import CORD, caravan, levels
from tests.findings.told import found, number

RULE = "pins-live"


def two_inlets(lever: bool) -> Draft:
    """Shore by one inlet, a second inlet for a set; joined, or parted by a transfer switch."""
    draft = Draft(place="field")
    draft.part("supply", "GS1", breaker="30 A", outage="no")
    draft.part("inlet", "XI1", configuration="TT-30")
    draft.part("inlet", "XI2", configuration="TT-30")
    draft.run("GS1.out", "XI1.outside", "W1", length="25 ft", **CORD)
    draft.part("panel", "QP1", bond="absent")
    if lever:
        draft.part("transfer_switch", "QT1")
        draft.run("XI1.inside", "QT1.in1", "W2", size="10 AWG", length="5 ft")
        draft.run("XI2.inside", "QT1.in2", "W3", size="10 AWG", length="5 ft")
        draft.run("QT1.load", "QP1.feed", "W4", size="10 AWG", length="5 ft")
    else:
        draft.run("XI1.inside", "QP1.feed", "W2", size="10 AWG", length="5 ft")
        draft.run("XI2.inside", "QP1.feed", "W3", size="10 AWG", length="5 ft")
    return draft


def test_the_pins_of_a_second_inlet_are_live_from_the_first() -> None:
    draft = two_inlets(lever=False)
    assert levels(draft, RULE) == {("XI2",): Level.DANGER}
    assert number(found(draft, RULE)[0], "voltage on the pins") == 120.0


def test_a_lever_between_them_makes_it_silent() -> None:
    assert found(two_inlets(lever=True), RULE) == []


def test_a_cord_on_the_pins_covers_them() -> None:
    draft = two_inlets(lever=False)
    draft.part("plug", "XP2", configuration="TT-30")
    draft.run("XP2.cord", "XI2.outside", "W9", length="10 ft", **CORD)
    # and bares those of the plug at its other end instead
    assert levels(draft, RULE) == {("XP2",): Level.DANGER}
    assert "so are those of XI2" in found(draft, RULE)[0].message


def test_a_lead_without_a_plug_can_be_taken_off_at_the_inlet() -> None:
    """A second source aboard reaches the pins that the lead of the first covers."""
    draft = two_inlets(lever=False)
    draft.cut("W1")
    draft.part("generator", "G1", power="3 kVA")
    draft.run("G1.out", "XI2.outside", "W9", length="10 ft", **CORD)
    draft.part("generator", "G2", power="3 kVA")
    draft.run("G2.out", "QP1.feed", "W8", size="10 AWG", length="10 ft")
    told = {hit.subjects: hit for hit in found(draft, RULE)}
    assert "With its lead taken off" in told["XI2",].message
    assert told["XI2",].level is Level.DANGER
    assert "G2" in told["XI2",].message
    draft.cut("W8")
    assert ("XI2",) not in levels(draft, RULE)


def test_an_inlet_that_only_its_lead_feeds_is_silent() -> None:
    draft = caravan()
    draft.cut("W1")
    draft.run("G1.out", "XI1.outside", "W1", length="25 ft", **CORD)
    assert found(draft, RULE) == []


def test_a_plug_in_its_outlet_is_silent() -> None:
    assert found(caravan(), RULE) == []


def test_a_cord_with_plugs_at_both_ends_is_live_at_the_free_one() -> None:
    # NFPA 70 406.7(B): no energised pins when withdrawn
    draft = caravan()
    draft.part("plug", "XP2", configuration="5-15")
    draft.part("outlet", "XD3", configuration="5-20")
    draft.part("breaker", "QF4", rating="20 A")
    draft.seat("QF4", "QP1", "2")
    draft.run("QF4.load", "XD3.feed", "W8", size="12 AWG", length="9 ft")
    draft.run("XD3.onward", "XP2.cord", "W9", size="12 AWG", length="9 ft", installation="cord")
    draft.seat("XP2", "XD2", "face")
    # out of the set's outlet its pins are live from the board
    hits = found(draft, RULE)
    assert {hit.subjects for hit in hits} == {("XP1",), ("XP2",)}
    assert all(hit.states for hit in hits)
    assert all("unplugged" in state for hit in hits for state in hit.states)
    assert any("so are those of XI1" in hit.message for hit in hits)


@pytest.mark.parametrize(
    ("volts", "level"), [("12 V", Level.NOTE), ("48 V", Level.NOTE), ("96 V", Level.DANGER)]
)
def test_pins_of_low_direct_voltage_are_a_note(volts: str, level: Level) -> None:
    """IEC 60364-4-41 (from memory): 60 V of direct current may be touched where it is wet."""
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", voltage=volts, fault_current="2 kA")
    draft.part("fuse", "F1", rating="30 A", type="class_t", interrupting="20 kA")
    draft.part("plug", "XP1", circuit="dc", configuration="trailer 7-way")
    draft.run("GB1.dc", "F1.line", "W1", size="10 AWG", length="0.5 ft")
    draft.run("F1.load", "XP1.cord", "W2", size="10 AWG", length="10 ft")
    assert levels(draft, RULE) == {("XP1",): level}


def test_a_cord_from_outlet_to_outlet_is_one_finding_with_all_it_feeds_backwards() -> None:
    """A set's cord, a plug at both ends, into an outlet of a board that nothing else feeds."""
    draft = caravan()
    draft.cut("W1")
    draft.remove("XI1")
    draft.part("outlet", "XD3", configuration="5-20")
    draft.part("breaker", "QF4", rating="20 A")
    draft.seat("QF4", "QP1", "2")
    draft.run("QF4.load", "XD3.feed", "W8", size="12 AWG", length="9 ft")
    draft.part("plug", "XP2", configuration="5-20")
    draft.run("XP1.cord", "XP2.cord", "W9", length="9 ft", **CORD)
    draft.seat("XP2", "XD3", "face")
    (hit,) = found(draft, RULE)
    assert hit.subjects == ("W9", "XP1", "XP2")
    assert hit.message.startswith("W9 has a plug at both ends, XP1, XP2:")
    top = [f for f in analyse(draft.design).findings if f.level > Level.NOTE]
    assert top[0].rule == RULE
    assert {f.rule for f in top} <= {RULE, "chassis-unbonded", "load-never-fed", "cord-use"}


def with_a_cord_set() -> Draft:
    """The caravan with a cord set of one piece from the set's outlet to the inlet."""
    draft = caravan()
    draft.remove("XP1")
    draft.part("cord_set", "WX1", configuration="TT-30", connector="TT-30", size="10 AWG")
    draft.rate("WX1", length="25 ft")
    draft.seat("WX1", "XD1", "face")
    draft.seat("XI1", "WX1", "face")
    return draft


def test_a_cord_set_that_feeds_an_inlet_comes_off_with_what_it_brings() -> None:
    assert found(with_a_cord_set(), RULE) == []


def test_behind_a_cord_set_the_pins_may_be_live_from_aboard() -> None:
    draft = with_a_cord_set()
    draft.part("battery", "GB1", capacity="100 Ah")
    draft.part("fuse", "F1", rating="100 A", type="class_t")
    draft.seat("F1", "GB1", "post")
    draft.part("inverter", "TB1", power="600 VA", neutral="floating")
    draft.run("F1.load", "TB1.dc", "W8", size="4 AWG", length="3 ft")
    draft.run("TB1.ac_out", "XI1.inside", "W9", size="10 AWG", length="3 ft")
    assert {hit.level for hit in found(draft, RULE)} == {Level.DANGER}
