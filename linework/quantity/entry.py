"""Reading what a person typed: one number and one unit, or feet with inches."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from linework.quantity.errors import QuantityError, nearest, quoted
from linework.quantity.factors import to_base
from linework.quantity.numerals import plain, split_number, tidy
from linework.quantity.units import KINDS, QuantityKind, Unit, spellings_of, unit_of
from linework.quantity.wire import is_gauge, wire_size
from linework.words import say

_FEET = re.compile(r"""(?P<feet>[^ a-z'"]+) ?(?:ft|feet|foot|') ?(?P<more>.*[0-9].*)""", re.I)
_INCHES = re.compile(r"""(?P<inches>[^ a-z'"]+) ?(?:in|inch|inches|")""", re.I)
_SECOND_NUMBER = re.compile(r"(?:^|\s)[+-]?[.,]?[0-9]")
_WHOLE = re.compile(r"[0-9]+")
_FEET_EXAMPLE = "6 ft 3 in"


@lru_cache(maxsize=4096)  # a design is read again after every edit
def read(text: str, kind: str) -> float:
    """The value of a typed text, in the base unit of its kind (``KINDS[kind].unit``).

    Accepts one number, with point or comma as its decimal sign, and one unit of
    the kind's closed list; lengths also as feet with inches (6 ft 3 in, 6'3"),
    areas also as a wire gauge (12 AWG). A ratio may and a count must go without
    unit. Raises QuantityError for all else, and KeyError for an unknown kind.
    """
    what = KINDS[kind]
    typed = tidy(text)
    if kind == "area" and is_gauge(typed):
        return wire_size(text).area_mm2
    feet = _FEET.fullmatch(typed) if kind == "length" else None
    if feet is not None:
        return _feet_and_inches(typed, feet["feet"], feet["more"])
    figure, rest = split_number(typed, what.example)
    value = _as_float(typed, to_base(Fraction(figure), _unit(typed, figure, rest, what)))
    check(typed, value, what)
    return value


def in_watts(text: str) -> bool:
    """Whether an apparent power was typed in watt, as many plates have it."""
    try:
        _, unit = split_number(tidy(text), "")
    except QuantityError:
        return False
    return unit.strip().casefold() in ("w", "kw", "watt", "watts")


def check(typed: str, value: float, what: QuantityKind) -> None:
    """Raise QuantityError if no quantity of this kind can have this value in its base unit."""
    if value < what.least:
        raise QuantityError(
            say(
                "'{typed}': {label} cannot be below {least}; write {example}",
                typed=quoted(typed),
                label=say(what.label),
                least=f"{what.least:g} {what.unit}".strip(),
                example=what.example,
            )
        )
    if what.name == "count" and not value.is_integer():
        raise QuantityError(
            say(
                "'{typed}' is not a whole number; write {example}",
                typed=quoted(typed),
                example=what.example,
            )
        )


def _as_float(typed: str, value: Fraction) -> float:
    try:
        return float(value)
    except OverflowError:
        raise QuantityError(
            say("'{typed}' is larger than can be calculated with", typed=quoted(typed))
        ) from None


def _unit(typed: str, figure: Decimal, rest: str, what: QuantityKind) -> Unit:
    """The unit that ``rest`` spells. Capitals matter where they could mean milli or mega."""
    spellings = spellings_of(what.name)
    if not rest:
        return _no_unit(typed, figure, what)
    if rest in spellings:
        return unit_of(what.name, spellings[rest])
    if not rest.startswith("M"):
        for spelling, text in spellings.items():
            if spelling.casefold() == rest.casefold() and not spelling.startswith("M"):
                return unit_of(what.name, text)
    raise _refused_unit(typed, figure, rest, what)


def _no_unit(typed: str, figure: Decimal, what: QuantityKind) -> Unit:
    if not what.unit:
        return unit_of(what.name, "")
    raise QuantityError(
        say(
            "'{typed}' has no unit; write for example {example}",
            typed=quoted(typed),
            example=_example(figure, what.example.split()[-1]),
        )
    )


def _refused_unit(typed: str, figure: Decimal, rest: str, what: QuantityKind) -> QuantityError:
    if what.name == "count":
        return QuantityError(
            say(
                "'{typed}': a count has no unit; write {example}",
                typed=quoted(typed),
                example=_example(figure, ""),
            )
        )
    if _SECOND_NUMBER.search(rest):
        return QuantityError(
            say(
                "'{typed}' is more than one number and one unit; write {example}",
                typed=quoted(typed),
                example=what.example,
            )
        )
    other = next((kind for kind in KINDS.values() if rest in spellings_of(kind.name)), None)
    if other is not None:
        return _unit_of_another(typed, other, what)
    return _unknown_unit(typed, figure, rest, what)


def _unit_of_another(typed: str, other: QuantityKind, what: QuantityKind) -> QuantityError:
    return QuantityError(
        say(
            "'{typed}' has a unit of {other}, but {label} is asked for; "
            "write for example {example}",
            typed=quoted(typed),
            other=say(other.label),
            label=say(what.label),
            example=what.example,
        )
    )


def _unknown_unit(typed: str, figure: Decimal, rest: str, what: QuantityKind) -> QuantityError:
    near = nearest(rest, spellings_of(what.name))
    if near is not None:
        return QuantityError(
            say(
                "'{typed}': '{unit}' is not a unit of {label}; did you mean {near}? "
                "Then write {example}",
                typed=quoted(typed),
                unit=quoted(rest),
                label=say(what.label),
                near=near,
                example=_example(figure, near),
            )
        )
    return QuantityError(
        say(
            "'{typed}': '{unit}' is not a unit of {label} ({units}); write for example {example}",
            typed=quoted(typed),
            unit=quoted(rest),
            label=say(what.label),
            units=", ".join(unit for unit in what.units if unit),
            example=what.example,
        )
    )


def _example(figure: Decimal, unit: str) -> str:
    return quoted(f"{plain(figure)} {unit}".strip())


def _feet_and_inches(typed: str, feet: str, more: str) -> float:
    """Whole feet and less than twelve inches, in meter."""
    inches = _INCHES.fullmatch(more)
    if inches is not None and _WHOLE.fullmatch(feet):
        figure, rest = split_number(inches["inches"], _FEET_EXAMPLE)
        if not rest and 0 <= figure < 12:
            foot, inch = unit_of("length", "ft"), unit_of("length", "in")
            length = to_base(Fraction(int(feet)), foot) + to_base(Fraction(figure), inch)
            return _as_float(typed, length)
    raise QuantityError(
        say(
            "'{typed}' is not whole feet with less than twelve inches; write {example}",
            typed=quoted(typed),
            example=_FEET_EXAMPLE,
        )
    )
