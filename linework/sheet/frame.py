"""The sheet around the drawing: frame, zones, title block.

Margins, centring marks, zones of 50 mm counted from them and letters without I and O after
ISO 5457 (from memory); the title block 180 mm wide in the right lower corner after ISO 7200 (from
memory).
"""

from __future__ import annotations

from dataclasses import dataclass

from linework.picture.geometry import Box
from linework.picture.inks import HEAVY, MEDIUM, THIN, Ink, Pen
from linework.picture.measure import text_width
from linework.picture.model import Item, Line, Rect, Text
from linework.sheet.lettering import HEAD, SMALL
from linework.words import say

PAPERS: dict[str, tuple[int, int]] = {
    "A3": (4200, 2970),
    "A4": (2970, 2100),
    "tabloid": (4318, 2794),
    "letter": (2794, 2159),
}
"""Width and height in tenths of a millimetre, long side level (ISO 216; ASME Y14.1)."""

_BINDING, _MARGIN, _BAND = 200, 100, 50
_ZONE = 500
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
_BLOCK_WIDTH, _ROW = 1800, 62
_FRAME = Pen(width=HEAVY)
_RULE = Pen(width=THIN)
_CELL_GAP = 12


class PaperError(ValueError):
    """There is no paper of this name; the text names those there are."""


@dataclass(frozen=True)
class TitleBlock:
    """What stands in the title block; every field may be empty."""

    title: str = ""
    job: str = ""
    site: str = ""
    sheet: int = 1
    sheets: int = 1
    revision: str = ""
    date: str = ""
    drawn: str = ""
    checked: str = ""
    rules: str = ""
    """Family and edition of the rules that were applied."""


@dataclass(frozen=True)
class Frame:
    """A sheet of a size: ``area`` is what may be drawn on, ``block`` the title block inside it."""

    paper: str
    width: int
    height: int
    area: Box
    block: Box
    columns: tuple[int, ...]
    """The lines between zones, from left to right, edges of the area included."""
    rows: tuple[int, ...]

    def zone_at(self, x: int, y: int) -> str:
        """The zone of a point: "B4"; "" outside the frame."""
        if not self.area.holds(x, y):
            return ""
        row = max(at for at, line in enumerate(self.rows[:-1]) if line <= y)
        column = max(at for at, line in enumerate(self.columns[:-1]) if line <= x)
        return f"{_LETTERS[row]}{column + 1}"

    @property
    def items(self) -> tuple[Item, ...]:
        """Frame line, centring marks, zone marks."""
        area = self.area
        outline = Rect(area.left, area.top, area.width, area.height, pen=_FRAME)
        return (outline, *_centring(self), *_zones(self))


