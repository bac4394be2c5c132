"""How far from a boat's inlet its first devices lie."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.design.edits import change_settings
from linework.findings.model import Level
from tests.findings.grounding.test_inlet_leakage_missing import boat
from tests.findings.told import found, gaps, number

RULE = "inlet-devices-far"


def apart(feet: float, place: str = "boat", **breaker: str) -> Draft:
    """The boat with so many feet between its inlet and its main."""
    draft = boat(place, **({"ground_fault": "rcd_30"} | breaker))
    draft.rate_run("W2", length=f"{feet} ft")
    return draft


@pytest.mark.parametrize(("feet", "told"), [(6, False), (10, False), (10.2, True), (25, True)])
def test_the_main_lies_within_ten_feet(feet: float, told: bool) -> None:
    """ABYC E-11 (from memory): 10 ft, 3.05 m, along the conductors."""
    assert bool(found(apart(feet), RULE)) is told


def test_it_tells_how_far() -> None:
    (hit,) = found(apart(14), RULE)
    assert (hit.subjects, hit.level) == (("XI1",), Level.WARNING)
    assert number(hit, "conductor before it") == pytest.approx(14 * 0.3048)
    assert "14 ft" in hit.message
    assert "10 ft" in hit.message


def test_the_leakage_device_may_be_another_and_must_be_as_near() -> None:
    draft = boat(ground_fault="none")
    draft.rate("QP1", ground_fault="rcd_30", main="30 A", main_poles="all")
    assert found(draft, RULE) == []  # 6 ft and 3 ft
    draft.rate_run("W3", length="5 ft")
    (hit,) = found(draft, RULE)
    assert "between XI1 and QP1" in hit.message


def test_wires_that_end_in_a_load_count() -> None:
    draft = apart(6)
    draft.part("heater", "EH2", power="500 W")
    draft.run("XI1.inside", "EH2.in", "W10", size="10 AWG", length="12 ft")
    (hit,) = found(draft, RULE)
    assert number(hit, "conductor before it") == pytest.approx(12 * 0.3048)


def test_a_length_that_is_not_given_is_a_gap() -> None:
    draft = apart(6)
    draft.rate_run("W2", length=None)
    assert found(draft, RULE) == []
    assert [gap.where for gap in gaps(draft, RULE)] == [("XI1",)]


@pytest.mark.parametrize("place", ["recreational", "building"])
def test_elsewhere_it_is_not_asked(place: str) -> None:
    assert found(apart(25, place), RULE) == []


def test_where_no_figure_is_known_the_family_says_so() -> None:
    draft = apart(25)
    draft.design.apply(change_settings(draft.design, family="INT"))
    assert found(draft, RULE) == []
    assert any("inlet" in gap.reason for gap in gaps(draft, "not-analysed"))


def test_an_outlet_with_a_device_of_its_own_is_not_the_one_at_the_inlet() -> None:
    """What is missing at the inlet is told as that, and not as too far off."""
    draft = boat(ground_fault="none")
    draft.part("outlet", "XD8", configuration="5-15", ground_fault="class_a")
    draft.part("breaker", "QF8", rating="15 A")
    draft.seat("QF8", "QP1", "2")
    draft.run("QF8.load", "XD8.feed", "W11", size="14 AWG", length="20 ft")
    assert found(draft, RULE) == []
    assert found(draft, "inlet-leakage-missing")
