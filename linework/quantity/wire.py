"""Wire sizes: AWG by its definition, kcmil, square millimeters."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import total_ordering

from linework.quantity.errors import QuantityError, nearest, quoted
from linework.quantity.numerals import plain, split_number, tidy
from linework.quantity.units import KCMIL_MM2
from linework.words import say

_THINNEST, _THICKEST = 36, -3
_LARGEST_MM2 = 2500.0
"""The largest nominal cross-section of IEC 60228, table 2; a check against slips."""
_LEAST_KCMIL, _MOST_KCMIL = 212, 2000
"""Thinner wire has a gauge (4/0 is 211.6 kcmil); NEC chapter 9, table 8 ends at 2000 kcmil."""

_OUGHT = r"(?:[1-4] ?/ ?0|0{1,4})"
_GAUGE = re.compile(
    rf"(?:#|awg) ?(?P<after>{_OUGHT}|[0-9]+)|"
    rf"#? ?(?P<before>{_OUGHT}|[0-9]+) ?awg|"
    r"(?P<alone>[1-4] ?/ ?0)",
    re.I,
)
_LOOKS_LIKE_GAUGE = re.compile(r"#|.*awg|[1-4] ?/ ?0$", re.I)
# "12/2" is a cable of two conductors, "1/2" half of something: neither names one size.
_STROKE = re.compile(r"[0-9]+ ?[/-] ?[0-9]")
_AREA_UNITS = {
    "mm2": "mm2",
    "mm²": "mm2",
    "mm^2": "mm2",
    "sq mm": "mm2",
    "sqmm": "mm2",
    "kcmil": "kcmil",
    "mcm": "kcmil",
}
_EXAMPLES = "12 AWG, 250 kcmil, 2.5 mm2"


@total_ordering
@dataclass(frozen=True, slots=True)
class WireSize:
    """A wire size in its canonical text, with its nominal area; ordered by area.

    ``awg`` is the gauge alone ("12", "4/0"), None for sizes stated otherwise.
    """

    text: str
    area_mm2: float
    awg: str | None

    def __lt__(self, other: object) -> bool:
        if not isinstance(other, WireSize):
            return NotImplemented
        return (self.area_mm2, self.text) < (other.area_mm2, other.text)

    @property
    def cmil(self) -> float:
        """The area in circular mils."""
        return self.area_mm2 / float(KCMIL_MM2) * 1000.0


def wire_size(text: str) -> WireSize:
    """The wire size that ``text`` names: "12 AWG", "#12", "4/0", "250 kcmil", "2.5 mm2".

    Raises QuantityError for anything else, a bare "12" among it.
    """
    typed = tidy(text)
    found = _GAUGE.fullmatch(typed)
    if found is not None:
        return _from_gauge(typed, found["after"] or found["before"] or found["alone"])
    if is_gauge(typed) or _STROKE.match(typed):
        raise _not_a_gauge(typed)
    return _from_area(typed)


def is_gauge(typed: str) -> bool:
    """Whether a tidy text means a wire gauge, rightly written or not."""
    return _LOOKS_LIKE_GAUGE.match(typed) is not None


def _gauge_area_mm2(number: int) -> float:
    """Area of a gauge number in mm2 (4/0 is -3), by the definition of ASTM B 258.

    The diameters are a geometric series from 0.005 in (36) to 0.46 in (4/0):
    d = 0.127 mm * 92 ** ((36 - n) / 39).
    """
    diameter_mm = 0.127 * math.pow(92.0, (36 - number) / 39.0)
    return math.pi / 4.0 * diameter_mm**2


def _gauge_name(number: int) -> str:
    return str(number) if number > 0 else f"{1 - number}/0"


def _gauge_size(number: int) -> WireSize:
    name = _gauge_name(number)
    return WireSize(f"{name} AWG", _gauge_area_mm2(number), name)


AWG_SIZES: tuple[str, ...] = tuple(
    f"{_gauge_name(number)} AWG" for number in range(_THINNEST, _THICKEST - 1, -1)
)
"""Every accepted gauge, thin to thick, as ``wire_size`` reads and writes it."""


def _from_gauge(typed: str, name: str) -> WireSize:
    if "/" in name:
        number = 1 - int(name[0])
    elif set(name) == {"0"}:
        number = 1 - len(name)
    else:
        number = int(name)
    if not _THICKEST <= number <= _THINNEST:
        raise _not_a_gauge(typed)
    return _gauge_size(number)


def _not_a_gauge(typed: str) -> QuantityError:
    return QuantityError(
        say(
            "'{typed}' is not a wire gauge from {thin} to {thick}; write for example {example}",
            typed=quoted(typed),
            thin=AWG_SIZES[0],
            thick=AWG_SIZES[-1],
            example="12 AWG",
        )
    )


def _from_area(typed: str) -> WireSize:
    figure, rest = split_number(typed, _EXAMPLES)
    unit = _AREA_UNITS.get(rest.casefold())
    if unit is None:
        raise _refused(typed, figure, rest)
    area_mm2 = float(Fraction(figure) * (KCMIL_MM2 if unit == "kcmil" else 1))
    if not 0.0 < area_mm2 <= _LARGEST_MM2:
        raise QuantityError(
            say(
                "'{typed}' is no size that wire is made in; write for example {example}",
                typed=quoted(typed),
                example=_EXAMPLES,
            )
        )
    return WireSize(f"{plain(figure)} {unit}", area_mm2, None)


def _meanings(figure: Decimal) -> list[str]:
    """The sizes that a bare number may stand for."""
    number = plain(figure)
    found = [f"{number} AWG"] if f"{number} AWG" in AWG_SIZES else []
    if _LEAST_KCMIL <= figure <= _MOST_KCMIL:
        found.append(f"{number} kcmil")
    if 0 < figure <= _LARGEST_MM2:
        found.append(f"{number} mm2")
    return [quoted(text) for text in found]


def _refused(typed: str, figure: Decimal, rest: str) -> QuantityError:
    if not rest:
        return QuantityError(
            say(
                "'{typed}' may be a gauge or an area; write {example}",
                typed=quoted(typed),
                example=say(" or ").join(_meanings(figure)) or _EXAMPLES,
            )
        )
    near = nearest(rest, {"AWG": "AWG", **_AREA_UNITS})
    return QuantityError(
        say(
            "'{typed}' is not a wire size; write for example {example}",
            typed=quoted(typed),
            example=_EXAMPLES if near is None else quoted(f"{plain(figure)} {near}"),
        )
    )
