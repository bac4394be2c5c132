"""Days with weather: how bright and how warm each is, drawn with a seed."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from statistics import NormalDist

import numpy as np

from linework.supply.climate import LENGTHS, MEAN_DAYS, Climate
from linework.supply.figures import figure
from linework.supply.sun import above_the_air

Array = np.ndarray
_LEAST_CLEAR, _MOST_CLEAR = 0.05, 0.85
_MOST_CELLS = 1500
"""Days times samples that are worked out at once: more is not faster and needs more memory."""


@dataclass(frozen=True)
class Days:
    """Some days one after the other, of each sample: day of the year, month (0 to 11), sun on the
    flat in kWh/m2, mean temperature in degC; arrays (days, 1, samples) or so that they fit."""

    number: Array
    month: Array
    sun: Array
    warmth: Array


def typical_days(climate: Climate) -> Days:
    """The mean day of each month: twelve samples."""
    each = (MEAN_DAYS, np.arange(12), np.array(climate.sun), np.array(climate.warmth))
    return Days(*(values.reshape(1, 1, 12) for values in each))


def year(
    climate: Climate,
    rng: np.random.Generator,
    sun: Array,
    warmer: Array,
    alike: bool = False,
) -> Iterator[Days]:
    """The 365 days of so many years side by side, some days of a month at a time.

    ``sun``: factor, ``warmer``: kelvin of each.
    ``alike``: all have the same days but for these.

    Clearness: Bendt's distribution of days about their monthly mean (Bendt, Collares-Pereira and
    Rabl 1981, from memory), one day hanging on the last as figure ``persistence`` says; warmth:
    normal about its mean, hanging together more than twice as much.
    """
    size, hold = 1 if alike else len(sun), figure("persistence").usual
    latitude = math.radians(climate.latitude)
    at_once = max(1, _MOST_CELLS // len(sun))
    months = rng.normal(0.0, 1.0, (12, size)) * _month_spread(climate)
    bright, mild = rng.normal(0.0, 1.0, (2, size))
    first = 0
    for month, length in enumerate(LENGTHS):
        brights, milds = [], []
        for _ in range(length):
            bright = hold * bright + math.sqrt(1.0 - hold**2) * rng.normal(0.0, 1.0, size)
            mild = 0.7 * mild + math.sqrt(1.0 - 0.7**2) * rng.normal(0.0, 1.0, size)
            brights.append(bright)
            milds.append(mild)
        numbers = np.arange(first + 1.0, first + length + 1.0)[:, None, None]
        clear = _drawn(_mean_clearness(climate, month), np.array(brights)[:, None, :])
        share = np.clip(clear * sun * (1.0 + months[month]), 0.0, _MOST_CLEAR)
        total = share * above_the_air(latitude, numbers)
        swing = figure("warmth-day").usual * np.array(milds)[:, None, :]
        warmth = climate.warmth[month] + warmer + swing
        for start in range(0, length, at_once):
            part = slice(start, start + at_once)
            yield Days(numbers[part], np.array([month]), total[part], warmth[part])
        first += length


def _month_spread(climate: Climate) -> float:
    """Standard deviation of a month beyond what its days and its year make of it: the bounds are
    taken as twice that."""
    return 0.5 * math.sqrt(max(climate.month_spread**2 - climate.year_spread**2, 0.0)) * 0.5


def _mean_clearness(climate: Climate, month: int) -> float:
    most = above_the_air(math.radians(climate.latitude), MEAN_DAYS[month : month + 1])
    return climate.sun[month] / float(most[0]) if most[0] > 0.0 else 0.0


@cache
def _steepness(mean: float, most: float) -> float:
    """The exponent at which days between the least and the most clearness have this mean."""
    low, high = -200.0, 200.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        if _mean_of(middle, most) < mean:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def _mean_of(g: float, most: float) -> float:
    """Mean of a density that goes as exp(g k) between the least and the most clearness."""
    width = most - _LEAST_CLEAR
    x = g * width
    if abs(x) < 1e-6:
        return _LEAST_CLEAR + 0.5 * width
    return most - 1.0 / g + width / math.expm1(x) if x < 500.0 else most - 1.0 / g


def _most_clear(mean: float) -> float:
    """Of the clearest day (Hollands and Huget 1983, from memory), never under the mean."""
    found = 0.6313 + 0.267 * mean - 11.9 * (mean - 0.75) ** 8
    return max(found, mean + 0.05)


def _drawn(mean: float, normal: Array) -> Array:
    """Clearness of days from standard normal numbers."""
    if mean <= _LEAST_CLEAR + 0.02:
        return np.full_like(normal, max(mean, 0.0))
    most = _most_clear(mean)
    g = _steepness(round(mean, 4), round(most, 4))
    part = _normal_share(normal)
    x = g * (most - _LEAST_CLEAR)
    if abs(x) < 1e-6:
        return _LEAST_CLEAR + part * (most - _LEAST_CLEAR)
    found: Array = _LEAST_CLEAR + np.log1p(part * np.expm1(x)) / g
    return found


_GRID = np.linspace(-5.0, 5.0, 501)
_SHARES = np.array([NormalDist().cdf(float(z)) for z in _GRID])


def _normal_share(normal: Array) -> Array:
    """The share of a normal distribution that lies below."""
    found: Array = np.interp(normal, _GRID, _SHARES)
    return found


def outside(days: Days, steps: int) -> Array:
    """Temperature outside in each step (days, steps, samples): coldest before dawn, warmest at
    three."""
    hours = (np.arange(steps)[:, None] + 0.5) * 24.0 / steps
    swing = figure("warmth-swing").usual
    found: Array = days.warmth + swing * np.cos(2.0 * np.pi * (hours - 15.0) / 24.0)
    return found
