"""Dwellings beyond the published examples: boundaries of the shares, and what nobody said."""

from __future__ import annotations

import pytest

from linework.codes import CodesError, family
from linework.study.demand.dwelling import (
    COOLING,
    FIXED,
    HEATING,
    MOTOR,
    NEXT,
    RANGES,
    REST,
    UNSAID,
    Appliance,
    Dwelling,
    Use,
    neutral_va,
    optional,
    standard,
)
from linework.study.demand.lines import Calculation

DEMANDS = family("NA", "2023").demands()


def counts(found: Calculation, what: str) -> float:
    return sum(line.counts for line in found.lines if line.what == what)


def house(*appliances: Appliance, area: float = 1000.0) -> Dwelling:
    return Dwelling(area, appliances)


def fixed(number: int, va: float = 1000.0) -> tuple[Appliance, ...]:
    return tuple(Appliance(f"EA{n}", va, Use.FIXED) for n in range(number))


def test_a_share_of_four_appliances_and_more() -> None:
    # 220.53: three of 1000 VA in full, four at 75 %
    assert counts(standard(house(*fixed(3)), DEMANDS), FIXED) == pytest.approx(3000.0)
    assert counts(standard(house(*fixed(4)), DEMANDS), FIXED) == pytest.approx(3000.0)
    # what is below 500 W makes no fourth
    small = (*fixed(3), Appliance("fan", 100.0, Use.FIXED))
    assert counts(standard(house(*small), DEMANDS), FIXED) == pytest.approx(3100.0)


def test_of_heating_and_cooling_the_larger_counts() -> None:
    both = house(Appliance("EH1", 9000.0, Use.HEATING), Appliance("MA1", 5000.0, Use.COOLING))
    found = standard(both, DEMANDS)
    assert (counts(found, HEATING), counts(found, COOLING)) == (9000.0, 0.0)
    # by the optional method heating counts 65 %: 29 A of cooling at 240 V are 6960 VA and
    # 15 kW of heating 9750 VA; single-family dwelling by the optional method, jadelearning.com
    example = Dwelling(
        2800.0,
        (
            Appliance("range", 14_000.0, Use.RANGE),
            Appliance("water heater", 3000.0, Use.FIXED),
            Appliance("dryer", 5000.0, Use.DRYER),
            Appliance("dishwasher", 1500.0, Use.FIXED),
            Appliance("heat", 15_000.0, Use.HEATING),
            Appliance("air conditioning", 6960.0, Use.COOLING),
        ),
    )
    found = optional(example, DEMANDS)
    assert found.total == pytest.approx(30_310.0)
    assert found.total / 240.0 == pytest.approx(126.0, abs=0.5)


def test_four_heaters_controlled_apart_count_less() -> None:
    heaters = tuple(Appliance(f"EH{n}", 2000.0, Use.HEATING) for n in range(4))
    assert counts(optional(house(*heaters[:3]), DEMANDS), HEATING) == pytest.approx(3900.0)
    assert counts(optional(house(*heaters), DEMANDS), HEATING) == pytest.approx(3200.0)


def test_what_nobody_said_counts_in_full_by_both_methods() -> None:
    unsaid = Appliance("EA9", 20_000.0, Use.UNSAID)
    for method in (standard, optional):
        bare, more = method(house(), DEMANDS), method(house(unsaid), DEMANDS)
        assert counts(more, UNSAID) == 20_000.0
        assert more.total - bare.total == pytest.approx(20_000.0)


def test_the_largest_motor_counts_a_quarter_more() -> None:
    pump = Appliance("MA1", 1200.0, Use.FIXED, motor=True)
    fan = Appliance("MA2", 800.0, Use.FIXED, motor=True)
    assert counts(standard(house(pump, fan), DEMANDS), MOTOR) == pytest.approx(300.0)


def test_ranges_above_12_kw() -> None:
    # note 1 of table 220.55: 5 % for each kilowatt; 14 kW count 8.8 kW (sciemce.com)
    found = standard(house(Appliance("range", 14_000.0, Use.RANGE)), DEMANDS)
    assert counts(found, RANGES) == pytest.approx(8800.0)
    # up to 8.75 kW by the plate
    found = standard(house(Appliance("range", 8750.0, Use.RANGE)), DEMANDS)
    assert counts(found, RANGES) == pytest.approx(8750.0)


def test_more_ranges_than_the_table_has_is_refused() -> None:
    many = tuple(Appliance(f"EA{n}", 12_000.0, Use.RANGE) for n in range(6))
    with pytest.raises(CodesError):
        standard(house(*many), DEMANDS)


def test_a_very_large_dwelling_reaches_the_last_step() -> None:
    # 50 000 ft2 x 3 + 4500 = 154 500 VA: 3000 + 0.35 x 117 000 + 0.25 x 34 500
    found = standard(house(area=50_000.0), DEMANDS)
    assert counts(found, NEXT) == pytest.approx(40_950.0)
    assert counts(found, REST) == pytest.approx(8625.0)
    assert found.total == pytest.approx(52_575.0)


def test_what_lies_between_the_hots_takes_nothing_of_the_neutral() -> None:
    bare = neutral_va(house(), DEMANDS)
    heater = Appliance("EH1", 4500.0, Use.FIXED)
    to_neutral = Appliance("EA1", 1200.0, Use.FIXED, between=False)
    assert neutral_va(house(heater, to_neutral), DEMANDS) == pytest.approx(bare + 1200.0)
