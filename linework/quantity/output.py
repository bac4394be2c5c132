"""Writing figures: exactly for files, rounded for people."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from math import isfinite

from linework.quantity.entry import check
from linework.quantity.errors import QuantityError
from linework.quantity.factors import from_base, to_base
from linework.quantity.numerals import plain, rounded
from linework.quantity.units import KINDS, Unit, unit_of
from linework.words import say

# From which value in the base unit on each unit is shown; the first is shown below, too.
_LADDERS: dict[str, tuple[tuple[float, str], ...]] = {
    "current": ((0, "mA"), (1, "A"), (1e3, "kA")),
    "voltage": ((0, "mV"), (1, "V"), (1e3, "kV")),
    "power": ((0, "W"), (1e3, "kW")),
    "apparent_power": ((0, "VA"), (1e3, "kVA")),
    "resistance": ((0, "mohm"), (1, "ohm"), (1e3, "kohm"), (1e6, "Mohm")),
    # Minutes and hours from two of them on: "90 s" says more than "1.5 min".
    "time": ((0, "ms"), (1, "s"), (120, "min"), (7200, "h")),
    "energy": ((0, "Wh"), (1e3, "kWh")),
    "ratio": ((0, "%"),),
    "capacitance": ((0, "pF"), (1e-9, "nF"), (1e-6, "uF"), (1, "F")),
}
_SHOWN = {("NA", "length"): "ft", ("INT", "volume"): "cm3"}
_SIGNS = {text: unit_of(kind, text).shown for kind, what in KINDS.items() for text in what.units}
_NOUGHT = Fraction(1, 2000)
# Near 0 degC the figure in degF has the digits of 32 and those of the value.
_MOST_DIGITS = 360


def write(value: float, kind: str, unit: str | None = None) -> str:
    """The text that ``read`` turns into the same float again, for files.

    ``value`` is in the base unit of ``kind``; ``unit``, one of its accepted
    units (None: the base unit), is the unit written. Raises QuantityError for a
    value or unit that ``read`` would refuse.
    """
    what = KINDS[kind]
    number = _finite(value)
    shape = _unit(kind, what.unit if unit is None else unit)
    check(f"{number:g} {what.unit}".strip(), number, what)
    figure = from_base(Fraction(number), shape)
    for digits in range(1, _MOST_DIGITS):
        text = rounded(figure, digits)
        if _reads_back(text, shape, number):
            return f"{plain(text)} {shape.text}".strip()
    raise AssertionError(f"{value!r} {kind} has no text in {shape.text!r}")  # cannot happen


def in_signs(text: str) -> str:
    """A text of a file as people are shown it: "30 degC" as "30 °C"; its figure stays as it is."""
    figure, _, unit = text.rpartition(" ")
    return f"{figure} {_SIGNS[unit]}" if figure and unit in _SIGNS else text


def show(value: float, kind: str, *, digits: int = 3, family: str | None = None) -> str:
    """The value for people, to ``digits`` significant digits and in a unit of handy size.

    ``value`` is in the base unit of ``kind``. Lengths are in feet and volumes in
    cubic inches for the family "NA", else in meter and cubic centimeter. Counts are not rounded.
    Less than half a thousandth of the smallest unit shown is "0". Raises QuantityError if it is
    not a finite number, ValueError for a length or volume without a family.
    """
    if family is None and any(shown == kind for _, shown in _SHOWN):
        raise ValueError(f"in which unit {kind} is shown depends on the family: name it")
    number = _finite(value)
    if kind == "count":
        return write(number, kind)
    exact = Fraction(str(number))
    shape = _shown_unit(exact, kind, digits, family)
    figure = from_base(exact, shape)
    if abs(figure) < _NOUGHT:
        shape, figure = _plain_unit(kind, family), Fraction(0)
    return f"{plain(rounded(figure, digits))} {shape.shown}".strip()


def _finite(value: float) -> float:
    try:
        number = float(value)
    except TypeError:
        number = float("nan")
    if not isfinite(number):
        raise QuantityError(say("{value} is not a figure", value=str(value)))
    return number + 0.0  # minus nought becomes nought


def _unit(kind: str, text: str) -> Unit:
    try:
        return unit_of(kind, text)
    except KeyError:
        raise QuantityError(
            say(
                "'{unit}' is not a unit of {label} ({units})",
                unit=text,
                label=say(KINDS[kind].label),
                units=", ".join(unit for unit in KINDS[kind].units if unit),
            )
        ) from None


def _reads_back(text: Decimal, shape: Unit, value: float) -> bool:
    try:
        return float(to_base(Fraction(text), shape)) == value
    except OverflowError:
        return False


def _shown_unit(exact: Fraction, kind: str, digits: int, family: str | None) -> Unit:
    ladder = _LADDERS.get(kind)
    if ladder is None:
        return _plain_unit(kind, family)
    # Rounded first: 999.9 A to three digits is 1 kA, not 1000 A.
    size = abs(rounded(exact, digits))
    return unit_of(kind, [unit for least, unit in ladder if size >= Decimal(str(least))][-1])


def _plain_unit(kind: str, family: str | None) -> Unit:
    if family is not None and (family, kind) in _SHOWN:
        return unit_of(kind, _SHOWN[family, kind])
    return unit_of(kind, "%" if kind == "ratio" else KINDS[kind].unit)
