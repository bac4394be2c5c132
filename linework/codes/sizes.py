"""Conductor sizes with areas that can be compared exactly.

Proportions are compared in circular mils as whole numbers (12 AWG is 6530), not
in rounded square millimeters: 6530 x 105600 / 6530 must be 105600.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from linework.codes.errors import CodesError, not_in_table
from linework.codes.tables import Row, by, rows
from linework.quantity import QuantityError, wire_size

MM2_PER_CMIL = 5.067074790974977e-4
"""One circular mil in mm2: pi / 4 x (0.0254 mm)**2, by definition."""

TABLE_8 = "na/conductor_properties_ch9_8"
SAE = "common/sae_areas"


@dataclass(frozen=True, slots=True)
class Size:
    """A conductor size: its canonical text and its area in circular mils, exact.

    AWG and kcmil carry the area that the tables print, square millimeters the
    nominal one, SAE gauges the least area of SAE J1127/J1128.
    """

    text: str
    cmil: Fraction

    @property
    def area_mm2(self) -> float:
        """Area in mm2."""
        return float(self.cmil) * MM2_PER_CMIL


@cache
def size_of(text: str) -> Size:
    """The size that ``text`` names: "12 AWG", "4/0 AWG", "250 kcmil", "2.5 mm2", "12 SAE".

    CodesError for anything else.
    """
    sae = by(SAE, "size").get(text)
    if sae is not None:
        return Size(text, Fraction(sae["minimum_area_cmil"]))
    try:
        read = wire_size(text)
    except QuantityError as fault:
        raise CodesError(str(fault)) from fault
    printed = _printed_cmil().get(read.text)
    if printed is not None:
        return Size(read.text, printed)
    if read.text.endswith(" kcmil"):
        return Size(read.text, 1000 * Fraction(read.text.removesuffix(" kcmil")))
    return Size(read.text, Fraction(read.cmil))


@cache
def _printed_cmil() -> dict[str, Fraction]:
    return {size: Fraction(row["area_cmil"]) for (size, _), row in by_construction().items()}


@cache
def by_construction() -> dict[tuple[str, str], Row]:
    """Rows of chapter 9 table 8 by (size, "solid" or "stranded")."""
    return {(row["size"], row["construction"]): row for row in rows(TABLE_8)}


def circular_mils(text: str) -> float:
    """Area of a size in circular mils."""
    return float(size_of(text).cmil)


def area_mm2(text: str) -> float:
    """Area of a size in mm2."""
    return size_of(text).area_mm2


@cache
def standard_sizes() -> tuple[str, ...]:
    """The American sizes of chapter 9 table 8, thin to thick."""
    return tuple(dict.fromkeys(size for size, _ in by_construction()))


def size_not_below(cmil: Fraction) -> str:
    """The thinnest American size of at least ``cmil``. CodesError beyond the table."""
    for text in standard_sizes():
        if size_of(text).cmil >= cmil:
            return text
    raise not_in_table(f"{float(cmil):.0f} cmil", "chapter 9 table 8", standard_sizes()[-1:])


@cache
def metric_sizes() -> tuple[str, ...]:
    """The sizes of IEC 60228 in square millimeters, thin to thick."""
    return tuple(row["size"] for row in rows("common/conductor_resistance_iec60228"))


def metric_not_below(cmil: Fraction) -> str | None:
    """The thinnest metric size of at least ``cmil``; None beyond the table."""
    return next((text for text in metric_sizes() if size_of(text).cmil >= cmil), None)


def nearest_sizes(text: str, among: Iterable[str]) -> tuple[str, ...]:
    """The rows just below and just above a size, for an error message."""
    want = size_of(text).cmil
    ordered = sorted(among, key=lambda each: size_of(each).cmil)
    below = [each for each in ordered if size_of(each).cmil <= want][-1:]
    above = [each for each in ordered if size_of(each).cmil > want][:1]
    return (*below, *above)
