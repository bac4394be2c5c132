"""The sun and the warmth of the place, month by month: from a table, or as somebody gives them."""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches

import numpy as np

from linework.codes.tables import Row, by
from linework.design.elements import Settings
from linework.quantity import QuantityError, read
from linework.supply.sun import above_the_air
from linework.words import say

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
MEAN_DAYS = np.array([17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344], float)
"""The day of the year that stands for each month (Klein 1977, from memory)."""
_FREE, _ALIKE = "energy/climates", "energy/climates_share_alike"
_STANDS_IN = "chicago"
"""Taken where nobody says where the design is, with a wide band: neither sunny nor dark."""
_MOST_CLEAR = 0.85
"""No month lets more of the sun through the air than this share (from memory)."""
MOST_LATITUDE = 89.0
_COLUMNS = ("month", "sun", "warmth")


class SupplyError(ValueError):
    """What cannot be worked out; the sentence says what is wrong, and where."""


@dataclass(frozen=True)
class Climate:
    """Monthly means: ``sun`` in kWh/m2 a day on the flat, ``warmth`` in degC.

    ``year_spread`` and ``month_spread``: how far a year and a month lie off, as shares. ``known``:
    whether the warmth is given or from a table. ``assumed``: the place is a guess.
    """

    place: str
    latitude: float
    altitude_m: float
    sun: tuple[float, ...]
    warmth: tuple[float, ...]
    year_spread: float
    month_spread: float
    known: bool = True
    assumed: bool = False
    licence: str = ""

    @property
    def south(self) -> bool:
        """Whether summer is in January."""
        return self.latitude < 0.0


def climate_of(settings: Settings) -> Climate:
    """The climate that the settings of a design name. SupplyError where it is none."""
    height = _height(settings.altitude)
    if settings.sun.strip():
        warmth = _twelve(settings.warmth, say("warmth")) if settings.warmth.strip() else None
        return own(settings.latitude, _twelve(settings.sun, say("sun")), warmth, height or 0.0)
    return _from_table(settings.climate.strip().lower(), settings.climate.strip() == "", height)


def climate_ids() -> tuple[str, ...]:
    """The words of all places of the tables, those of the free table first."""
    return (*by(_FREE, "id"), *by(_ALIKE, "id"))


def own(
    latitude: str, sun: Sequence[float], warmth: Sequence[float] | None, altitude_m: float
) -> Climate:
    """A climate by somebody's own monthly figures."""
    where = _latitude(latitude)
    _check_sun(where, sun)
    guessed = tuple(warmth) if warmth is not None else guessed_warmth(where, altitude_m)
    if any(not -70.0 <= c <= 50.0 for c in guessed):
        raise SupplyError(
            say("settings, warmth: monthly means lie between -70 and 50 degC; {given} do not",
                given=", ".join(f"{c:g}" for c in guessed))
        )  # fmt: skip
    return Climate(
        say("own figures"), where, altitude_m, tuple(sun), guessed, 0.12, 0.25, warmth is not None
    )


def guessed_warmth(latitude: float, altitude_m: float) -> tuple[float, ...]:
    """Monthly means by latitude and height alone, from memory: 27 degC at the equator, 0.45 K less
    each degree beyond 10, a swing of 0.3 K each degree, 6.5 K less each 1000 m (the standard
    atmosphere)."""
    mean = 27.0 - 0.45 * max(abs(latitude) - 10.0, 0.0) - 0.0065 * altitude_m
    swing = math.copysign(0.3 * abs(latitude), latitude)
    return tuple(mean - swing * math.cos(2.0 * math.pi * (m - 0.5) / 12.0) for m in range(12))


