"""A chart of time over current on logarithmic scales, as a picture; it knows no device."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor, isfinite, log10

from linework.picture.geometry import Box
from linework.picture.inks import FINE, HEAVY, MEDIUM, THIN, WIDE, Dash, Ink, Pen
from linework.picture.measure import text_width
from linework.picture.model import Item, Line, Polyline, Rect, Text

_CAPITALS = 25
_TAG = 44
_APART = 7
"""Between two figures under the field."""
_PLACES = 24
"""So many places along a line are tried for its mark."""


@dataclass(frozen=True)
class Trace:
    """One line: ``points`` of ampere and second, with what ``mark`` stands at it."""

    points: tuple[tuple[float, float], ...]
    pen: Pen
    mark: str = ""


@dataclass(frozen=True)
class Span:
    """Currents from ``low`` to ``high`` (ampere), told by a bar at the foot with its ``name``."""

    low: float
    high: float
    name: str


LATEST = Pen(width=HEAVY)
ASSUMED = Pen(width=HEAVY, dash=Dash.DASHED)
EARLIEST = Pen(width=THIN, dash=Dash.DASHED)
DAMAGE = Pen(Ink.DANGER, WIDE, Dash.CHAIN)


@dataclass(frozen=True)
class Chart:
    """Scales and size of one chart, in tenths of a millimetre; its origin is the upper corner of
    its field of lines."""

    width: int
    height: int
    amps: tuple[float, float]
    seconds: tuple[float, float] = (1e-3, 1e4)

    def x(self, amps: float) -> int:
        """Where a current lies."""
        low, high = map(log10, self.amps)
        return round(self.width * (log10(amps) - low) / (high - low))

    def y(self, seconds: float) -> int:
        """Where a time lies."""
        low, high = map(log10, self.seconds)
        return round(self.height * (high - log10(seconds)) / (high - low))

    def drawn(self, traces: Sequence[Trace], spans: Sequence[Span]) -> list[Item]:
        """Grid, lines, marks, and the bars of currents under the foot."""
        items = [*self._grid()]
        marks: list[Item] = []
        tags: list[Box] = []
        for number, trace in enumerate(traces):
            shown = self._within(trace.points)
            if len(shown) > 1:
                items.append(
                    Polyline(tuple((self.x(a), self.y(s)) for a, s in shown), pen=trace.pen)
                )
            if shown and trace.mark:
                tags.append(self._tag(trace.mark, shown, number, tags))
                marks += _tagged(trace.mark, tags[-1])
        items.append(Rect(0, 0, self.width, self.height, pen=Pen(width=MEDIUM)))
        return [*items, *self._bars(spans), *marks]

    def foot(self, spans: Sequence[Span]) -> int:
        """The room that figures and bars take below the field."""
        return 80 + 46 * len(spans)

    def _within(self, points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
        """The points inside the field, those beyond its upper and lower edge brought to it."""
        low, high = self.seconds
        inside = [
            (amps, min(max(seconds, low), high))
            for amps, seconds in points
            if self.amps[0] <= amps <= self.amps[1] and isfinite(seconds)
        ]
        # what runs along an edge is outside
        return [p for n, p in enumerate(inside) if p[1] not in (low, high) or _turns(inside, n)]

    def _grid(self) -> Iterator[Item]:
        fine, strong = Pen(Ink.FAINT, FINE), Pen(Ink.QUIET, FINE)
        for power in range(floor(log10(self.amps[0])), ceil(log10(self.amps[1])) + 1):
            for digit in range(1, 10):
                amps = digit * 10.0**power
                if self.amps[0] <= amps <= self.amps[1] * 1.001:
                    x = self.x(amps)
                    yield Line(x, 0, x, self.height, strong if digit == 1 else fine)
        yield from self._figures()
        for power in range(round(log10(self.seconds[0])), round(log10(self.seconds[1])) + 1):
            y = self.y(10.0**power)
            yield Line(0, y, self.width, y, strong)
            yield Text(-14, y, _time(10.0**power), _CAPITALS, "end", "middle")
            for digit in range(2, 10):
                if digit * 10.0**power < self.seconds[1]:
                    y = self.y(digit * 10.0**power)
                    yield Line(0, y, self.width, y, fine)
        yield Text(self.width, self.height + 54, "A", _CAPITALS, "end", "top", ink=Ink.QUIET)

    def _figures(self) -> Iterator[Item]:
        """Currents under the field: powers of ten, and 2 and 5 of them where there is room."""
        powers = range(floor(log10(self.amps[0])), ceil(log10(self.amps[1])) + 1)
        taken: list[tuple[int, int]] = []
        for amps in (digit * 10.0**power for digit in (1, 2, 5) for power in powers):
            if self.amps[0] <= amps <= self.amps[1] * 1.001:
                x, wide = self.x(amps), text_width(f"{amps:g}", _CAPITALS) + _APART
                span = (x - wide // 2, x + wide // 2)
                if all(span[1] <= low or high <= span[0] for low, high in taken):
                    taken.append(span)
                    yield Text(x, self.height + 16, f"{amps:g}", _CAPITALS, "middle", "top")

    def _tag(
        self, mark: str, shown: Sequence[tuple[float, float]], number: int, others: Sequence[Box]
    ) -> Box:
        """Where a tag lies on its line: each at a height of its own, further along where another
        lies already."""
        wide = max(_TAG, text_width(mark, _CAPITALS, bold=True) + 16)
        begun = (number * 0.381966) % 1.0
        first: Box | None = None
        for step in range(_PLACES):
            at = 0.12 + 0.76 * ((begun + step / _PLACES) % 1.0)
            amps, seconds = shown[min(round(at * (len(shown) - 1)), len(shown) - 1)]
            x, y = self.x(amps), self.y(seconds)
            box = Box(x - wide // 2, y - _TAG // 2, x + wide // 2, y + _TAG // 2)
            if not any(map(box.overlaps, others)):
                return box
            first = first or box
        assert first is not None
        return first

    def _bars(self, spans: Sequence[Span]) -> Iterator[Item]:
        y = self.height + 96
        for span in spans:
            low = self.x(min(max(span.low, self.amps[0]), self.amps[1]))
            high = max(self.x(min(max(span.high, self.amps[0]), self.amps[1])), low + 4)
            yield Rect(low, y - 9, high - low, 18, pen=None, fill=Ink.INK)
            beyond = text_width(span.name, _CAPITALS) + 16
            if high + beyond <= self.width:
                yield Text(high + 16, y, span.name, _CAPITALS, "start", "middle")
            else:
                yield Text(low - 16, y, span.name, _CAPITALS, "end", "middle")
            y += 46


def _tagged(mark: str, box: Box) -> Iterator[Item]:
    yield Rect(box.left, box.top, box.width, box.height, 6, Pen(width=THIN), Ink.PAPER)
    yield Text(*box.center, mark, _CAPITALS, "middle", "middle", bold=True)


def _turns(points: Sequence[tuple[float, float]], n: int) -> bool:
    """Whether a point on an edge is the last or first of a stretch inside."""
    near = points[max(0, n - 1) : n + 2]
    return any(point[1] != points[n][1] for point in near)


def _time(seconds: float) -> str:
    return f"{seconds:g} s" if seconds >= 1 else f"{1000 * seconds:g} ms"
