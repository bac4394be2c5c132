"""One placard, and one strip for a place of a board, drawn at true size with marks to cut by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from linework.picture.inks import FINE, HEAVY, THIN, Ink, Pen
from linework.picture.measure import text_width
from linework.picture.model import Group, Item, Line, Rect, Text
from linework.sheet.lettering import wrapped
from linework.sheet.titleblock import fitted

WIDE = 800
"""Width of a placard in tenths of a millimetre."""
_HEAD, _BIG, _LOW, _BODY, _LEAST = 40, 50, 40, 30, 25
_BAND, _PITCH, _PAD, _MARK = 100, 52, 30, 30
_IN = 15
"""How far the caption stays away from the marks."""
CAPTION = 75
"""What stands below a placard: where it goes."""
STRIP = 550, 90
_LONGEST = 120
"""No more signs than this have room on one line, whatever somebody pasted."""
_CUT = Pen(Ink.QUIET, FINE)


@dataclass(frozen=True)
class Placard:
    """``head`` in capitals, ``big`` what is read first, then ``lines``; ``where`` it is put.

    ``warns``: white on black, as where somebody can be hurt. ``clause``: what asks for it there,
    or that it is practice; outside the cut, beside where it goes.
    """

    head: str
    big: str
    lines: tuple[str, ...]
    where: str
    warns: bool = True
    clause: str = ""


@dataclass(frozen=True)
class Strip:
    """What is beside one place of a board."""

    place: str
    name: str
    feeds: str


def height_of(placard: Placard) -> int:
    """How high it is in tenths of a millimetre, without its caption."""
    rows = sum(1 for _ in _rows(placard.lines))
    bigs = len(_bigs(placard.big)[0])
    return max(430, _BAND + 45 + bigs * 75 + rows * _PITCH + 25)


def _bigs(words: str) -> tuple[list[str], int]:
    """What is read first in its rows, and how tall: a little lower where one row holds it then."""
    room = WIDE - 2 * _PAD
    for tall in range(_BIG, _LOW - 1, -1):
        if text_width(words, tall, bold=True) <= room:
            return [words], tall
    return wrapped(words, room, _BIG), _BIG


def _rows(lines: Iterable[str]) -> Iterator[str]:
    for line in lines:
        yield from wrapped(line, WIDE - 2 * _PAD, _BODY)


def drawn(placard: Placard, high: int) -> Group:
    """From its left upper corner, of the height given, with corner marks and its caption."""
    middle = WIDE // 2
    pen = Pen(width=HEAVY)
    items: list[Item] = [Rect(0, 0, WIDE, high, 25, pen, Ink.PAPER)]
    if placard.warns:
        items.append(Rect(0, 0, WIDE, _BAND, 25, pen, Ink.INK))
        items.append(Rect(0, _BAND // 2, WIDE, _BAND // 2, 0, None, Ink.INK))
    items.append(Line(0, _BAND, WIDE, _BAND, pen))
    ink = Ink.PAPER if placard.warns else Ink.INK
    items.append(_centred(placard.head.upper(), middle, _BAND // 2 + _HEAD // 2, _HEAD, ink))
    base = _BAND + 25
    bigs, tall = _bigs(placard.big)
    for row in bigs:
        base += 70
        items.append(_centred(row, middle, base, tall, Ink.INK))
    base += 12
    for row in _rows(placard.lines):
        base += _PITCH
        items.append(Text(middle, base, row, _BODY, "middle"))
    items += _marks(WIDE, high)
    items += _caption(placard, high + 62)
    return Group(tuple(items))


def _caption(placard: Placard, base: int) -> Iterator[Text]:
    """Where it goes at the left, what asks for it at the right."""
    clause = fitted(placard.clause[:_LONGEST], 0, 0, WIDE * 2 // 3, _LEAST, least=_LEAST)
    if clause.text:
        yield Text(WIDE - _IN, base, clause.text, _LEAST, "end", ink=Ink.QUIET)
    room = WIDE - 2 * _IN - (text_width(clause.text, _LEAST) + 30 if clause.text else 0)
    yield fitted(placard.where[:_LONGEST], _IN, base, room, _LEAST, Ink.QUIET, least=_LEAST)


def _centred(words: str, x: int, base: int, height: int, ink: Ink) -> Text:
    least = fitted(words[:_LONGEST], 0, 0, WIDE - 2 * _PAD, height, bold=True, least=_LEAST)
    return Text(x, base, least.text, least.height, "middle", bold=True, ink=ink)


def _marks(wide: int, high: int) -> Iterator[Line]:
    """Two strokes outside each corner."""
    for x, out in ((0, -1), (wide, 1)):
        for y, down in ((0, -1), (high, 1)):
            yield Line(x, y + down * 10, x, y + down * _MARK, _CUT)
            yield Line(x + out * 10, y, x + out * _MARK, y, _CUT)


def drawn_strip(strip: Strip) -> Group:
    """From its left upper corner."""
    wide, high = STRIP
    base = high // 2 + _BODY // 2
    name = f"{strip.place}  {strip.name}"[:_LONGEST]
    left = fitted(name, 18, base, wide - 36, _BODY, bold=True, least=_LEAST)
    room = wide - 54 - text_width(left.text, left.height, bold=True)
    items: list[Item] = [Rect(0, 0, wide, high, 12, Pen(width=THIN), Ink.PAPER), left]
    if strip.feeds and room > 60:
        feeds = fitted(strip.feeds[:_LONGEST], 0, base, room, _BODY, least=_LEAST)
        items.append(Text(wide - 18, base, feeds.text, feeds.height, "end"))
    return Group(tuple(items))