def _from_table(key: str, nobody_says: bool, height: float | None) -> Climate:
    free, alike = by(_FREE, "id"), by(_ALIKE, "id")
    key = key or _STANDS_IN
    row = free.get(key) or alike.get(key)
    if row is None:
        near = get_close_matches(key, [*free, *alike], 3, 0.5) or list(free)
        raise SupplyError(
            say("settings, climate: no place '{key}' is in the table; there are {near}",
                key=key[:60], near=", ".join(near))
        )  # fmt: skip
    latitude = float(row["latitude_deg"])
    licence = say("sunshine hours of cities, CC BY-SA 4.0") if key in alike else ""
    there = float(row.get("elevation_m") or 0.0)
    altitude = there if height is None else height
    warmth = (
        tuple(value - 0.0065 * (altitude - there) for value in _months(row, "warmth"))
        if key in free
        else guessed_warmth(latitude, altitude)
    )
    return Climate(
        row["place"], latitude, altitude, _months(row, "sun"), warmth,
        float(row["year_uncertainty_pct"]) / 100.0, float(row["month_uncertainty_pct"]) / 100.0,
        key in free, nobody_says, licence,
    )  # fmt: skip


def _months(row: Row, what: str) -> tuple[float, ...]:
    return tuple(float(row[f"{what}_{month}"]) for month in MONTHS)


def _height(text: str) -> float | None:
    if not text.strip():
        return None
    try:
        found = read(text, "length")
    except QuantityError as fault:
        raise SupplyError(say("settings, altitude: {fault}", fault=fault)) from fault
    if not 0.0 <= found <= 6000.0:
        raise SupplyError(say("settings, altitude: {text} is not between 0 and 6000 m", text=text))
    return found


def _number(text: str, where: str) -> float:
    try:
        found = float(text)
    except ValueError as fault:
        raise SupplyError(
            say("{where}: '{text}' is no number; write 3.5", where=where, text=text[:40])
        ) from fault
    if not math.isfinite(found):
        raise SupplyError(say("{where}: '{text}' is no number", where=where, text=text[:40]))
    return found


def _latitude(text: str) -> float:
    where = say("settings, latitude")
    if not text.strip():
        raise SupplyError(
            say("{where}: own figures of the sun need it, as 46.5 (south negative)", where=where)
        )
    found = _number(text.strip(), where)
    if abs(found) > MOST_LATITUDE:
        raise SupplyError(
            say("{where}: {found:g} is at the pole or beyond; days are worked out to 89 degrees",
                where=where, found=found)
        )  # fmt: skip
    return found


def _twelve(text: str, what: str) -> tuple[float, ...]:
    fields = text.replace(",", " ").replace(";", " ").split()
    where = say("settings, {what}", what=what)
    if len(fields) != 12:
        raise SupplyError(
            say("{where}: {count} figures are given, twelve are needed, one for each month from"
                " January on", where=where, count=len(fields))
        )  # fmt: skip
    return tuple(_number(field, where) for field in fields)


def _check_sun(latitude: float, sun: Sequence[float]) -> None:
    most = above_the_air(math.radians(latitude), MEAN_DAYS)
    for month, value, bound in zip(MONTHS, sun, most, strict=True):
        if value < 0.0:
            raise SupplyError(
                say("settings, sun: {value:g} in {month} is negative", value=value, month=month)
            )
        if value > _MOST_CLEAR * bound + 0.05:
            raise SupplyError(
                say("settings, sun: {value:g} kWh/m2 a day in {month} is more than the sun sends to"
                    " {latitude:g} degrees through the air ({bound:.2f}); in MJ they are divided by"
                    " 3.6", value=value, month=month, latitude=latitude, bound=bound)
            )  # fmt: skip


def from_file(text: str, latitude: str, altitude_m: float = 0.0) -> Climate:
    """Own figures from a table: a line of headings ``month,sun,warmth`` and twelve rows."""
    rows = list(csv.reader(io.StringIO(text)))
    heading = [field.strip().lower() for field in rows[0]] if rows else []
    if tuple(heading) != _COLUMNS:
        raise SupplyError(
            say("the file of the climate has the columns {given}; it needs {needed}",
                given=", ".join(heading)[:120] or say("none"), needed=", ".join(_COLUMNS))
        )  # fmt: skip
    body = [row for row in rows[1:] if row]
    if len(body) != 12 or any(len(row) != 3 for row in body):
        raise SupplyError(
            say("the file of the climate has {count} rows; it needs twelve of three figures, from"
                " January on", count=len(body))
        )  # fmt: skip
    numbers = [[_number(x, say("row {n} of the climate", n=i)) for x in row]
               for i, row in enumerate(body, 1)]  # fmt: skip
    return own(latitude, [n[1] for n in numbers], [n[2] for n in numbers], altitude_m)
