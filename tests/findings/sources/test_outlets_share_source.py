"""Outlets of one source that add up to more than it delivers."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import caravan, levels
from tests.findings.told import found, gaps, number

RULE = "outlets-share-source"


def two_cords(power: str = "3 kVA", second: str = "cord_set") -> Draft:
    """A caravan's cord in the 30 A outlet, something in the 20 A one."""
    d = caravan(power=power)
    if second:
        answers = {"size": "12 AWG", "length": "25 ft"} if second == "cord_set" else {}
        d.part(second, "X9", configuration="5-20", **answers)
        d.seat("X9", "XD2", "face")
    return d


@pytest.mark.parametrize(("power", "told"), [("5.9 kVA", True), ("6 kVA", False)])
def test_two_outlets_in_use_on_a_small_set(power: str, told: bool) -> None:
    """By hand: (30 + 20) A at 120 V are 6 kVA."""
    hits = found(two_cords(power), RULE)
    assert [(h.subjects, h.level) for h in hits] == ([(("G1",), Level.NOTE)] if told else [])
    if told:
        assert number(hits[0], "outlets in use together") == pytest.approx(6000.0)


def test_one_outlet_in_use_shares_nothing() -> None:
    assert levels(two_cords(second=""), RULE) == {}


def test_one_plug_for_two_outlets_is_in_one_of_them() -> None:
    d = two_cords(second="")
    d.part("adapter", "XA1", configuration="5-20", connector="TT-30")
    d.seat("XA1", "XD2", "face")
    d.seat("XP1", "XA1", "face")
    assert levels(d, RULE) == {}
    d.part("plug", "XP2", configuration="TT-30")
    d.seat("XP2", "XA1", "face")
    assert levels(d, RULE) == {("G1",): Level.NOTE}


@pytest.mark.parametrize(("second", "third"), [("5-15", "5-20"), ("5-20", "5-15")])
def test_a_plug_of_two_outlets_counts_in_the_larger(second: str, third: str) -> None:
    """By hand: (30 + 20) A at 120 V, whatever the outlets are called."""
    d = two_cords("5.9 kVA", second="")
    d.rate("G1", outlets="3")
    d.rate("XD2", configuration=second)
    d.part("breaker", "QF9", rating="20 A")
    d.part("outlet", "XD3", configuration=third)
    d.seat("QF9", "G1", "3")
    d.seat("XD3", "QF9", "load")
    d.part("plug", "XP2", configuration="5-15")
    d.seat("XP2", "XD2", "face")
    d.seat("XP2", "XD3", "face")
    (hit,) = found(d, RULE)
    assert number(hit, "outlets in use together") == pytest.approx(6000.0)


def test_a_bonding_plug_takes_no_power() -> None:
    assert levels(two_cords(second="bond_plug"), RULE) == {}


def test_an_unknown_configuration_is_not_checked() -> None:
    d = two_cords()
    d.rate("XD2", configuration="X-99")
    assert [gap.where for gap in gaps(d, RULE)] == [("G1",)]
