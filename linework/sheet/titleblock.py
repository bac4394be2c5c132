"""The title block in the right lower corner, and the table of revisions at its left.

180 mm wide; its fields, and which of them a drawing must have, after ISO 7200 (from memory): legal
owner, number, date of issue, sheet, title, approval, creator, type of document.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import accumulate

from linework.codes import family_of
from linework.design import Settings
from linework.picture.inks import HEAVY, THIN, Ink, Pen
from linework.picture.measure import text_width
from linework.picture.model import Item, Line, Rect, Text
from linework.sheet.frame import Frame
from linework.words import N_, say

_FRAME = Pen(width=HEAVY)
_RULE = Pen(width=THIN)
_GAP = 16
NAME, VALUE, TITLE, NUMBER = 18, 25, 35, 50
"""Heights of capitals: of a field's name, its value, the title, the drawing's number."""

AID = N_(
    "Design aid: local codes and a licensed electrician decide."
    " Work dead. [ ] = assumed, not given."
)


@dataclass(frozen=True)
class Revision:
    """One line of the table of revisions."""

    letter: str
    change: str = ""
    date: str = ""
    by: str = ""


@dataclass(frozen=True)
class TitleBlock:
    """What stands in the title block; every field may be empty."""

    title: str = ""
    job: str = ""
    site: str = ""
    document: str = ""
    """The type of document: "one-line diagram", "schedule"."""
    owner: str = ""
    reference: str = ""
    """Whom to ask about it."""
    status: str = ""
    number: str = ""
    revision: str = ""
    sheet: int = 1
    sheets: int = 1
    date: str = ""
    drawn: str = ""
    checked: str = ""
    rules: str = ""
    """Family and edition of the rules that were applied."""
    revisions: tuple[Revision, ...] = ()


def titled(settings: Settings, what: TitleBlock) -> TitleBlock:
    """What the settings say of every drawing, added to what is said of one.

    The number of a drawing ends with an E and its sheet's number, as in "VX-1-E02".
    """
    return replace(
        what,
        job=settings.job,
        site=settings.site,
        owner=settings.owner,
        reference=settings.reference,
        status=settings.status or say("design, not built"),
        number="-".join(filter(None, (settings.number, f"E{what.sheet:02d}"))),
        revision=settings.revision,
        drawn=settings.drawn_by,
        checked=settings.checked_by,
        rules=family_of(settings.family, settings.edition).standards(settings.place),
        revisions=revisions_of(settings),
    )


def revisions_of(settings: Settings) -> tuple[Revision, ...]:
    """The lines of the table of revisions, in the order in which they were written."""
    lines = (line.split(";", 3) for line in settings.revisions.splitlines() if line.strip())
    return tuple(Revision(*(field.strip() for field in line)) for line in lines)


_LAYOUT: tuple[tuple[int, tuple[tuple[str, str, int], ...]], ...] = (
    (
        90,
        (
            ("owner", N_("legal owner"), 620),
            ("reference", N_("technical reference"), 420),
            ("document", N_("type of document"), 460),
            ("status", N_("status"), 300),
        ),
    ),
    (
        130,
        (
            ("title", N_("title"), 1040),
            ("number", N_("drawing number"), 500),
            ("revision", N_("revision"), 260),
        ),
    ),
    (
        90,
        (
            ("drawn", N_("created by"), 390),
            ("checked", N_("approved by"), 390),
            ("date", N_("date of issue"), 260),
            ("rules", N_("judged by"), 500),
            ("sheet", N_("sheet"), 260),
        ),
    ),
)
"""Height of each row from above, and its fields: key, name, width."""

_HEIGHTS = {"title": TITLE, "number": NUMBER, "revision": NUMBER}
_LEAST = {"title": VALUE, "number": TITLE, "revision": VALUE}
"""Down to which height a value is written smaller before it is cut; others are not below 1.8 mm."""


def title_block(frame: Frame, what: TitleBlock) -> tuple[Item, ...]:
    """The title block in its corner. A value that is too long is written smaller, then cut."""
    block = frame.block
    items: list[Item] = [
        Rect(block.left, block.top, block.width, block.height, 0, _FRAME, Ink.PAPER)
    ]
    words = _fields(what)
    scale = block.width / sum(width for _, _, width in _LAYOUT[0][1])
    top = block.top
    for height, row in _LAYOUT:
        edges = [block.left + round(scale * x) for x in accumulate((f[2] for f in row), initial=0)]
        for (key, name, _), left, right in zip(row, edges, edges[1:], strict=False):
            items += [] if left == block.left else [Line(left, top, left, top + height, _RULE)]
            items += _cell(left, top, right - left, height, (key, say(name), words[key]))
        top += height
        items.append(Line(block.left, top, block.right, top, _RULE))
    base = (top + block.bottom + NAME) // 2
    items.append(fitted(say(AID), block.left + _GAP, base, block.width - 2 * _GAP, NAME))
    if what.job:
        room = round(scale * _LAYOUT[1][1][0][2]) - 2 * _GAP
        subtitle = " · ".join(filter(None, (what.job, what.site)))
        items.append(fitted(subtitle, block.left + _GAP, block.top + 206, room, NAME, Ink.QUIET))
    return tuple(items)


def _fields(what: TitleBlock) -> dict[str, str]:
    sheet = say("{number} of {count}", number=what.sheet, count=what.sheets)
    keys = {key for _, row in _LAYOUT for key, _, _ in row} - {"sheet"}
    return {"sheet": sheet, **{key: getattr(what, key) for key in keys}}


def _cell(
    left: int, top: int, width: int, height: int, field: tuple[str, str, str]
) -> Iterator[Item]:
    key, name, value = field
    room = width - 2 * _GAP
    yield fitted(name, left + _GAP, top + 30, room, NAME, Ink.QUIET)
    if value:
        tall = _HEIGHTS.get(key, VALUE)
        base = top + (84 if key == "title" else height - 16)
        bold = key in (*_HEIGHTS, "sheet")
        yield fitted(value, left + _GAP, base, room, tall, bold=bold, least=_LEAST.get(key, NAME))


_REVISION_WIDTHS = (70, 190, 170, 90)
_REVISION_ROW = 52


def revision_table(frame: Frame, revisions: tuple[Revision, ...]) -> tuple[Item, ...]:
    """The table of revisions at the left of the title block, the newest at the foot.

    Nothing where the paper leaves no room for it; the oldest are left out where they are too many.
    """
    width = sum(_REVISION_WIDTHS)
    block = frame.block
    left = block.left - width
    if frame.strip.width < width or not revisions:
        return ()
    items: list[Item] = [Rect(left, block.top, width, block.height, 0, Pen(width=THIN), Ink.PAPER)]
    edges = [left, *accumulate(_REVISION_WIDTHS, initial=left)][1:]
    items += [Line(x, block.top, x, block.bottom, _RULE) for x in edges[1:-1]]
    rows = (block.height - 10) // _REVISION_ROW
    heads = [say("rev"), say("change"), say("date"), say("by")]
    shown = revisions[-(rows - 1) :]
    lines = [heads, *([r.letter, r.change, r.date, r.by] for r in shown)]
    for number, line in enumerate(lines):
        base = block.top + number * _REVISION_ROW + 38
        if number:
            y = block.top + number * _REVISION_ROW
            items.append(Line(left, y, block.left, y, _RULE))
        for x, end, word in zip(edges, edges[1:], line, strict=False):
            if word:
                items.append(_revision_word(word, x, base, end - x, bool(number)))
    return tuple(items)


def _revision_word(word: str, x: int, base: int, width: int, value: bool) -> Text:
    height, ink = (VALUE, Ink.INK) if value else (NAME, Ink.QUIET)
    return fitted(word, x + 10, base, width - 14, height, ink)


def fitted(
    value: str,
    x: int,
    base: int,
    room: int,
    height: int,
    ink: Ink = Ink.INK,
    *,
    bold: bool = False,
    least: int = NAME,
) -> Text:
    """The text in at most ``room``: as it is, lower, then cut with an ellipsis."""
    for tall in range(height, least - 1, -1):
        if text_width(value, tall, bold) <= room:
            return Text(x, base, value, tall, bold=bold, ink=ink)
    fits, beyond = 0, len(value)
    while beyond - fits > 1:
        middle = (fits + beyond) // 2
        short = text_width(f"{value[:middle].rstrip()}…", least, bold) <= room
        fits, beyond = (middle, beyond) if short else (fits, middle)
    return Text(x, base, f"{value[:fits].rstrip()}…", least, bold=bold, ink=ink)