def frame_of(paper: str) -> Frame:
    """The frame of a paper by its name (A3, A4, tabloid, letter). PaperError for another name."""
    names = {name.lower(): name for name in PAPERS}
    if paper.lower() not in names:
        raise PaperError(
            say("there is no paper '{paper}', only {known}", paper=paper, known=", ".join(PAPERS))
        )
    name = names[paper.lower()]
    width, height = PAPERS[name]
    area = Box(_BINDING, _MARGIN, width - _MARGIN, height - _MARGIN)
    block = Box(
        area.right - _BLOCK_WIDTH, area.bottom - _ROW * len(_LAYOUT), area.right, area.bottom
    )
    columns = _lines(area.left, area.right, width // 2)
    return Frame(
        name, width, height, area, block, columns, _lines(area.top, area.bottom, height // 2)
    )


def _lines(low: int, high: int, middle: int) -> tuple[int, ...]:
    """Zone lines every 50 mm from the middle; the corner zones take what is left over."""
    steps = range(-(middle // _ZONE), (high - middle) // _ZONE + 1)
    inner = [middle + step * _ZONE for step in steps if low < middle + step * _ZONE < high]
    return (low, *inner, high)


def _centring(frame: Frame) -> tuple[Item, ...]:
    x, y, area = frame.width // 2, frame.height // 2, frame.area
    return (
        Line(x, area.top - _BAND, x, area.top + _BAND, _FRAME),
        Line(x, area.bottom - _BAND, x, area.bottom + _BAND, _FRAME),
        Line(area.left - _BAND, y, area.left + _BAND, y, _FRAME),
        Line(area.right - _BAND, y, area.right + _BAND, y, _FRAME),
    )


def _zones(frame: Frame) -> list[Item]:
    area, pen = frame.area, Pen(width=MEDIUM)
    items: list[Item] = []
    for x in frame.columns[1:-1]:
        items += [
            Line(x, area.top - _BAND, x, area.top, pen),
            Line(x, area.bottom, x, area.bottom + _BAND, pen),
        ]
    for y in frame.rows[1:-1]:
        items += [
            Line(area.left - _BAND, y, area.left, y, pen),
            Line(area.right, y, area.right + _BAND, y, pen),
        ]
    for number, (a, b) in enumerate(zip(frame.columns, frame.columns[1:], strict=False), start=1):
        for y in (area.top - _BAND // 2, area.bottom + _BAND // 2):
            items.append(_zone_sign((a + b) // 2, y, str(number)))
    for letter, a, b in zip(_LETTERS, frame.rows, frame.rows[1:], strict=False):
        for x in (area.left - _BAND // 2, area.right + _BAND // 2):
            items.append(_zone_sign(x, (a + b) // 2, letter))
    return items


def _zone_sign(x: int, y: int, sign: str) -> Text:
    return Text(x, y, sign, HEAD, "middle", "middle", ink=Ink.QUIET)


# title block

_LAYOUT: tuple[tuple[tuple[str, int], ...], ...] = (
    (("title", 1150), ("sheet", 350), ("revision", 300)),
    (("job", 1150), ("date", 650)),
    (("site", 1150), ("rules", 650)),
    (("drawn", 900), ("checked", 900)),
    (("aid", 1800),),
)
"""Rows from above, each with its fields and their widths."""


def title_block(frame: Frame, what: TitleBlock) -> tuple[Item, ...]:
    """The title block in its corner. A value that is too long is written narrower, then cut."""
    block = frame.block
    items: list[Item] = [
        Rect(block.left, block.top, block.width, block.height, 0, _FRAME, Ink.PAPER)
    ]
    words = _fields(what)
    for number, row in enumerate(_LAYOUT):
        top, left = block.top + number * _ROW, block.left
        if number:
            items.append(Line(block.left, top, block.right, top, _RULE))
        for key, width in row:
            if left > block.left:
                items.append(Line(left, top, left, top + _ROW, _RULE))
            items.extend(_cell(left, top, width, *words[key], strong=key == "title"))
            left += width
    return tuple(items)


def _fields(what: TitleBlock) -> dict[str, tuple[str, str]]:
    """By key: the field's name and its value."""
    sheet = say("{number} of {count}", number=what.sheet, count=what.sheets)
    return {
        "title": ("", what.title),
        "sheet": (say("Sheet"), sheet),
        "revision": (say("Revision"), what.revision),
        "job": (say("Job"), what.job),
        "date": (say("Date"), what.date),
        "site": (say("Site"), what.site),
        "rules": (say("Rules"), what.rules),
        "drawn": (say("Drawn"), what.drawn),
        "checked": (say("Checked"), what.checked),
        "aid": ("", say("Design aid: local codes and a licensed electrician decide.")),
    }


def _cell(left: int, top: int, width: int, name: str, value: str, strong: bool) -> list[Item]:
    base = top + (_ROW + SMALL) // 2
    items: list[Item] = []
    at = left + _CELL_GAP
    if name:
        items.append(Text(at, base, name, SMALL, ink=Ink.QUIET))
        at += text_width(name, SMALL) + 16
    if value:
        room = left + width - _CELL_GAP - at
        items.append(fitted(value, at, base, room, HEAD if strong else SMALL, strong))
    return items


def fitted(value: str, x: int, base: int, room: int, height: int, bold: bool = False) -> Text:
    """The text in at most ``room``: as it is, lower, then cut with an ellipsis."""
    for tall in (height, SMALL):
        if text_width(value, tall, bold) <= room:
            return Text(x, base, value, tall, bold=bold)
    while value and text_width(f"{value}…", SMALL, bold) > room:
        value = value[:-1].rstrip()
    return Text(x, base, f"{value}…", SMALL, bold=bold)
