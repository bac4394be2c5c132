"""Loads that run for hours, and the 80 % of a device."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import house, levels
from tests.findings.told import cured, found, number

RULE = "long-load-above-supply"

EIGHTY = (
    (15, 12),
    (20, 16),
    (25, 20),
    (30, 24),
    (35, 28),
    (40, 32),
    (45, 36),
    (50, 40),
    (60, 48),
    (70, 56),
    (80, 64),
    (90, 72),
    (100, 80),
    (110, 88),
    (125, 100),
    (150, 120),
    (175, 140),
)
"""Non-motor load allowed on each breaker (basic design practice, a forest service's guide,
info.5y1.org/240v-50-amp-generator_1_7ba407.html)."""


def long_load(breaker: float, amps: float) -> Draft:
    """A load that runs for hours on a breaker, behind thick wires."""
    draft = house(breaker="400 A", prospective="9 kA")
    draft.rate("QP1", bus="400 A")
    draft.rate_run("W1", size="600 kcmil", length="1 ft")
    draft.rate("QF1", rating=f"{breaker} A")
    draft.rate_run("W2", size="4/0 AWG", length="1 ft", terminals="75")
    draft.rate("EA1", power=f"{amps * 120.0:.2f} W", continuous="yes")
    return draft


@pytest.mark.parametrize(("breaker", "most"), EIGHTY)
def test_eighty_percent_of_every_breaker(breaker: float, most: float) -> None:
    assert found(long_load(breaker, most), RULE) == []
    assert levels(long_load(breaker, most * 1.001), RULE) == {("QF1",): Level.WARNING}


def test_the_same_load_for_minutes_is_silent() -> None:
    draft = long_load(20, 19)
    assert number(found(draft, RULE)[0], "rating needed") == pytest.approx(23.7, abs=0.1)
    draft.rate("EA1", continuous="no")
    assert found(draft, RULE) == []


def test_short_and_long_together() -> None:
    # 210.20(A): 8 A for minutes and 125 % of 10 A for hours are 20.5 A
    draft = long_load(20, 10)
    draft.part("load", "EA2", power="960 W")
    draft.run("EA1.in", "EA2.in", "W3", size="12 AWG", length="1 ft")
    assert number(found(draft, RULE)[0], "rating needed") == pytest.approx(20.5, abs=0.1)


def test_a_larger_breaker_mends_it() -> None:
    draft = long_load(20, 18)
    assert cured(draft, found(draft, RULE)[0]).silent


def test_beyond_the_rating_another_finding_tells() -> None:
    draft = long_load(20, 22)
    assert found(draft, RULE) == []
    assert found(draft, "device-below-load") != []


def test_what_is_plugged_in_is_worth_knowing_and_told_once() -> None:
    """A heater of 12.5 A on 15 A: more than the 12 A of 210.23(A)(1), which the wire stands."""
    draft = house()
    draft.rate("QF1", rating="15 A")
    draft.cut("W2")
    draft.remove("EA1")
    draft.part("outlet", "XD1", configuration="5-15")
    draft.run("QF1.load", "XD1.feed", "W2", size="14 AWG", length="10 ft")
    draft.part("plug_load", "EP1", power="1500 W", continuous="yes", configuration="5-15")
    draft.seat("EP1", "XD1", "face")
    (finding,) = found(draft, RULE)
    assert finding.level is Level.NOTE
    assert "12 A are enough for its 15 A" in finding.message
    assert finding.mend is None
    assert not found(draft, "run-overloaded")
    draft.rate("EP1", power="1440 W")
    assert not found(draft, RULE)
    draft.rate("EP1", power="1900 W")
    assert found(draft, "device-below-load")
