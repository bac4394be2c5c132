"""What is written at a part: designation, title, and the ratings that its kind puts there."""

from __future__ import annotations

from linework.design import Design, Part
from linework.kinds import Band, OneOf, Rating, Values
from linework.picture.inks import Ink
from linework.sheet.texts import HEAD, Block, Row, Span, wrapped
from linework.words import say

_WIDEST = 460
"""Longest line of a label, in tenths of a millimetre."""

_SELF_EXPLAINING = frozenset(
    {
        "rating",
        "power",
        "voltage",
        "capacity",
        "configuration",
        "resistance",
        "name",
        "ground_fault",
        "type",
    }
)
"""Ratings whose value says by itself what it is; the others are written with their label."""


def head_of(part: Part) -> Block:
    """Designation in bold, and the title beside it or below."""
    first = Span(part.designation, bold=True, height=HEAD)
    lines = wrapped(part.title, _WIDEST)
    if not lines:
        return ((first,),)
    beside = Span(lines[0])
    if first.width + beside.width <= _WIDEST:
        return ((first, beside), *((Span(line),) for line in lines[1:]))
    return ((first,), *((Span(line),) for line in lines))


def captions_of(design: Design, part: Part) -> Block:
    """The ratings that the kind writes at the symbol, in its order; assumed ones in brackets."""
    kind, values = design.kind(part), design.values(part)
    rows: list[Row] = []
    for key in kind.captions:
        text, assumed = caption(values, kind.declared[key], design.settings.family)
        ink = Ink.ASSUMED if assumed else Ink.INK
        rows.extend((Span(line, ink=ink),) for line in wrapped(text, _WIDEST))
    return tuple(rows)


def caption(values: Values, rating: Rating, family: str) -> tuple[str, bool]:
    """One rating as it is written at the symbol ("" for nothing), and whether it is assumed.

    What needs an answer and has none is said, never left out.
    """
    answer = values.answer(rating.key)
    given = values.given(rating.key)
    if answer is None:
        if not rating.needed:
            return "", False
        return say("[{label} not given]", label=say(rating.label, family=family)), True
    if rating.choices and (answer == "none" or (rating.quiet and not given)):
        return "", False
    assumed = (not given and not rating.quiet) or isinstance(answer, OneOf)
    text = _value(rating, answer, family)
    text = f"[{text}]" if assumed else text
    if rating.key not in _SELF_EXPLAINING:
        text = say("{label}: {value}", label=say(rating.label, family=family), value=text)
    return text, assumed


def _value(rating: Rating, answer: object, family: str) -> str:
    if isinstance(answer, Band):
        return f"{answer.low} / {answer.usual} / {answer.high}"
    if isinstance(answer, OneOf):
        return say("not known")
    words = {choice.value: choice.label for choice in rating.choices}
    text = str(answer)
    return say(words[text], family=family) if text in words else text
