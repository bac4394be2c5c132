"""Where on the paper there is room for a new part."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Design, Part
from linework.picture.geometry import MODULE, Box, Point
from linework.sheet.compose import Composition
from linework.sheet.parts import draw_part

_CLEAR = 2 * MODULE
_RINGS = 40


def free_spot(design: Design, layout: Composition, kind: str, near: Point) -> Point:
    """The grid point nearest to ``near`` at which a part of a kind lies on nothing.

    Inside the frame and off the title block; ``near`` itself where the sheet is full.
    """
    box = draw_part(design, Part("new part", kind, "")).box.grown(_CLEAR)
    taken = [box for boxes in layout.items.values() for box in boxes] + [layout.frame.block]
    for x, y in _rings(near):
        there = box.moved(x, y)
        if layout.frame.area.contains(there) and not any(there.overlaps(o) for o in taken):
            return x, y
    return near


def _rings(middle: Point) -> Iterator[Point]:
    """Grid points around a middle, square ring by square ring."""
    x, y = middle
    yield x, y
    for ring in range(1, _RINGS):
        off = Box(-ring, -ring, ring, ring)
        steps = [
            (dx, dy)
            for dx in range(off.left, off.right + 1)
            for dy in range(off.top, off.bottom + 1)
            if max(abs(dx), abs(dy)) == ring
        ]
        steps.sort(key=lambda step: (abs(step[0]) + abs(step[1]), step))
        for dx, dy in steps:
            yield x + dx * _CLEAR, y + dy * _CLEAR
