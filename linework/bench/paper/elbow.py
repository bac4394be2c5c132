"""A plain orthogonal way between two ends, for ghosts: cheap, and avoiding nothing."""

from __future__ import annotations

from linework.picture.geometry import MODULE, Point
from linework.sheet.parts import End
from linework.sheet.routing import VECTORS, simplified


def elbow(a: End, b: End) -> tuple[Point, ...]:
    """From end to end with at most two bends between the two leads."""
    start, goal = _ahead(a), _ahead(b)
    if VECTORS[a[2]][0]:
        middle = (start[0] + goal[0]) // 2
        corners = ((middle, start[1]), (middle, goal[1]))
    else:
        middle = (start[1] + goal[1]) // 2
        corners = ((start[0], middle), (goal[0], middle))
    return simplified((a[:2], start, *corners, goal, b[:2]))


def elbow_to(a: End, at: Point) -> tuple[Point, ...]:
    """From an end to a free point."""
    start = _ahead(a)
    corner = (at[0], start[1]) if VECTORS[a[2]][0] else (start[0], at[1])
    return simplified((a[:2], start, corner, at))


def _ahead(end: End) -> Point:
    dx, dy = VECTORS[end[2]]
    return end[0] + dx * MODULE, end[1] + dy * MODULE
