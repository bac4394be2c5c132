"""Published examples of loads and what feeds them."""

from __future__ import annotations

import pytest

from linework.codes import family
from linework.study.demand.dwelling import (
    FIRST,
    NEXT,
    REST,
    Appliance,
    Dwelling,
    Use,
    neutral_va,
    optional,
    standard,
)
from tests.examples.published import published


@published("072", "Basic code rules and design practice", "info.5y1.org/240v-50-amp-generator")
def test_the_largest_continuous_load_of_each_breaker() -> None:
    # 80 %: the inverse of the 125 % rule.
    breakers = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175]
    loads = [12, 16, 20, 24, 28, 32, 36, 40, 48, 56, 64, 72, 80, 88, 100, 120, 140]
    rules = family("NA", "2023")
    for breaker, load in zip(breakers, loads, strict=True):
        assert rules.standard_up(rules.design_current(0.0, load).value).value == breaker
        assert rules.standard_up(rules.design_current(0.0, load + 0.1).value).value > breaker


DEMANDS = family("NA", "2023").demands()


@published("075", "NFPA 70 (2005) annex D, example D1(a)", "flylib.com/books/en/2.419.1")
def test_a_dwelling_by_the_standard_method() -> None:
    house = Dwelling(
        1500.0,
        (Appliance("range", 12_000.0, Use.RANGE), Appliance("dryer", 5500.0, Use.DRYER)),
    )
    found = standard(house, DEMANDS)
    general = [line for line in found.lines if line.counts and line.what in (FIRST, NEXT)]
    assert sum(line.of for line in general) == pytest.approx(9000.0)
    assert sum(line.counts for line in general) == pytest.approx(5100.0)
    assert found.total == pytest.approx(18_600.0)
    assert found.total / 240.0 == pytest.approx(78.0, abs=0.5)
    neutral = neutral_va(house, DEMANDS)
    assert neutral == pytest.approx(14_550.0)
    assert neutral / 240.0 == pytest.approx(61.0, abs=0.5)
    assert DEMANDS.figure("service").value == 100.0


@published("078", "NFPA 70 (2005) annex D, example D2(b)", "flylib.com/books/en/2.419.1")
def test_a_dwelling_by_the_optional_method() -> None:
    house = Dwelling(
        1500.0,
        (
            Appliance("ovens", 8000.0, Use.RANGE),
            Appliance("cooking unit", 5100.0, Use.RANGE),
            Appliance("water heater", 4500.0, Use.FIXED),
            Appliance("dishwasher", 1200.0, Use.FIXED),
            Appliance("washer and dryer", 5000.0, Use.DRYER),
            Appliance("air conditioning", 6 * 7 * 240.0, Use.COOLING),
        ),
    )
    found = optional(house, DEMANDS)
    general = [line for line in found.lines if line.counts and line.what in (FIRST, REST)]
    assert sum(line.of for line in general) == pytest.approx(32_800.0)
    assert sum(line.counts for line in general) == pytest.approx(19_120.0)
    assert found.total == pytest.approx(29_200.0)
    assert found.total / 240.0 == pytest.approx(122.0, abs=0.5)
