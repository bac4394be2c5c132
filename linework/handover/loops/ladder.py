"""Draws one loop: the source above, the fault below, hot at the left, the way back at the right."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from linework.handover.loops.rows import Row, Step
from linework.picture.inks import BAR, HEAVY, MEDIUM, Dash, Ink, Pen
from linework.picture.measure import text_width
from linework.picture.model import Across, Circle, Item, Line, Polyline, Rect, Text
from linework.sheet.lettering import wrapped
from linework.sheet.titleblock import fitted

TALL = 25
"""Height of capitals, in tenths of a millimetre as all else."""
LEAST = 560
"""A figure is at least so wide."""
_FIGURES = 118
"""Room at either side for volts."""
_PITCH, _LINE = 44, 40
_HOT, _GROUND = Pen(width=HEAVY), Pen(width=HEAVY)
_NEUTRAL = Pen(width=HEAVY, dash=Dash.DASHED)


@dataclass(frozen=True)
class Labels:
    """What is written: over the loop, at its source, at the fault, where it is open, under it;
    ``name`` of a step with its resistance, or of two of one run, and what is lost in it."""

    head: str
    under_head: str
    source: Sequence[str]
    fault: Sequence[str]
    gap: str
    told: str
    name: Callable[[Step, Step | None], str]
    lost: Callable[[Step], str]


def ladder(rows: Sequence[Row], closed: bool, labels: Labels, width: int) -> tuple[list[Item], int]:
    """The figure and its height."""
    return _Ladder(rows, closed, labels, width).drawn()


class _Ladder:
    def __init__(self, rows: Sequence[Row], closed: bool, labels: Labels, width: int) -> None:
        self.rows, self.closed, self.labels, self.width = rows, closed, labels, width
        self.hot, self.back = _FIGURES, width - _FIGURES
        self.middle = (self.hot + self.back) // 2
        self.items: list[Item] = []

    def drawn(self) -> tuple[list[Item], int]:
        words = self.labels
        self.items.append(fitted(words.head, 0, 28, self.width, TALL, bold=True, least=TALL))
        y = 28
        for row in wrapped(words.under_head, self.width, TALL):
            y += _LINE
            self.items.append(Text(0, y, row, TALL))
        top = y + 62
        self._source(top)
        y = top + self._first
        for each in self.rows:
            self._row(each, y)
            y += _PITCH
        bottom = y + 6
        self._sides(top, bottom)
        y = self._fault(bottom) + 6
        for line in wrapped(words.told, self.width, TALL):
            y += _LINE
            self.items.append(Text(0, y, line, TALL))
        return self.items, y + 34

    @property
    def _first(self) -> int:
        """From the middle of the source to the first row."""
        return 40 + 20 * len(self.labels.source)

    def _source(self, y: int) -> None:
        lines = self.labels.source
        wide = max(110, *(text_width(line, TALL, bold=True) + 24 for line in lines))
        high = 24 + _LINE * len(lines)
        left = self.middle - wide // 2
        self.items += [
            Line(self.hot, y, left, y, _HOT),
            Rect(left, y - high // 2, wide, high, 12, Pen(width=MEDIUM), Ink.TINT),
        ]
        for n, line in enumerate(lines):
            base = y - high // 2 + 40 + _LINE * n
            self.items.append(Text(self.middle, base, line, TALL, "middle", bold=not n))
        pen = _NEUTRAL if self._begins_neutral else _GROUND
        self.items.append(Line(left + wide, y, self.back, y, pen))

    @property
    def _begins_neutral(self) -> bool:
        first = next((row.back for row in self.rows if row.back is not None), None)
        return first is not None and (first.neutral or first.sort == "link")

    def _sides(self, top: int, bottom: int) -> None:
        """Both lines; the right one dashed above the link, and open where nothing leads back."""
        self.items.insert(0, Line(self.hot, top, self.hot, bottom, _HOT))
        if not self.closed:
            gap = top + 34
            self.items += [
                Line(self.back, top, self.back, gap, _NEUTRAL),
                Line(self.back, gap + _PITCH, self.back, bottom, _GROUND),
                Circle(self.back, gap, 7, Pen(width=MEDIUM), Ink.PAPER),
                Circle(self.back, gap + _PITCH, 7, Pen(width=MEDIUM), Ink.PAPER),
            ]
            for n, line in enumerate(wrapped(self.labels.gap, _FIGURES - 24, TALL)):
                self.items.append(Text(self.back + 22, gap + 34 + _LINE * n, line, TALL))
            return
        joint = self._link_y(top)
        self.items.insert(0, Line(self.back, joint, self.back, bottom, _GROUND))
        if joint > top:
            self.items.insert(0, Line(self.back, top, self.back, joint, _NEUTRAL))

    def _link_y(self, top: int) -> int:
        """Where the last link lies; the upper end where there is none."""
        start = top + self._first
        links = [n for n, r in enumerate(self.rows) if r.back is not None and r.back.sort == "link"]
        return start + _PITCH * links[0] if links else top

    def _row(self, row: Row, y: int) -> None:
        for step, x, out, end in self._ends(row):
            self._sign(step, x, y)
            self.items.append(Text(x + out, y + 12, self.labels.lost(step), TALL, end))
        room = self.back - self.hot - 44
        one, other = row.hot or row.back, row.back if row.hot else None
        if one is not None:
            name = fitted(self.labels.name(one, other), 0, 0, room, TALL, least=TALL).text
            if other is not None:
                self.items.append(Text(self.middle, y + 12, name, TALL, "middle"))
            elif row.hot is not None:
                self.items.append(Text(self.hot + 24, y + 12, name, TALL))
            else:
                self.items.append(Text(self.back - 24, y + 12, name, TALL, "end"))

    def _ends(self, row: Row) -> Iterator[tuple[Step, int, int, Across]]:
        """What lies on each side, where, how far outward its figure stands, and by which end."""
        if row.hot is not None:
            yield row.hot, self.hot, -22, "end"
        if row.back is not None:
            yield row.back, self.back, 22, "start"

    def _sign(self, step: Step, x: int, y: int) -> None:
        """A run as a resistance, a device as a box with a stroke, a link as a thick bar."""
        if step.sort == "link":
            self.items.append(Line(x - 13, y, x + 13, y, Pen(width=BAR)))
        elif step.sort == "device":
            self.items += [
                Rect(x - 12, y - 14, 24, 28, 0, Pen(width=MEDIUM), Ink.PAPER),
                Line(x - 12, y + 14, x + 12, y - 14, Pen(width=MEDIUM)),
            ]
        elif step.sort == "source":
            self.items.append(Circle(x, y, 15, Pen(width=MEDIUM), Ink.PAPER))
        else:
            fill = Ink.QUIET if step.sort == "soil" else Ink.PAPER
            self.items.append(Rect(x - 9, y - 14, 18, 28, 0, Pen(width=MEDIUM), fill))

    def _fault(self, y: int) -> int:
        """The short between both sides, and what stands at the metal under it; gives its end."""
        m = self.middle
        bolt = ((m - 34, y - 14), (m + 6, y - 6), (m - 6, y + 6), (m + 34, y + 14))
        self.items += [
            Line(self.hot, y, m - 34, y, _HOT),
            Line(m - 34, y, m - 34, y - 14, Pen(width=MEDIUM)),
            Polyline(bolt, False, Pen(width=MEDIUM)),
            Line(m + 34, y, m + 34, y + 14, Pen(width=MEDIUM)),
            Line(m + 34, y, self.back, y, _GROUND),
        ]
        for line in self.labels.fault:
            y += _LINE + 4
            self.items.append(Text(m, y, line, TALL, "middle", bold=True))
        return y
