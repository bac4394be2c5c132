"""Converters, batteries, fuel and weather by themselves, held against tables and formulas."""

from __future__ import annotations

import math

import numpy as np
import pytest

from linework.codes.tables import rows
from linework.design import Draft
from linework.supply.buses import Converter
from linework.supply.climate import LENGTHS, climate_of
from linework.supply.exogenous import converter_loss
from linework.supply.figures import capacity_share, figure, fuel_line
from linework.supply.weather import year


def test_an_inverter_loses_at_part_load_what_listed_ones_do():
    """Medians of 48 V inverters (table, by the Sandia equation): 1.7 % of the rating to start, 91.1
    % at full load; our curve lies within two points of each."""
    one = Converter("TB1", (0,), 0, 3380.0, 0.911, 57.5, True)
    found = {
        float(row["load_pct"]): float(row["usual_pct"]) for row in rows("energy/inverter_part_load")
    }
    assert len(found) == 7
    for percent, efficiency in found.items():
        watts = np.array([3380.0 * percent / 100.0])
        loss = float(converter_loss(watts, one)[0])
        ours = 100.0 * float(watts[0]) / (float(watts[0]) + loss)
        assert ours == pytest.approx(efficiency, abs=2.0), percent


def test_without_load_it_takes_its_no_load_power():
    one = Converter("TB1", (0,), 0, 1000.0, 0.9, 12.0, True)
    assert float(converter_loss(np.array([0.0]), one)[0]) == 12.0
    full = float(converter_loss(np.array([1000.0]), one)[0])
    assert 1000.0 / (1000.0 + full) == pytest.approx(0.9)


@pytest.mark.parametrize(
    ("cells", "celsius", "share"),
    [("lead", -4.0, 0.671), ("lead", 0.8, 0.721), ("lithium", 0.0, 0.888), ("lithium", 60.0, 1.0)],
)
def test_capacity_in_the_cold(cells, celsius, share):
    assert float(capacity_share(cells, np.array([celsius]))[0]) == pytest.approx(share)


def test_the_fuel_of_a_set_is_that_of_its_class():
    """8 h on a US gallon at a quarter of 1.8 kW (S202): 0.47 L/h."""
    line = fuel_line(True, "gasoline", 1.8)
    assert line is not None
    assert line.idle + line.per_kwh * 0.45 == pytest.approx(3.785 / 8.0, rel=0.06)
    double = fuel_line(True, "gasoline", 2.0)
    assert double is not None
    assert double.idle == pytest.approx(line.idle * 2.0 / 1.8)
    assert fuel_line(False, "natural_gas", 5.0) is None


def weather(place: str, years: int = 40):
    climate = climate_of(Draft(place="field", climate=place).design.settings)
    ones = np.ones(years)
    days = list(year(climate, np.random.default_rng(2), ones, 0.0 * ones))
    sun = np.concatenate([d.sun for d in days])[:, 0]
    warmth = np.concatenate([d.warmth for d in days])[:, 0]
    return climate, sun, warmth


@pytest.mark.parametrize("place", ["denver", "chicago", "kuala-lumpur"])
def test_days_lie_about_their_monthly_means(place):
    climate, sun, warmth = weather(place)
    assert len(sun) == 365
    edges = np.cumsum((0, *LENGTHS))
    for m in range(12):
        part = slice(edges[m], edges[m + 1])
        assert float(sun[part].mean()) == pytest.approx(climate.sun[m], rel=0.06)
        assert float(warmth[part].mean()) == pytest.approx(climate.warmth[m], abs=1.0)
    assert np.all(sun >= 0.0)


def test_a_dull_day_follows_a_dull_day_more_often_than_not():
    """Correlation of a day with the day before 0.29 (Graham, Hollands and Huget 1988)."""
    _, sun, _ = weather("denver", 100)
    july = sun[185:210]
    ranks = july - july.mean()
    found = float((ranks[1:] * ranks[:-1]).mean() / ranks.var())
    assert found == pytest.approx(figure("persistence").usual, abs=0.12)


def test_a_month_may_lie_far_from_its_mean():
    """A month may depart from the mean by 40 % (S189): the spread of ours is of that order."""
    _, sun, _ = weather("chicago", 100)
    december = sun[334:].mean(axis=0)
    spread = float(december.std() / december.mean())
    assert 0.05 < spread < 0.25
    assert math.isfinite(spread)
