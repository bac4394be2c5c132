"""What is written at a part: designation, title, and the ratings that its kind puts there."""

from __future__ import annotations

from linework.design import Design, Part
from linework.kinds import Band, OneOf, Rating, Values
from linework.picture.inks import Ink
from linework.sheet.lettering import HEAD, SMALL, Block, Row, Span, row_width, wrapped
from linework.sheet.parts.mains import KEY, has_main
from linework.sheet.parts.neutral import KEYS, neutral_link
from linework.wiring import Pole, SourceGroup, is_dc, is_protective
from linework.words import N_, say

_HEAD_WIDEST = 900
"""Longest line of the head of a source or board."""
_WIDEST = 460
"""Longest line of a label, in tenths of a millimetre."""

_SHORT = {"bus": N_("bus {value}"), "breaker": N_("breaker {value}")}
"""Ratings that are written with one word."""

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

    Sources and boards are named in larger letters, and tell in grey what runs there: voltage,
    alternating or direct, and its poles.
    """
    head = _is_head(design, part)
    height = HEAD if head else SMALL
    first = Span(part.designation, bold=True, height=height)
    lines = wrapped(part.title, width, height)
    rest: list[Row] = [(Span(line, height=height),) for line in lines]
    rows: list[Row] = [(first,), *rest]
    if rest and first.width + rest[0][0].width <= width:
        rows = [(first, *rest[0]), *rest[1:]]
    system = Span(system_of(design, part), ink=Ink.QUIET) if head else Span("")
    if not system.text:
        return tuple(rows)
    if len(rows) == 1 and row_width(rows[0]) + system.width <= _HEAD_WIDEST:
        return ((*rows[0], system),)
    return (*rows, (system,))


def _is_head(design: Design, part: Part) -> bool:
    kind = design.kind(part)
    return kind.board or (kind.source is not SourceGroup.NONE and kind.strip == "sources")


def system_of(design: Design, part: Part) -> str:
    """Voltage, kind of current and poles: "120 V AC L N", "12 V DC + -"; "" where not given."""
    kind, values = design.kind(part), design.values(part)
    found = [[p for p in t.poles if not is_protective(p)] for t in kind.terminals(values)]
    poles = max(found, key=len, default=[])
    if not poles or "voltage" not in kind.declared or not values.has("voltage"):
        return ""
    volts = values.text("voltage")
    volts = f"[{volts}]" if values.assumes("voltage") else volts
    signs = " ".join("\N{MINUS SIGN}" if p is Pole.NEG else p.value for p in poles)
    current = say("DC") if all(map(is_dc, poles)) else say("AC")
    return f"{volts} {current} {signs}"


def captions_of(design: Design, part: Part, width: int = _WIDEST) -> Block:
    """The ratings that the kind writes at the symbol, in its order; assumed ones in brackets."""
    rows: list[Row] = []
    named = [(each.position, each.name) for each in design.kind(part).inputs]
    if any(design.values(part).given(name) for _, name in named):
        texts = (f"{at} {design.values(part).text(name)}" for at, name in named)
        rows.append((Span(", ".join(texts)),))
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
    shown = {KEY} if has_main(design, part) else set()
    if _is_head(design, part) and system_of(design, part):
        shown.add("voltage")
    found = (
        caption(values, kind.declared[key], design.settings.family)
        for key in kind.captions
        if values.applies(key) and not (marked and key in KEYS) and key not in shown
    )
    return [(text, assumed) for text, assumed in found if text != part.title]


def captions_in_words(design: Design, part: Part) -> str:
    """All that the kind writes at the symbol, in one line, but for a link that is drawn: what does
    not tell by itself what it is has its label."""
    kind, values = design.kind(part), design.values(part)
    drawn = KEYS if neutral_link(design, part) is not None else ()
    told = (
        caption(values, kind.declared[key], design.settings.family)[0]
        for key in kind.captions
        if values.applies(key) and key not in drawn
    )
    return ", ".join(text for text in told if text not in ("", part.title))


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
    if rating.key in _SHORT:
        return say(_SHORT[rating.key], value=text), assumed
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
