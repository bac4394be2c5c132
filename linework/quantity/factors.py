"""How many base units one unit is: exact fractions, from pint where we state none."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from linework.quantity.units import Unit


@cache
def _registry() -> Any:
    # Importing pint and building its registry takes a third of a second: only when first needed.
    import pint

    return pint.UnitRegistry(non_int_type=Fraction)


@cache
def scale(unit: Unit) -> tuple[Fraction, Fraction]:
    """Factor and offset: a figure in ``unit`` times factor plus offset is in the base unit."""
    if unit.factor is not None:
        return unit.factor, Fraction(0)
    name, base = unit.pint_names
    offset = Fraction(_registry().convert(Fraction(0), name, base))
    return Fraction(_registry().convert(Fraction(1), name, base)) - offset, offset


def to_base(figure: Fraction, unit: Unit) -> Fraction:
    """A figure in ``unit``, in the base unit of its kind."""
    factor, offset = scale(unit)
    return figure * factor + offset


def from_base(value: Fraction, unit: Unit) -> Fraction:
    """A value in the base unit of its kind, in ``unit``."""
    factor, offset = scale(unit)
    return (value - offset) / factor
