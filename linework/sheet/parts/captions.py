"""What is written at a part: designation, title, and the ratings that its kind puts there."""

from __future__ import annotations

from linework.design import Design, Part
from linework.kinds import Band, OneOf, Rating, Values
from linework.picture.inks import Ink
from linework.sheet.lettering import HEAD, SMALL, Block, Row, Span, wrapped
from linework.sheet.parts.neutral import KEYS, neutral_link
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
        "connector",
        "size",
        "length",
        "resistance",
        "name",
        "ground_fault",
        "arc_fault",
        "type",
    }
)
"""Ratings whose value says by itself what it is; the others are written with their label."""


def head_of(design: Design, part: Part, width: int = _WIDEST) -> Block:
    """Designation in bold, and the title beside it or, where that is too wide, below.

    Sources and boards are named in larger letters.
    """
    kind = design.kind(part)
    height = HEAD if kind.board or kind.strip == "sources" else SMALL
    first = Span(part.designation, bold=True, height=height)
    lines = wrapped(part.title, width, height)
    if not lines:
        return ((first,),)
    rest = tuple((Span(line, height=height),) for line in lines)
    if first.width + rest[0][0].width <= width:
        return ((first, *rest[0]), *rest[1:])
    return ((first,), *rest)


def captions_of(design: Design, part: Part, width: int = _WIDEST) -> Block:
    """The ratings that the kind writes at the symbol, in its order; assumed ones in brackets."""
    rows: list[Row] = []
    for text, assumed in _captions(design, part):
        ink = Ink.ASSUMED if assumed else Ink.INK
        rows.extend((Span(line, ink=ink),) for line in wrapped(text, width))
    return tuple(rows)


def writing_in_row(design: Design, part: Part, width: int) -> tuple[Block, Block]:
    """What stands over and under a part in a board's row: over it designation and first rating."""
    found = [(text, assumed) for text, assumed in _captions(design, part) if text]
    (first, *rest) = found or [("", False)]
    head = [Span(part.designation, bold=True)]
    if first[0]:
        head.append(Span(first[0], ink=_ink(first[1])))
    text = ", ".join([text for text, _ in rest])
    title = wrapped(part.title, width)
    ink = _ink(any(assumed for _, assumed in rest))
    under = (
        *((Span(line),) for line in title),
        *((Span(t, ink=ink),) for t in wrapped(text, width)),
    )
    return (tuple(head),), under


def _ink(assumed: bool) -> Ink:
    return Ink.ASSUMED if assumed else Ink.INK


def _captions(design: Design, part: Part) -> list[tuple[str, bool]]:
    kind, values = design.kind(part), design.values(part)
    marked = neutral_link(design, part) is not None
    return [
        caption(values, kind.declared[key], design.settings.family)
        for key in kind.captions
        if values.applies(key) and not (marked and key in KEYS)
    ]


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
        label = say(rating.label, family=family)
        text = say("{Label}: {value}", label=label, value=text)
    return text, assumed


def _value(rating: Rating, answer: object, family: str) -> str:
    if isinstance(answer, Band):
        return f"{answer.low} / {answer.usual} / {answer.high}"
    if isinstance(answer, OneOf):
        return say("not known")
    words = {choice.value: choice.label for choice in rating.choices}
    text = str(answer)
    # What follows a colon explains the choice to who makes it; on the sheet the choice is enough.
    return say(words[text], family=family).partition(":")[0] if text in words else text
