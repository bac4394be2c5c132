"""Shifts a straight piece of a run sideways; the run then keeps its bends."""

from __future__ import annotations

from linework.bench.paper.surface import Surface, snapped
from linework.bench.paper.tools.tool import Spot, Tool
from linework.design.edits import reroute
from linework.picture.geometry import Point, box_around
from linework.sheet.routing import Polyline

_CLEAR = 75
"""So far from a terminal a bend lies at least, where the piece is long enough."""


class BendTool(Tool):
    """One piece of a run on its way."""

    def __init__(self, surface: Surface, start: Spot, run_id: str) -> None:
        self._surface = surface
        self._run = run_id
        self._way = surface.layout.ways[run_id]
        self._piece = _piece_at(self._way, start.at)
        self._begun = False

    def move(self, spot: Spot) -> None:
        """The piece follows on the grid."""
        self._begun = True
        self._surface.show_lines([self._bent(spot)])

    def _bent(self, spot: Spot) -> Polyline:
        return shifted(self._way, self._piece, spot.at)

    def release(self, spot: Spot) -> None:
        """One edit: the bends as they were left."""
        self._surface.clear()
        bent = self._bent(spot)
        if self._begun and bent != self._way and len(bent) > 2:
            self._surface.make(lambda: reroute(self._surface.design, self._run, bent[1:-1]))

    def cancel(self) -> None:
        """The run lies as it lay."""
        self._surface.clear()


def _piece_at(way: Polyline, at: Point) -> int:
    """The number of the straight piece nearest to a point."""
    x, y = at

    def off(number: int) -> int:
        box = box_around(way[number : number + 2])
        return max(box.left - x, 0, x - box.right) + max(box.top - y, 0, y - box.bottom)

    return min(range(len(way) - 1), key=off)


def shifted(way: Polyline, piece: int, at: Point) -> Polyline:
    """The way with one straight piece moved sideways to the grid line at a point.

    A piece that ends at a terminal keeps its end there, and gets a bend a little way off.
    """
    a, b = way[piece], way[piece + 1]
    level = a[1] == b[1]
    line = snapped(at[1]) if level else snapped(at[0])
    if line == (a[1] if level else a[0]):
        return way

    def over(point: Point) -> Point:
        return (point[0], line) if level else (line, point[1])

    off_a, off_b = _off_terminal(a, b), _off_terminal(b, a)
    head = (*way[:piece], over(a)) if piece else (a, off_a, over(off_a))
    last = piece == len(way) - 2
    tail = (over(off_b), off_b, b) if last else (over(b), *way[piece + 2 :])
    return (*head, *tail)


def _off_terminal(end: Point, towards: Point) -> Point:
    """A point a third of the way along, at most so far that a bend clears the terminal."""
    x, y = end
    dx, dy = towards[0] - x, towards[1] - y
    length = abs(dx) + abs(dy)
    step = min(_CLEAR, length // 3)
    return (x + step * dx // length, y + step * dy // length) if length else end
