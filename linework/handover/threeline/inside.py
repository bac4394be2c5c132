"""Draws one block: its edge and name, rows with their contacts, bars, links, what leaves below."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from linework.handover.threeline.heading import LINE, NAME
from linework.handover.threeline.model import Contact, Means, Net, Port
from linework.handover.threeline.shape import (
    CONTACT,
    DEVICE,
    INDENT,
    PIN,
    ROW,
    TALL,
    Drop,
    Row,
    Shape,
    Words,
    mark,
    mark_width,
    stub_text,
)
from linework.handover.threeline.signs import REACH, bond_sign, contact_sign, device_sign, pen_of
from linework.picture.inks import BAR, THIN, Dash, Ink, Pen
from linework.picture.marks import earth, frame
from linework.picture.measure import text_width
from linework.picture.model import Circle, Item, Line, Rect, Text

_EDGE = Pen(Ink.QUIET, THIN)
_GHOST = Pen(Ink.QUIET, THIN, Dash.DASHED)
_GANG = Pen(Ink.QUIET, THIN, Dash.DASHED)
_RING = Pen(width=THIN)
_DOT, _WIDE_DOT = 8, 11


def inside(shape: Shape, words: Words, wide: bool) -> list[Item]:
    """The items of a block from its left upper corner; ``wide``: its bars are those of a board."""
    return list(_Inside(shape, words, wide).items())


class _Inside:
    def __init__(self, shape: Shape, words: Words, wide: bool) -> None:
        self.shape, self.words, self.wide = shape, words, wide
        self.block = shape.block
        self.gangs: dict[tuple[str, int], list[int]] = {}

    def items(self) -> Iterator[Item]:
        """In drawing order: what lies below first."""
        shape = self.shape
        ghost = bool(self.block.elsewhere)
        pen, fill = (_GHOST, None) if ghost else (_EDGE, Ink.TINT)
        yield Rect(0, 0, shape.width, shape.height, 0, pen, fill)
        yield from self._header()
        for row in shape.rows:
            yield from self._mark(row)
            if not ghost:
                yield from self._row(row)
        for title in shape.titles:
            left = title.side == "left"
            x = INDENT if left else shape.width - INDENT
            yield Text(x, title.y, title.text, TALL, "start" if left else "end")
        if ghost:
            return
        for contact, y in shape.crosses:
            yield from self._cross(contact, y)
        for net in shape.bar_x:
            yield from self._bar(net)
        yield from self._drops()
        for (_, x), heights in self.gangs.items():
            for high, low in pairwise(sorted(heights)):
                if low - high <= ROW:
                    yield Line(x, high + 7, x, low - 17, _GANG)

    # names

    def _header(self) -> Iterator[Item]:
        shape = self.shape
        count = len(shape.name) + len(shape.lines)
        if shape.named_aside:
            x, base = shape.width + 25, shape.height // 2 - LINE * (count - 1) // 2 + NAME // 2
        else:
            x, base = 0, -shape.above + NAME + 6
        for n, text in enumerate(shape.name):
            yield Text(x, base + n * LINE, text, NAME, bold=True)
        base += LINE * len(shape.name)
        for n, text in enumerate(shape.lines):
            yield Text(x, base + n * LINE, text, TALL)

    def _mark(self, row: Row) -> Iterator[Item]:
        if isinstance(row.end, Port):
            left = row.side == "left"
            x = 16 if left else self.shape.width - 16
            pole = mark(row.end.pins[row.index].pole)
            yield Text(x, row.y, pole, TALL, "start" if left else "end", "middle")

    # rows

    def _row(self, row: Row) -> Iterator[Item]:
        """From its mark or device over its contacts to its bar."""
        sign, start = (1, 0) if row.side == "left" else (-1, self.shape.width)
        own = self._own(row)
        pen = pen_of(own)
        end = self.shape.bar_x[row.net]
        if isinstance(row.end, Port):
            x = start + sign * (mark_width(row) - 4)
            zone = start + sign * mark_width(row)
        else:
            x = start + sign * DEVICE
            zone = start + sign * 2 * DEVICE
            if row.index == 0:
                low = row.y + ROW * (len(row.end.nets) - 1)
                yield from device_sign(row.end, x, row.y, low)
        if self._ends_there(row):
            if row.net in self.block.metals:
                yield from self._case(x, end, row.y, pen)
            elif row.chain:
                yield from self._chained(row, x, zone, sign, end, pen)
            return
        yield from self._chained(row, x, zone, sign, end, pen)

    def _own(self, row: Row) -> str:
        if isinstance(row.end, Port):
            return row.end.pins[row.index].pole
        return self.block.poles[row.net]

    def _chained(
        self, row: Row, x: int, zone: int, sign: int, end: int, pen: Pen
    ) -> Iterator[Item]:
        for n, contact in enumerate(row.chain):
            middle = zone + sign * (CONTACT * n + CONTACT // 2)
            yield Line(x, row.y, middle - sign * REACH, row.y, pen)
            yield from contact_sign(contact, middle, row.y)
            if contact.moves or contact.means is Means.BREAKER:
                self.gangs.setdefault((contact.owner, middle), []).append(row.y)
            x = middle + sign * REACH
        yield Line(x, row.y, end, row.y, pen)

    def _ends_there(self, row: Row) -> bool:
        """Whether nothing else hangs on the net at which a row ends."""
        led = row.net in self.block.goes_on or row.net in self.block.from_above
        return len(self.shape.ends[row.net]) == 1 and row.net not in self._dropped() and not led

    def _dropped(self) -> set[Net]:
        return {drop.net for drop in self.shape.drops}

    def _case(self, x: int, end: int, y: int, pen: Pen) -> Iterator[Item]:
        """The ground of a part that ends at its own case."""
        yield Line(x, y, end, y, pen)
        yield Line(end, y, end, y + 7, _RING)
        yield from frame(end, y + 7, 24, _RING)

    # bars

    def _bar(self, net: Net) -> Iterator[Item]:
        shape = self.shape
        ends, x = shape.ends.get(net, []), shape.bar_x[net]
        drops = [d for d in shape.drops if d.net == net]
        straight_down = any(d.lead is None for d in drops)
        led = [0] * (net in self.block.from_above) + [shape.height] * (net in self.block.goes_on)
        heights = [*ends, *([shape.height] if straight_down else []), *led]
        if len(set(heights)) < 2:
            return
        many = len(ends) + straight_down > 2 or bool(led)
        pole = self.block.poles[net]
        high, low = min(heights), max(heights)
        wide = self.wide and many
        bar_low = max([*ends, *led]) if wide else low
        yield Line(x, high, x, bar_low, Pen(width=BAR) if wide else pen_of(pole))
        if wide and straight_down:
            yield Line(x, bar_low, x, low, pen_of(pole))
        if many:
            r = _WIDE_DOT if wide else _DOT
            yield from (Circle(x, y, r, None, Ink.INK) for y in sorted(set(ends)))
            under = None if straight_down or net in self.block.goes_on else bar_low
            yield from self._letter(net, mark(pole), high, under)

    def _letter(self, net: Net, letter: str, high: int, low: int | None) -> Iterator[Item]:
        """That of a bar, over it or else under it, where no line is in its way."""
        x = self.shape.bar_x[net]
        half = text_width(letter, TALL) // 2 + 8
        for base in (high - 14, *(() if low is None else (low + 16 + TALL,))):
            if not self._crossed(x - half, x + half, base - TALL - 6, base + 6):
                yield Text(x, base, letter, TALL, "middle")
                return

    def _crossed(self, left: int, right: int, top: int, bottom: int) -> bool:
        """Whether a level line passes through a field between the bars."""
        at, wide = self.shape.bar_x, self.shape.width
        spans: list[tuple[int, int, int]] = []
        for row in self.shape.rows:
            edge = 0 if row.side == "left" else wide
            spans.append((row.y, at[row.net], edge))
        spans += [(y, at[c.a], at[c.b]) for c, y in self.shape.crosses]
        spans += [(d.lead, at[d.net], d.x) for d in self.shape.drops if d.lead is not None]
        beside = bottom > self.shape.height - 10 or top < 0
        return beside or any(
            top < y < bottom and min(a, b) < right and left < max(a, b) for y, a, b in spans
        )

    def _cross(self, contact: Contact, y: int) -> Iterator[Item]:
        left, right = sorted(self.shape.bar_x[net] for net in (contact.a, contact.b))
        middle = right - 35
        if contact.means is Means.BOND:
            yield from bond_sign(contact, left, right, middle, y)
        else:
            pen = pen_of(self.block.poles[contact.a])
            yield Line(left, y, middle - REACH, y, pen)
            yield from contact_sign(contact, middle, y)
            yield Line(middle + REACH, y, right, y, pen)
            if contact.moves or contact.means is Means.BREAKER:
                self.gangs.setdefault((contact.owner, middle), []).append(y)
        if contact.owner != self.block.part:
            yield Text(middle, y - 20, self.words.part(contact.owner), TALL, "middle")

    # what leaves below

    def _drops(self) -> Iterator[Item]:
        drops = sorted(self.shape.drops, key=lambda drop: -drop.x)
        for n, drop in enumerate(drops):
            yield from self._drop(drop, self.shape.height + 45 + ROW * n)

    def _drop(self, drop: Drop, depth: int) -> Iterator[Item]:
        x, bottom = drop.x, self.shape.height
        pen = pen_of(self.block.poles[drop.net])
        if drop.lead is not None:
            yield Line(self.shape.bar_x[drop.net], drop.lead, x, drop.lead, pen)
            yield Line(x, drop.lead, x, bottom, pen)
        if drop.stub is None:
            yield Line(x, bottom, x, bottom + 15, pen)
            yield from earth(x, bottom + 15, 40)
            return
        name, pole, far = stub_text(drop.stub, self.words)
        end = x + text_width(name, TALL) + 34
        yield Line(x, bottom, x, depth, pen)
        yield Line(x, depth, end, depth, pen)
        yield Circle(x, bottom, PIN, _RING, Ink.PAPER)
        yield Circle(end, depth, PIN, _RING, Ink.PAPER)
        yield Text(x + 13, bottom - 8, mark(drop.stub.near.pole), TALL)
        yield Text(x + 12, depth - 8, name, TALL)
        yield Text(end + 16, depth, pole, TALL, level="middle")
        at = end + 16 + text_width(pole, TALL) + 28
        sign = earth if self.words.soil(drop.stub.far.part) else frame
        yield from sign(at, depth - 6, 28, _RING)
        yield Text(at + 26, depth, far, TALL, level="middle")
