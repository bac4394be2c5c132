"""Touchable metal that is live in normal use."""

from __future__ import annotations

import math

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.design.edits import change_settings
from linework.findings.model import Level
from tests.findings.camps import camp, caravan, house, levels
from tests.findings.told import found, number

RULE = "metal-live"


def test_hot_and_ground_exchanged_at_an_outlet_is_a_danger() -> None:
    draft = camp()
    draft.run_poles("W3", "L>PE N PE>L")
    hits = found(draft, RULE)
    assert [(hit.subjects, hit.level) for hit in hits] == [(("W3",), Level.DANGER)]
    assert number(hits[0], "voltage with a person in between") == pytest.approx(120.0, rel=0.01)


def test_the_same_at_a_load() -> None:
    draft = camp()
    draft.run_poles("W2", "L>PE N PE>L")
    assert levels(draft, RULE) == {("W2",): Level.DANGER}


def test_straight_wires_are_silent_with_and_without_earth_and_chassis() -> None:
    for draft in (camp(), house(), caravan()):
        assert found(draft, RULE) == []


def test_hot_and_neutral_exchanged_put_nothing_on_metal() -> None:
    draft = caravan()
    draft.run_poles("W1", "L>N N>L PE")
    assert found(draft, RULE) == []


def test_a_floating_source_puts_nothing_on_metal_that_a_person_could_feel() -> None:
    # what the stray capacitance of the set drives falls away with 1000 ohm across it
    draft = camp(neutral="floating")
    draft.run_poles("W3", "L>PE N PE>L")
    assert found(draft, RULE) == []


@pytest.mark.parametrize(
    ("volts", "wet", "told"),
    [
        (4, False, None),
        (8, False, Level.NOTE),
        (12, False, Level.DANGER),
        (48, False, Level.DANGER),
        (52, False, Level.DANGER),
        (12, True, Level.DANGER),
    ],
)
def test_what_counts_is_the_current_through_a_person(
    volts: int, wet: bool, told: Level | None
) -> None:
    """IEC 60479-1: from 5 mA on some cannot let go, from 10 mA on grown men; 1,000 ohm."""
    draft = Draft(place="building", voltage=f"{volts} V")
    draft.design.apply(change_settings(draft.design, wet=wet))
    draft.part("supply", "GS1", breaker="20 A", prospective="2 kA", outage="no", electrode="1 ohm")
    draft.part("load", "EA1", power="10 W")
    draft.run("GS1.out", "EA1.in", "W1", poles="L>PE N PE>L", size="12 AWG", length="10 ft")
    assert levels(draft, RULE) == ({("W1",): told} if told else {})
    for hit in found(draft, RULE):
        assert number(hit, "current through a person") == pytest.approx(volts / 1000.0, rel=0.02)
        assert ("can kill" in hit.message) == (volts > 50)


def on_a_broken_ground(capacitor: str) -> Draft:
    """A vehicle on a cord without a ground wire; what it feeds leaks into its chassis."""
    d = house()
    d.part("electrode", "XE1", resistance="10 ohm")
    d.run("QP1.ground", "XE1.ground", size="6 AWG", length="10 ft")
    d.part("breaker", "QF9", rating="20 A", interrupting="10 kA")
    d.seat("QF9", "QP1", "3")
    d.part("panel", "QP2", "trailer", bond="absent", main="20 A")
    d.run("QF9.load", "QP2.feed", "W9", size="12 AWG", length="25 ft", broken="PE")
    d.part("breaker", "QF8", rating="15 A")
    d.seat("QF8", "QP2", "1")
    d.part("electronic_load", "EE1", power="100 W", filter=capacitor)
    d.run("QF8.load", "EE1.in", "W8", size="14 AWG", length="5 ft")
    d.part("body", "XB1", name="trailer")
    d.run("QP2.ground", "XB1.tie", size="8 AWG", length="2 ft", installation="jumper")
    return d


@pytest.mark.parametrize(
    ("capacitor", "told"),
    # by hand: two capacitors make half of 120 V, and drive 60 V x 2 pi 60 Hz x 2 C
    [("5 nF", None), ("47 nF", Level.NOTE), ("150 nF", Level.WARNING), ("300 nF", Level.DANGER)],
)
def test_what_leaks_into_a_chassis_whose_ground_wire_is_open(
    capacitor: str, told: Level | None
) -> None:
    d = on_a_broken_ground(capacitor)
    hits = found(d, RULE)
    assert [hit.level for hit in hits] == ([told] if told else [])
    for hit in hits:
        assert "XB1" in hit.where
        assert number(hit, "voltage before it is touched") == pytest.approx(60.0, abs=1.0)
        farad = 2.0 * float(capacitor.split()[0]) * 1e-9
        by_hand = 60.0 * 2.0 * math.pi * 60.0 * farad
        assert number(hit, "current through a person") == pytest.approx(by_hand, rel=0.1)
    d.rate_run("W9", broken="none")
    assert found(d, RULE) == []


def exchanged_with_ground(body: bool) -> Draft:
    """A house whose outlet has its hot wire on the neutral and the ground contact; a vehicle."""
    d = house()
    d.part("electrode", "XE1")
    d.run("QP1.ground", "XE1.ground", size="6 AWG", length="10 ft")
    d.part("breaker", "QF9", rating="15 A", interrupting="10 kA")
    d.seat("QF9", "QP1", "3")
    d.part("outlet", "XD9", configuration="5-15")
    d.run("QF9.load", "XD9.feed", "W9", poles="L>N N>L L>PE", size="14 AWG", length="40 ft")
    if body:
        d.part("body", "XB1", name="trailer")
        d.run("XD9.onward", "XB1.tie", poles="PE>body", size="10 AWG", length="20 ft")
    return d


@pytest.mark.parametrize("body", [False, True])
def test_the_live_skin_is_told_and_not_what_is_grounded(body: bool) -> None:
    hits = found(exchanged_with_ground(body), RULE)
    assert [hit.subjects for hit in hits] == [("W9", "XB1") if body else ("W9",)]
    assert number(hits[0], "voltage with a person in between") > 100.0


def test_where_another_wire_grounds_it_too_it_is_a_short_with_all_that_follows() -> None:
    draft = caravan()
    draft.part("charger", "TB1", current="30 A")
    draft.part("breaker", "QF5", rating="15 A")
    draft.seat("QF5", "QP1", "2")
    strap = {"size": "8 AWG", "length": "2 ft", "installation": "jumper"}
    draft.run("TB1.case", "XB1.tie", "W6", **strap)
    draft.run("QF5.load", "TB1.ac_in", "W7", size="14 AWG", length="10 ft")
    assert found(draft, RULE) == []
    draft.run_poles("W7", "L>PE N PE>L")
    (hit,) = found(draft, RULE)
    assert (hit.subjects, hit.level) == (("W7",), Level.DANGER)
    assert "a short" in hit.message
    top = [f for f in analyse(draft.design).findings if f.level > Level.NOTE]
    assert [f.rule for f in top] == [RULE]
