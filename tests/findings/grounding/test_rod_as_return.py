"""Soil as the only way back."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import camp, house
from tests.findings.told import found, number

RULE = "rod-as-return"


def rod(ohm: str = "25 ohm", site: str = "0 ohm", **breaker: str) -> Draft:
    """A machine on a 15 A circuit without a ground wire; a rod stands beside it."""
    draft = house(electrode=site)
    draft.rate("QF1", **({"rating": "15 A"} | breaker))
    draft.run_poles("W2", "L N")
    draft.part("electrode", "XE1", resistance=ohm)
    draft.run("EA1.in", "XE1.ground", "W3", size="6 AWG", length="6 ft", installation="jumper")
    return draft


def test_a_rod_of_25_ohm_passes_4_8_a_and_trips_nothing() -> None:
    # 120 V over a rod of 25 ohm as the only return: 4.8 A, a 15 A breaker does not trip, the case
    # stands near 120 V (trade magazine, ecmweb.com/content/article/20886840/
    # the-path-of-least-resistance)
    draft = rod()
    draft.rate_run("W1", length="1 ft")
    draft.rate_run("W2", length="1 ft")
    (hit,) = found(draft, RULE)
    assert (hit.subjects, hit.level) == (("EA1",), Level.DANGER)
    assert number(hit, "fault current") == pytest.approx(4.8, abs=0.01)
    assert number(hit, "voltage on metal") == pytest.approx(120.0, abs=0.5)


def test_the_missing_ground_wire_is_its_cause() -> None:
    (cause,) = found(rod(), "ground-open")
    assert {(c.rule, c.where) for c in cause.consequences} >= {(RULE, ("EA1",))}


def test_with_a_ground_wire_the_rod_does_no_harm() -> None:
    draft = rod()
    draft.run_poles("W2", "L N PE")
    assert found(draft, RULE) == []


def test_a_ground_fault_device_makes_the_rod_enough() -> None:
    assert found(rod(ground_fault="class_a"), RULE) == []


@pytest.mark.parametrize(("ohm", "told"), [("1660 ohm", False), ("1680 ohm", True)])
def test_electrode_times_threshold_is_at_most_fifty_volts(ohm: str, told: bool) -> None:
    # IEC 60364-4-41 411.5.3: RA x Idn <= 50 V, for 30 mA 1667 ohm
    hits = found(rod(ohm, ground_fault="rcd_30"), RULE)
    assert bool(hits) is told
    if told:
        assert number(hits[0], "voltage on metal") == pytest.approx(1680.0 * 0.03)


def test_a_device_that_acts_too_late_is_not_enough() -> None:
    # 9 kohm drive 13 mA: class A takes (20 / 13)**1.43 = 1.8 s (UL 943), 0.8 s are allowed
    assert number(found(rod("9 kohm", ground_fault="class_a"), RULE)[0], "fault current") < 0.014


def test_ordinary_designs_are_silent() -> None:
    assert found(house(), RULE) == []
    assert found(camp(), RULE) == []
