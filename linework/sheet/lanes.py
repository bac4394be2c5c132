"""The search for a way: orthogonal, on the lines through obstacle edges, few bends, few crossings.

Knows nothing of parts and runs: boxes to keep out of, tracks already laid, a start and a goal.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from dataclasses import dataclass, field
from heapq import heappop, heappush
from itertools import pairwise

from linework.picture.geometry import MODULE, Box, Point
from linework.picture.symbolfile import Direction

Polyline = tuple[Point, ...]

VECTORS: dict[Direction, Point] = {"right": (1, 0), "down": (0, 1), "left": (-1, 0), "up": (0, -1)}

_BEND = 60
"""A bend costs as much as this length, in tenths of a millimetre."""
_CROSS = 90
_TOUCH = 400
_SHARE = 600
"""Lying on a track that is already there: the length is paid three times on top of it."""
_BLOCKED = 100_000
_NODES = 6_000
"""So many nodes are looked at before the search gives up."""
_MARGIN = 14 * MODULE


@dataclass(frozen=True, slots=True)
class Track:
    """A straight piece that is already laid, ``low`` < ``high`` along its line."""

    level: bool
    """Whether it runs from left to right."""
    line: int
    low: int
    high: int


@dataclass(frozen=True)
class Ground:
    """What lies on the paper already: boxes to keep out of, tracks not to share."""

    boxes: tuple[Box, ...]
    tracks: tuple[Track, ...] = ()

    def near(self, window: Box) -> Ground:
        """Only what lies in the window."""
        return Ground(
            tuple(box for box in self.boxes if box.overlaps(window)),
            tuple(track for track in self.tracks if _track_box(track).overlaps(window)),
        )


def _track_box(track: Track) -> Box:
    if track.level:
        return Box(track.low, track.line - 1, track.high, track.line + 1)
    return Box(track.line - 1, track.low, track.line + 1, track.high)


def tracks_of(points: Polyline) -> tuple[Track, ...]:
    """The straight pieces of a polyline."""
    found = []
    for (ax, ay), (bx, by) in pairwise(points):
        if ay == by and ax != bx:
            found.append(Track(True, ay, min(ax, bx), max(ax, bx)))
        elif ax == bx and ay != by:
            found.append(Track(False, ax, min(ay, by), max(ay, by)))
    return tuple(found)


def simplified(points: Iterable[Point]) -> Polyline:
    """The same way without doubled points and without points in the middle of a straight piece."""
    out: list[Point] = []
    for point in points:
        if out and point == out[-1]:
            continue
        while len(out) > 1 and _in_line(out[-2], out[-1], point):
            out.pop()
        out.append(point)
    return tuple(out)


def _in_line(a: Point, b: Point, c: Point) -> bool:
    return (a[0] == b[0] == c[0]) or (a[1] == b[1] == c[1])


@dataclass(frozen=True, slots=True)
class Way:
    """From ``start`` leaving in ``leaves`` to ``goal``, whose terminal points in ``faces``."""

    start: Point
    leaves: Direction
    goal: Point
    faces: Direction


def find_way(way: Way, ground: Ground) -> Polyline:
    """The cheapest way that the search finds; a plain dog-leg where it finds none.

    Simple ways are tried first; only where none is free the search begins, in a window around
    the ends and then in a wider one.
    """
    near = ground.near(_window(way, _MARGIN))
    plain, price = _best_plain(way, near)
    if price < _TOUCH:
        return plain
    for margin in (_MARGIN, 4 * _MARGIN):
        window = _window(way, margin)
        found, cost = _Search(way, ground.near(window), window).run()
        if found and cost < _BLOCKED:
            return found if cost < price else plain
    return plain


def _window(way: Way, margin: int) -> Box:
    (ax, ay), (bx, by) = way.start, way.goal
    return Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)).grown(margin)


# simple ways


def _best_plain(way: Way, ground: Ground) -> tuple[Polyline, int]:
    """The cheapest of the straight way and the dog-legs, with what it costs beyond its length."""
    best: Polyline = ()
    least = extra = 0
    for points in _plain_ways(way):
        beyond = _price(points, ground)
        turned = _turned_back(way, points)
        cost = _length(points) + _BEND * (len(points) - 2) + beyond + turned
        if not best or cost < least:
            best, least, extra = points, cost, beyond + turned
    return best, extra


def _plain_ways(way: Way) -> Iterable[Polyline]:
    (ax, ay), (bx, by) = way.start, way.goal
    if ax == bx or ay == by:
        yield simplified((way.start, way.goal))
    yield simplified((way.start, (bx, ay), way.goal))
    yield simplified((way.start, (ax, by), way.goal))
    for x in _spread(ax, bx):
        yield simplified((way.start, (x, ay), (x, by), way.goal))
    for y in _spread(ay, by):
        yield simplified((way.start, (ax, y), (bx, y), way.goal))


def _spread(a: int, b: int) -> list[int]:
    """Lines between and just outside two ends, the middle first."""
    low, high = min(a, b), max(a, b)
    middle = (low + high) // 2 // MODULE * MODULE
    found = [middle]
    for step in range(MODULE, 9 * MODULE, MODULE):
        found += [middle + step, middle - step]
    return [*found, low - MODULE, high + MODULE, low - 2 * MODULE, high + 2 * MODULE]


def _turned_back(way: Way, points: Polyline) -> int:
    """What it costs to leave or arrive against, or across, the direction of the terminal."""
    if len(points) < 2:
        return 0
    cost = 0
    for at, on, direction in (
        (points[0], points[1], way.leaves),
        (points[-1], points[-2], way.faces),
    ):
        dx, dy = VECTORS[direction]
        ahead = (on[0] - at[0]) * dx + (on[1] - at[1]) * dy
        cost += _BLOCKED if ahead < 0 else (_BEND if ahead == 0 else 0)
    return cost


def _length(points: Polyline) -> int:
    return sum(abs(ax - bx) + abs(ay - by) for (ax, ay), (bx, by) in pairwise(points))


def _price(points: Polyline, ground: Ground) -> int:
    """Beyond length and bends: boxes cut, tracks shared, touched and crossed."""
    cost = 0
    for piece in tracks_of(points):
        cost += _BLOCKED * sum(_cuts(piece, box) for box in ground.boxes)
        cost += sum(_meeting(piece, track) for track in ground.tracks)
    return cost


def _cuts(piece: Track, box: Box) -> bool:
    if piece.level:
        return box.top < piece.line < box.bottom and box.left < piece.high and piece.low < box.right
    return box.left < piece.line < box.right and box.top < piece.high and piece.low < box.bottom


def _meeting(piece: Track, track: Track) -> int:
    if piece.level == track.level:
        if piece.line != track.line:
            return 0
        shared = min(piece.high, track.high) - max(piece.low, track.low)
        return _SHARE + 3 * shared if shared > 0 else (_TOUCH if shared == 0 else 0)
    inside = track.low <= piece.line <= track.high and piece.low <= track.line <= piece.high
    if not inside:
        return 0
    end = piece.line in (track.low, track.high) or track.line in (piece.low, piece.high)
    return _TOUCH if end else _CROSS


# the search


@dataclass
class _Search:
    """A* over (column, row, direction)."""

    way: Way
    ground: Ground
    window: Box
    xs: list[int] = field(init=False)
    ys: list[int] = field(init=False)

    def __post_init__(self) -> None:
        self.xs = self._lines(0)
        self.ys = self._lines(1)
        columns, rows = len(self.xs), len(self.ys)
        self.level_cost = [[0] * columns for _ in range(rows)]
        self.upright_cost = [[0] * columns for _ in range(rows)]
        self.turn_cost = [[_BEND] * columns for _ in range(rows)]
        for box in self.ground.boxes:
            self._block(box)
        for track in self.ground.tracks:
            self._charge(track)

    def _lines(self, axis: int) -> list[int]:
        """The lines on which the way may run: ends, edges of boxes, beside tracks."""
        a, b = self.way.start[axis], self.way.goal[axis]
        found = {a, b, (a + b) // 2 // MODULE * MODULE}
        for box in self.ground.boxes:
            low, high = (box.left, box.right) if axis == 0 else (box.top, box.bottom)
            found.update((low, low - MODULE, low - 2 * MODULE))
            found.update((high, high + MODULE, high + 2 * MODULE))
        for track in self.ground.tracks:
            if track.level == (axis == 1):
                found.update((track.line - MODULE, track.line + MODULE))
        window = self.window
        low, high = (window.left, window.right) if axis == 0 else (window.top, window.bottom)
        return sorted(line for line in found if low <= line <= high)

    def _block(self, box: Box) -> None:
        """No way through the inside of a box; along its edge is free."""
        left, right = bisect_left(self.xs, box.left), bisect_right(self.xs, box.right) - 1
        top, bottom = bisect_left(self.ys, box.top), bisect_right(self.ys, box.bottom) - 1
        for row in range(bisect_right(self.ys, box.top), bisect_left(self.ys, box.bottom)):
            for column in range(max(left - (left > 0), 0), min(right + 1, len(self.xs) - 1)):
                if self.xs[column] < box.right and self.xs[column + 1] > box.left:
                    self.level_cost[row][column] = _BLOCKED
        for column in range(bisect_right(self.xs, box.left), bisect_left(self.xs, box.right)):
            for row in range(max(top - (top > 0), 0), min(bottom + 1, len(self.ys) - 1)):
                if self.ys[row] < box.bottom and self.ys[row + 1] > box.top:
                    self.upright_cost[row][column] = _BLOCKED

    def _charge(self, track: Track) -> None:
        """The price of sharing, crossing and touching one track."""
        if track.level:
            along, across, cost, crossed = self.ys, self.xs, self.level_cost, self.upright_cost
        else:
            along, across, cost, crossed = self.xs, self.ys, self.upright_cost, self.level_cost
        first, last = bisect_left(across, track.low), bisect_right(across, track.high)
        at = bisect_left(along, track.line)
        on_line = at < len(along) and along[at] == track.line
        for other in range(first, last):
            price = _TOUCH if across[other] in (track.low, track.high) else _CROSS
            if at > 0:
                self._add(crossed, track.level, at - 1, other, price)
            if on_line:
                column, row = (other, at) if track.level else (at, other)
                self.turn_cost[row][column] = _TOUCH
                if other + 1 < last:
                    length = across[other + 1] - across[other]
                    self._add(cost, not track.level, other, at, _SHARE + 3 * length)

    @staticmethod
    def _add(cost: list[list[int]], upright: bool, along: int, across: int, price: int) -> None:
        """Add to the piece number ``along`` of the line number ``across``."""
        row, column = (along, across) if upright else (across, along)
        cost[row][column] += price

    def run(self) -> tuple[Polyline, int]:
        """The way and its cost; an empty one where the search gave up."""
        xs, ys = self.xs, self.ys
        goal = (bisect_left(xs, self.way.goal[0]), bisect_left(ys, self.way.goal[1]))
        start = (bisect_left(xs, self.way.start[0]), bisect_left(ys, self.way.start[1]))
        first = (*start, VECTORS[self.way.leaves])
        best: dict[_Node, int] = {first: 0}
        came: dict[_Node, _Node] = {}
        heap: list[tuple[int, int, _Node]] = [(0, 0, first)]
        seen = 0
        while heap and seen < _NODES:
            _, negative, node = heappop(heap)
            if -negative > best[node]:
                continue
            seen += 1
            if node[:2] == goal:
                return self._traced(node, came), best[node]
            self._spread(node, best, came, heap)
        return (), 0

    def _spread(
        self,
        node: _Node,
        best: dict[_Node, int],
        came: dict[_Node, _Node],
        heap: list[tuple[int, int, _Node]],
    ) -> None:
        column, row, (hx, hy) = node
        gone = best[node]
        for dx, dy in ((hx, hy), (-hy, hx), (hy, -hx)):
            new_column, new_row = column + dx, row + dy
            if not (0 <= new_column < len(self.xs) and 0 <= new_row < len(self.ys)):
                continue
            step = self._step(column, row, dx, dy)
            if step >= _BLOCKED:
                continue
            cost = gone + step
            if (dx, dy) != (hx, hy):
                cost += self.turn_cost[row][column]
            cost += self._arriving(new_column, new_row, dx, dy)
            new = (new_column, new_row, (dx, dy))
            if cost < best.get(new, cost + 1):
                best[new] = cost
                came[new] = node
                heappush(heap, (cost + self._ahead(new_column, new_row), -cost, new))

    def _step(self, column: int, row: int, dx: int, dy: int) -> int:
        if dx:
            left = column if dx > 0 else column - 1
            return self.xs[left + 1] - self.xs[left] + self.level_cost[row][left]
        top = row if dy > 0 else row - 1
        return self.ys[top + 1] - self.ys[top] + self.upright_cost[top][column]

    def _arriving(self, column: int, row: int, dx: int, dy: int) -> int:
        """The goal is entered against the direction of its terminal; across costs a bend more."""
        if (self.xs[column], self.ys[row]) != self.way.goal:
            return 0
        fx, fy = VECTORS[self.way.faces]
        if (dx, dy) == (-fx, -fy):
            return 0
        return _BLOCKED if (dx, dy) == (fx, fy) else _BEND

    def _ahead(self, column: int, row: int) -> int:
        """At least so much is still to go."""
        x, y = abs(self.xs[column] - self.way.goal[0]), abs(self.ys[row] - self.way.goal[1])
        return x + y + (_BEND if x and y else 0)

    def _traced(self, node: _Node, came: dict[_Node, _Node]) -> Polyline:
        points = [(self.xs[node[0]], self.ys[node[1]])]
        while node in came:
            node = came[node]
            points.append((self.xs[node[0]], self.ys[node[1]]))
        return simplified(reversed(points))


_Node = tuple[int, int, tuple[int, int]]
