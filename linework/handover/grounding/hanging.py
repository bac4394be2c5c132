"""Rails of what bars end at, and under them the boxes that hang on nothing else."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from linework.handover.grounding.bars import Bar, Grounds, Tie, Way
from linework.handover.grounding.packing import APART, RAIL_NAME, TALL
from linework.picture.inks import BAR, BROAD, MEDIUM, THIN, Dash, Ink, Pen
from linework.picture.marks import earth, frame, junction
from linework.picture.measure import text_width
from linework.picture.model import Item, Line, Rect, Text
from linework.sheet.titleblock import fitted

PITCH = 75
"""From one rail to the next, in tenths of a millimetre as all else."""
_DOWN, _HIGH, _LEAST = 72, 96, 230
_GROUND = Pen(width=MEDIUM)
_EDGE = Pen(Ink.QUIET, THIN, Dash.CHAIN)


@dataclass(frozen=True)
class Hung:
    """A part that only ways to rails lead to: its name, and each bar with its ways and labels."""

    part: str
    name: str
    bars: tuple[tuple[Bar, tuple[tuple[str, str], ...]], ...]

    @property
    def width(self) -> int:
        """Room for the labels beside each other, and for the name."""
        shares = sum(_share(ways) for _, ways in self.bars)
        return max(_LEAST, shares, text_width(self.name, 28, bold=True) + 40)

    @property
    def rails(self) -> set[str]:
        """What it hangs on."""
        return {rail for _, ways in self.bars for rail, _ in ways}


def _share(ways: Sequence[tuple[str, str]]) -> int:
    return 30 + sum(text_width(label, TALL) + 46 for _, label in ways)


def hangs(grounds: Grounds, part: str) -> bool:
    """Whether a part has neither neutral nor link, and no way to another box."""
    bars = {*grounds.of(part)}
    linked = {bar for s in grounds.straps for bar in (s.one, s.other)}
    ways = [w for w in grounds.ways if w.start in bars or w.end in bars]
    plain = bool(ways) and all(w.start in bars and isinstance(w.end, str) for w in ways)
    return plain and not bars & linked and all(bar.pole != "N" for bar in bars)


def hung(
    grounds: Grounds, name: Callable[[str], str], label: Callable[[Way], str]
) -> Iterator[Hung]:
    """The parts that hang, in their order."""
    for part in grounds.boxes:
        if hangs(grounds, part):
            bars = tuple(
                (bar, tuple((str(w.end), label(w)) for w in grounds.ways if w.start == bar))
                for bar in grounds.of(part)
            )
            yield Hung(part, name(part), bars)


def taken(waiting: list[Hung], width: int) -> list[Hung]:
    """The first of them that stand in one row of this width; they leave the list."""
    used = RAIL_NAME
    row: list[Hung] = []
    while waiting and (not row or used + waiting[0].width + APART <= width):
        used += waiting[0].width + APART
        row.append(waiting.pop(0))
    return row


class Rails:
    """Level lines under the boxes. ``base``: the upper one; ``end``: where they end."""

    def __init__(self, names: Iterable[str], base: int, end: int) -> None:
        self.names, self.base, self.end = sorted(names), base, end

    def y(self, name: str) -> int:
        """The height of one."""
        return self.base + self.names.index(name) * PITCH

    @property
    def bottom(self) -> int:
        """Of the last one with its sign."""
        return self.base + (len(self.names) - 1) * PITCH + 60

    def drawn(self, called: Callable[[str], str]) -> Iterator[Item]:
        """Each with its sign and name."""
        for name in self.names:
            y, x = self.y(name), self.end + 20
            yield Line(5, y, self.end + 60, y, Pen(width=BROAD))
            room = RAIL_NAME - 110
            yield fitted(called(name), x + 70, y + 12, room, TALL, bold=True, least=TALL)
            yield from (earth if name == "earth" else frame)(x, y + 12, 40)
            yield Line(x, y, x, y + 12)

    def drop(self, x: int, top: int, name: str, label: str) -> Iterator[Item]:
        """A way from a bar above, its label upward beside it."""
        yield Line(x, top, x, self.y(name), _GROUND)
        yield from junction(x, self.y(name))
        yield Text(x - 10, self.base - 20, label, TALL, upward=True)

    def tie(self, tie: Tie, number: int, label: str) -> Iterator[Item]:
        """From rail to rail at their end, its words between the two."""
        high, low = sorted(map(self.y, (tie.one, tie.other)))
        x = self.end + 55 - 22 * number
        yield Line(x, high, x, low, _GROUND)
        yield from (*junction(x, high), *junction(x, low))
        yield fitted(label, x + 12, high + 52, RAIL_NAME - 60, TALL, least=TALL)

    def hang(self, row: Sequence[Hung]) -> Iterator[Item]:
        """The boxes under them, from the left."""
        x, top = 5, self.bottom - 60 + _DOWN
        for each in row:
            yield Rect(x, top, each.width, _HIGH, 0, _EDGE, Ink.TINT)
            yield Text(x + 16, top + 78, each.name, 28, bold=True)
            spare = (each.width - sum(_share(ways) for _, ways in each.bars)) // len(each.bars)
            left = x
            for bar, ways in each.bars:
                right = left + _share(ways) + spare
                yield Line(left + 10, top + 24, right - 10, top + 24, Pen(width=BAR))
                yield Text(right - 10, top + 24 + 12 + TALL, bar.name, TALL, "end")
                yield from self._up(left + 30, top, ways)
                left = right
            x += each.width + APART

    def _up(self, x: int, top: int, ways: Sequence[tuple[str, str]]) -> Iterator[Item]:
        for rail, label in ways:
            yield Line(x, self.y(rail), x, top + 24, _GROUND)
            yield from (*junction(x, self.y(rail)), *junction(x, top + 24))
            yield Text(x + 14, top - 14, label, TALL)
            x += text_width(label, TALL) + 46

    def below(self, row: Sequence[Hung]) -> int:
        """Where all of it ends."""
        return self.bottom - 60 + _DOWN + _HIGH + 12 if row else self.bottom


def width_of_row(row: Sequence[Hung]) -> int:
    """Where the last of them ends at the right."""
    return sum(each.width + APART for each in row) - APART if row else 0
