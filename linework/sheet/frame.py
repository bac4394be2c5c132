"""The sheet around the drawing: frame, zones, centring and trimming marks.

Margins, marks, zones of 50 mm counted from the centre and letters without I and O after ISO 5457
(from memory); its A4 has zones only above and at the right.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from linework.picture.geometry import Box
from linework.picture.inks import HEAVY, MEDIUM, Ink, Pen
from linework.picture.model import Item, Line, Rect, Text
from linework.sheet.lettering import HEAD
from linework.words import say

PAPERS: dict[str, tuple[int, int]] = {
    "A3": (4200, 2970),
    "A4": (2970, 2100),
    "tabloid": (4318, 2794),
    "letter": (2794, 2159),
}
"""Width and height in tenths of a millimetre, long side level (ISO 216; ASME Y14.1)."""

UPRIGHT = " upright"
"""Behind the name of a paper: its short side lies level."""
_BINDING, _MARGIN, _BAND = 200, 100, 50
_ZONE = 500
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
_BLOCK_WIDTH, _BLOCK_HEIGHT = 1800, 360
_TRIM, _TRIM_WIDE = 100, 50
_FRAME = Pen(width=HEAVY)


class PaperError(ValueError):
    """There is no paper of this name; the text names those there are."""


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

    @property
    def name(self) -> str:
        """What :func:`frame_of` makes this one of: the paper, and "upright" where it stands so."""
        return self.paper if self.width > self.height else f"{self.paper}{UPRIGHT}"

    def zone_at(self, x: int, y: int) -> str:
        """The zone of a point: "B4"; "" outside the frame."""
        if not self.area.holds(x, y):
            return ""
        row = max(at for at, line in enumerate(self.rows[:-1]) if line <= y)
        column = max(at for at, line in enumerate(self.columns[:-1]) if line <= x)
        return f"{_LETTERS[row]}{column + 1}"

    @property
    def strip(self) -> Box:
        """What is left free at the left of the title block; of no width on an upright A4."""
        return Box(self.area.left, self.block.top, self.block.left, self.area.bottom)

    @property
    def items(self) -> tuple[Item, ...]:
        """Frame line, centring marks, zone marks, trimming marks."""
        area = self.area
        outline = Rect(area.left, area.top, area.width, area.height, pen=_FRAME)
        return (outline, *_centring(self), *_zones(self), *_trimming(self))


def frame_of(paper: str, upright: bool = False) -> Frame:
    """The frame of a paper by its name (A3, A4, tabloid, letter). PaperError for another name.

    ``upright``: the short side level, as also where the name ends with that word ("A4 upright").
    """
    names = {name.lower(): name for name in PAPERS}
    bare = paper.lower().removesuffix(UPRIGHT)
    if bare not in names:
        raise PaperError(
            say("there is no paper '{paper}', only {known}", paper=paper, known=", ".join(PAPERS))
        )
    name, upright = names[bare], upright or bare != paper.lower()
    width, height = reversed(PAPERS[name]) if upright else PAPERS[name]
    area = Box(_BINDING, _MARGIN, width - _MARGIN, height - _MARGIN)
    block = Box(
        max(area.right - _BLOCK_WIDTH, area.left),
        area.bottom - _BLOCK_HEIGHT,
        area.right,
        area.bottom,
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
    above: tuple[tuple[int, int], ...] = (
        (area.top - _BAND, area.top),
        (area.bottom, area.bottom + _BAND),
    )
    beside: tuple[tuple[int, int], ...] = (
        (area.right, area.right + _BAND),
        (area.left - _BAND, area.left),
    )
    if frame.paper == "A4":
        above, beside = above[:1], beside[:1]
    items: list[Item] = []
    for low, high in above:
        items += [Line(x, low, x, high, pen) for x in frame.columns[1:-1]]
        for number, (a, b) in enumerate(pairwise(frame.columns), start=1):
            items.append(_zone_sign((a + b) // 2, (low + high) // 2, str(number)))
    for low, high in beside:
        items += [Line(low, y, high, y, pen) for y in frame.rows[1:-1]]
        for letter, (a, b) in zip(_LETTERS, pairwise(frame.rows), strict=False):
            items.append(_zone_sign((low + high) // 2, (a + b) // 2, letter))
    return items


def _zone_sign(x: int, y: int, sign: str) -> Text:
    return Text(x, y, sign, HEAD, "middle", "middle", ink=Ink.QUIET)


def _trimming(frame: Frame) -> list[Item]:
    """Two filled bars in each corner of the paper: where it is cut."""
    bars: list[Item] = []
    for x, y in ((0, 0), (frame.width, 0), (0, frame.height), (frame.width, frame.height)):
        for wide, high in ((_TRIM, _TRIM_WIDE), (_TRIM_WIDE, _TRIM)):
            left, top = min(x, abs(x - wide)), min(y, abs(y - high))
            bars.append(Rect(left, top, wide, high, pen=None, fill=Ink.INK))
    return bars
