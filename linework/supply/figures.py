"""The figures that supply over time rests on, each a band with its source."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from linework.codes.tables import Row, by, confidence_of, rows
from linework.data import Confidence
from linework.wiring import Three


@dataclass(frozen=True)
class Figure:
    """A band with what it is and how sure it is; units as its row of the table says."""

    key: str
    band: Three
    what: str
    confidence: Confidence
    sources: str

    @property
    def usual(self) -> float:
        """The usual figure."""
        return self.band.usual


@cache
def figure(key: str) -> Figure:
    """The row of this name of the table of figures. KeyError where there is none."""
    row = by("energy/figures", "id")[key]
    band = Three(float(row["low"]), float(row["usual"]), float(row["high"]))
    return Figure(key, band, row["what"], confidence_of(row), row["sources"])


def habit_row(key: str) -> Row:
    """The usual habit of this name. KeyError where there is none."""
    return by("energy/habits", "id")[key]


@cache
def _capacity(cells: str) -> tuple[tuple[float, ...], tuple[float, ...]]:
    found = [row for row in rows("energy/battery_capacity_by_temperature") if row["cells"] == cells]
    celsius = tuple(float(row["temperature_c"]) for row in found)
    return celsius, tuple(float(row["capacity_pct"]) / 100.0 for row in found)


def capacity_share(cells: str, celsius: np.ndarray) -> np.ndarray:
    """Capacity over the rated one at a temperature, between the rows of the table; never above 1,
    for what warmth adds is not counted on."""
    known, share = _capacity(cells)
    found: np.ndarray = np.minimum(np.interp(celsius, known, share), 1.0)
    return found


@dataclass(frozen=True)
class FuelLine:
    """Litres an hour of a running set: ``idle`` without load, and ``per_kwh`` for what it gives."""

    idle: float
    per_kwh: float
    key: str
    confidence: Confidence


def fuel_line(electronic: bool, fuel: str, rated_kw: float) -> FuelLine | None:
    """The line of the class that is nearest in rating, what it burns idle in proportion to the
    rating; None for a fuel without rows. Consumption is a straight line in output."""
    output = "electronic" if electronic else "other"
    burning = [row for row in rows("energy/fuel_lines") if row["fuel"] == fuel]
    alike = [row for row in burning if row["output"] == output] or burning
    if not alike:
        return None
    row = min(alike, key=lambda each: abs(np.log(float(each["rated_kw"]) / max(rated_kw, 1e-3))))
    idle = float(row["no_load_l_per_h"]) * rated_kw / float(row["rated_kw"])
    return FuelLine(idle, float(row["l_per_kwh"]), row["id"], confidence_of(row))
