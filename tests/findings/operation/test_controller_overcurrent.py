"""What an array drives into its controller."""

from __future__ import annotations

import pytest

from tests.findings.banks import PLATE, van
from tests.findings.told import found, gaps, number

RULE = "controller-overcurrent"


def test_a_strong_array_on_a_small_controller() -> None:
    draft = van(strings="3")
    draft.rate("TC1", pv_current="15 A")
    (hit,) = found(draft, RULE)
    assert hit.subjects == ("TC1",)
    assert number(hit, "current of the array") == pytest.approx(18.0)


def test_the_limit_of_the_manual_is_allowed() -> None:
    """Makers state the largest short-circuit current itself, without a margin."""
    draft = van(strings="3")
    draft.rate("TC1", pv_current="18 A")
    assert found(draft, RULE) == []


def test_more_power_than_it_uses_is_only_lost() -> None:
    draft = van(series="4", strings="3")  # 1188 W on 20 A at 12 V
    assert found(draft, RULE) == []


def test_without_the_manual_it_is_asked_for() -> None:
    draft = van(strings="4")  # 24 A on 20 A
    draft.rate("TC1", pv_current=None)
    assert found(draft, RULE) == []
    (gap,) = gaps(draft, RULE)
    assert gap.where == ("TC1",)
    assert gaps(van(strings="3"), RULE) == []


@pytest.mark.parametrize(("rating", "too_small"), [("7.5 A", False), ("7.4 A", True)])
def test_one_that_joins_array_and_battery_carries_bright_sun(rating: str, too_small: bool) -> None:
    """NFPA 70 690.8(A)(1): 125 % of 6 A."""
    draft = van(series="1")
    draft.rate("TC1", type="pwm", current=rating)
    assert bool(found(draft, RULE)) is too_small


def test_two_arrays_on_one_controller_add_up() -> None:
    draft = van()
    draft.rate("TC1", pv_current="10 A")
    assert found(draft, RULE) == []
    draft.part("solar_array", "GP2", **PLATE, series="2")
    draft.run("GP2.dc", "QB2.line", "W30", size="10 AWG", length="10 ft")
    (hit,) = found(draft, RULE)
    assert number(hit, "current of the array") == pytest.approx(12.0)
