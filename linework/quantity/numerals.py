"""Numbers as text: one decimal sign, point or comma, no grouping, no powers of ten."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Context, Decimal
from fractions import Fraction

from linework.quantity.errors import QuantityError, quoted
from linework.words import say

_LONGEST = 400
_NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)")
_GROUPED = re.compile(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}")
_GROUP_OR_SECOND_SIGN = re.compile(r"[.,_']\s?[0-9]|[ ][0-9]{3}(?![0-9])")
_POWER_OF_TEN = re.compile(r"[eE][+-]?[0-9]|\s?[x*\u00d7]\s?10")
_FRACTION = re.compile(
    r"(?:(?P<whole>[0-9]{1,4}) )?(?P<over>[0-9]{1,4})/(?P<under>[1-9][0-9]{0,3})"
)

# Signs that keyboards and word processors write for the plain ones. Superscript
# digits are not among them: "10²" must not become 102.
_PLAIN = str.maketrans(
    {
        "\N{MINUS SIGN}": "-",
        "\N{GREEK SMALL LETTER MU}": "\N{MICRO SIGN}",
        "\N{OHM SIGN}": "\N{GREEK CAPITAL LETTER OMEGA}",
        "\N{MASCULINE ORDINAL INDICATOR}": "\N{DEGREE SIGN}",
        "\N{PRIME}": "'",
        "\N{RIGHT SINGLE QUOTATION MARK}": "'",
        "\N{DOUBLE PRIME}": '"',
        "\N{RIGHT DOUBLE QUOTATION MARK}": '"',
    }
)


def tidy(text: str) -> str:
    """The text with plain signs and single spaces.

    Raises QuantityError if it is longer than any number with a unit.
    """
    if len(text) > _LONGEST:
        raise QuantityError(
            say("'{typed}' is too long for one number and one unit", typed=quoted(text))
        )
    return " ".join(text.translate(_PLAIN).split())


def split_number(typed: str, example: str) -> tuple[Decimal, str]:
    """The number at the start of a tidy text, and what follows it.

    Raises QuantityError if there is none, or if it could be read in two ways.
    """
    if not typed:
        raise QuantityError(say("Nothing is written; write {example}", example=example))
    _refuse_fraction(typed)
    found = _NUMBER.match(typed)
    if found is None:
        raise QuantityError(
            say(
                "'{typed}' does not begin with a number; write {example}",
                typed=quoted(typed),
                example=example,
            )
        )
    rest = typed[found.end() :]
    _refuse_grouping(typed, found.group(), rest, example)
    return Decimal(found.group().replace(",", ".")), rest.strip()


def _refuse_fraction(typed: str) -> None:
    found = _FRACTION.match(typed)
    if found is None:
        return
    value = int(found["whole"] or 0) + Fraction(int(found["over"]), int(found["under"]))
    raise QuantityError(
        say(
            "'{typed}': fractions are not read; write {example}",
            typed=quoted(typed),
            example=f"{plain(rounded(value, 4))}{quoted(typed[found.end() :])}",
        )
    )


def _refuse_grouping(typed: str, number: str, rest: str, example: str) -> None:
    if _POWER_OF_TEN.match(rest):
        raise QuantityError(
            say(
                "'{typed}': powers of ten are not read; write the number out, as in {example}",
                typed=quoted(typed),
                example=example,
            )
        )
    if _GROUP_OR_SECOND_SIGN.match(rest):
        raise QuantityError(
            say(
                "'{typed}' may be one number or two: write it without spaces, marks or commas "
                "between its digits, with one decimal point, as in {example}",
                typed=quoted(typed),
                example=example,
            )
        )
    if _GROUPED.fullmatch(number):
        whole, point = number.replace(",", ""), plain(Decimal(number.replace(",", ".")))
        raise QuantityError(
            say(
                "'{typed}' can be read as {whole} or as {point}; write {whole}{unit} or "
                "{point}{unit}",
                typed=quoted(typed),
                whole=whole,
                point=point,
                unit=quoted(rest),
            )
        )


def rounded(value: Fraction, digits: int) -> Decimal:
    """The value to so many significant digits, halves away from zero."""
    context = Context(prec=digits, rounding=ROUND_HALF_UP)
    return context.divide(Decimal(value.numerator), Decimal(value.denominator))


def plain(number: Decimal) -> str:
    """The number in digits with a decimal point: no exponent, no idle zeros, never "-0"."""
    if not number:
        return "0"
    text = format(number, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text
