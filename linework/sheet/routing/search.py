"""A* over the lines through obstacle edges: few bends, few crossings, nothing cut."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from heapq import heappop, heappush

from linework.picture.geometry import MODULE, Box
from linework.sheet.routing.lanes import (
    BEND,
    BLOCKED,
    CROSS,
    KIN_SIDE,
    SHARE,
    TEE,
    TOUCH,
    Ground,
    Polyline,
    Track,
    Way,
    simplified,
)

_NODES = 5_000
"""So many nodes are looked at before the search gives up."""
_RIGHT, _DOWN, _LEFT, _UP = range(4)
_HEADINGS = {"right": _RIGHT, "down": _DOWN, "left": _LEFT, "up": _UP}


class Search:
    """One search in one window.

    A node is a point of the raster and the heading in which it was reached, as one number:
    4 (row columns + column) + heading.
    """

    def __init__(self, way: Way, ground: Ground, window: Box) -> None:
        self.way = way
        self.xs = _lines(way, ground, window, 0)
        self.ys = _lines(way, ground, window, 1)
        self.columns, self.rows = len(self.xs), len(self.ys)
        self._price(ground)
        self.goal = self._point(way.goal)
        self.arrives = (_HEADINGS[way.faces] + 2) % 4

    def run(self) -> tuple[Polyline, int]:
        """The way and its cost; an empty one where the search gave up."""
        first = 4 * self._point(self.way.start) + _HEADINGS[self.way.leaves]
        best, came = {first: 0}, {first: first}
        heap = [(self._ahead(first), 0, first)]
        for _ in range(_NODES):
            if not heap:
                break
            _, negative, node = heappop(heap)
            gone = -negative
            if gone > best[node]:
                continue
            if node >> 2 == self.goal:
                return self._traced(node, came), gone
            for new, step in self._steps(node):
                cost = gone + step
                if cost < best.get(new, BLOCKED):
                    best[new], came[new] = cost, node
                    heappush(heap, (cost + self._ahead(new), -cost, new))
        return (), 0

    def _steps(self, node: int) -> list[tuple[int, int]]:
        """The nodes next to one, straight on and to both sides, with what it costs to go there."""
        point, heading = node >> 2, node & 3
        found = []
        for to in (heading, (heading + 1) & 3, (heading + 3) & 3):
            if to == _RIGHT:
                new, step = point + 1, self.to_right[point]
            elif to == _LEFT:
                new, step = point - 1, self.to_right[point - 1]
            elif to == _DOWN:
                new, step = point + self.columns, self.to_below[point]
            else:
                new, step = point - self.columns, self.to_below[point - self.columns]
            if to != heading:
                step += self.turning[point]
            if new == self.goal and to != self.arrives:
                step += BEND if (to + self.arrives) & 1 else BLOCKED
            if step < BLOCKED:
                found.append((4 * new + to, step))
        return found

    def _ahead(self, node: int) -> int:
        """At least so much is still to go: the distance, and the bends that it takes."""
        point, heading = node >> 2, node & 3
        row, column = divmod(point, self.columns)
        goal_row, goal_column = divmod(self.goal, self.columns)
        x, y = self.xs[goal_column] - self.xs[column], self.ys[goal_row] - self.ys[row]
        return abs(x) + abs(y) + BEND * _least_bends(x, y, heading, self.arrives)

    def _traced(self, node: int, came: dict[int, int]) -> Polyline:
        points = [self._at(node)]
        while came[node] != node:
            node = came[node]
            points.append(self._at(node))
        return simplified(reversed(points))

    def _at(self, node: int) -> tuple[int, int]:
        row, column = divmod(node >> 2, self.columns)
        return self.xs[column], self.ys[row]

    def _point(self, at: tuple[int, int]) -> int:
        return bisect_left(self.ys, at[1]) * self.columns + bisect_left(self.xs, at[0])

    # prices

    def _price(self, ground: Ground) -> None:
        """What it costs to go from each point to the right, to the one below, and to turn there."""
        columns, rows = self.columns, self.rows
        lengths = [b - a for a, b in zip(self.xs, self.xs[1:], strict=False)]
        self.to_right = [*lengths, BLOCKED] * rows
        self.to_below = [
            (self.ys[row + 1] - self.ys[row]) if row + 1 < rows else BLOCKED
            for row in range(rows)
            for _ in range(columns)
        ]
        self.turning = [BEND] * (columns * rows)
        for box in ground.boxes:
            self._block(box)
        for track in ground.tracks:
            self._charge(track)

    def _block(self, box: Box) -> None:
        """No way through the inside of a box; along its edge is free."""
        xs, ys = self.xs, self.ys
        inner_rows = range(bisect_right(ys, box.top), bisect_left(ys, box.bottom))
        inner_columns = range(bisect_right(xs, box.left), bisect_left(xs, box.right))
        for column in range(max(bisect_right(xs, box.left) - 1, 0), bisect_left(xs, box.right)):
            for row in inner_rows:
                self.to_right[row * self.columns + column] = BLOCKED
        for row in range(max(bisect_right(ys, box.top) - 1, 0), bisect_left(ys, box.bottom)):
            for column in inner_columns:
                self.to_below[row * self.columns + column] = BLOCKED

    def _charge(self, track: Track) -> None:
        """The price of sharing, crossing and touching one track."""
        if track.level:
            lines, others, along, across = self.ys, self.xs, 1, self.columns
            sharing, crossing = self.to_right, self.to_below
        else:
            lines, others, along, across = self.xs, self.ys, self.columns, 1
            sharing, crossing = self.to_below, self.to_right
        at = bisect_left(lines, track.line)
        if at == len(lines):
            return
        last = bisect_right(others, track.high)
        for other in range(bisect_left(others, track.low), last):
            point = at * across + other * along
            if at > 0:
                is_end = others[other] in (track.low, track.high)
                full = TOUCH if is_end else CROSS
                crossing[point - across] += KIN_SIDE if track.kin else full
            if track.kin:
                # To come from one side is a branch, from one to the other a crossing.
                crossing[point] += KIN_SIDE
            if lines[at] == track.line:
                length = others[other + 1] - others[other] if other + 1 < last else 0
                if not track.kin:
                    self.turning[point] = TOUCH
                elif self.turning[point] == BEND:
                    self.turning[point] = TEE
                if length:
                    sharing[point] += track.shared(length) if track.kin else SHARE + 3 * length


def _lines(way: Way, ground: Ground, window: Box, axis: int) -> list[int]:
    """The lines on which the way may run: ends, edges of boxes, beside tracks."""
    a, b = way.start[axis], way.goal[axis]
    found = {a, b, (a + b) // 2 // MODULE * MODULE}
    for box in ground.boxes:
        low, high = (box.left, box.right) if axis == 0 else (box.top, box.bottom)
        found.update((low, low - MODULE, low - 2 * MODULE))
        found.update((high, high + MODULE, high + 2 * MODULE))
    for track in ground.tracks:
        if track.level == (axis == 1):
            found.update((track.line - MODULE, track.line + MODULE))
    low, high = (window.left, window.right) if axis == 0 else (window.top, window.bottom)
    return sorted(line for line in found if low <= line <= high)


def _least_bends(x: int, y: int, heading: int, arrives: int) -> int:
    """The fewest bends to a goal at (x, y) that is entered in the heading ``arrives``."""
    for _ in range(arrives):
        # Turned so that the goal is entered to the right.
        x, y = y, -x
    heading = (heading - arrives) & 3
    if heading == 0:
        if y == 0 and x >= 0:
            return 0
        return 2 if x >= 0 else 4
    if heading == 2:
        return 2 if y else 4
    ahead = y if heading == 1 else -y
    return 1 if x > 0 and ahead >= 0 else (1 if x == 0 and ahead >= 0 else 3)
