"""Lines that show when a terminal of what is moved comes level with one that lies still."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from linework.picture.geometry import Point
from linework.sheet.parts import PartDrawing

_MOST = 4

Segment = tuple[Point, Point]


def guides(
    drawings: Mapping[str, PartDrawing], moved: Iterable[Point], but: frozenset[str]
) -> tuple[Segment, ...]:
    """From each moved terminal to the nearest still one on its level or plumb line.

    ``but``: ids of the parts that are moved. At most four lines, the shortest.
    """
    still = [(x, y) for d in drawings.values() if d.id not in but for x, y, _ in d.anchors.values()]
    found: set[Segment] = set()
    for x, y in moved:
        level = [(abs(ox - x), ((x, y), (ox, oy))) for ox, oy in still if oy == y and ox != x]
        plumb = [(abs(oy - y), ((x, y), (ox, oy))) for ox, oy in still if ox == x and oy != y]
        found.update(min(group)[1] for group in (level, plumb) if group)
    return tuple(sorted(found, key=_length)[:_MOST])


def _length(segment: Segment) -> tuple[int, Segment]:
    (ax, ay), (bx, by) = segment
    return abs(ax - bx) + abs(ay - by), segment
