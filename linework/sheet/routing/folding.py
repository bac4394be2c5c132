"""Jumpers to a frame, hull or chassis: a stub at the part instead of a line across the sheet.

All of a body is one potential: the sign of the frame at the part says as much as a line to the
body's symbol, which lists the tags of all that is joined to it.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Design, End, Run
from linework.picture.geometry import MODULE, Box, Point, box_around
from linework.picture.inks import MEDIUM, THIN, Pen
from linework.picture.model import Item, Line
from linework.sheet.parts import End as Drawn
from linework.sheet.routing.lanes import VECTORS, Polyline
from linework.wiring import Pole

STUB, CUT_STUB = 35, 60
"""The length of a stub, in tenths of a millimetre; of one that bears the sign of a cut."""
_TURNS = 6
"""So many grid steps ahead of a part a stub may turn aside."""
_HALF, _LEAN, _DROP = 22, 9, 13
_OFF = 5
_PEN = Pen(width=MEDIUM)
_HUNG = Pen(width=THIN)


def body_end(design: Design, run: Run) -> End | None:
    """The end of a run at a body, where its other end is at none and the user has bent nothing."""
    if run.route:
        return None
    ends = [end for end in (run.a, run.b) if is_body(design, end.part)]
    return ends[0] if len(ends) == 1 else None


def is_body(design: Design, part_id: str) -> bool:
    """Whether a part is a frame, hull or chassis: all its terminals are at the body."""
    part = design.part(part_id)
    terminals = design.kind(part).terminals(design.values(part))
    return bool(terminals) and all(t.poles == (Pole.BODY,) for t in terminals)


def stub(end: Drawn, long: int = STUB) -> Polyline:
    """From a terminal straight ahead to the sign of the frame."""
    x, y, direction = end
    dx, dy = VECTORS[direction]
    return (x, y), (x + dx * long, y + dy * long)


def stubs_aside(end: Drawn, out: Point, long: int = STUB) -> Iterator[Polyline]:
    """Stubs that turn off to either side behind ``out``, so that what else is joined to the
    terminal goes straight on; the nearest first."""
    x, y, direction = end
    dx, dy = VECTORS[direction]
    for ahead in range(1, _TURNS + 1):
        corner = out[0] + dx * ahead * MODULE, out[1] + dy * ahead * MODULE
        for side in (-1, 1):
            far = corner[0] + side * abs(dy) * long, corner[1] + side * abs(dx) * long
            yield (x, y), corner, far


def stub_box(way: Polyline) -> Box:
    """Around the last piece of a stub but its corner, with all that stands on it."""
    (ax, ay), (x, y) = way[-2], way[-1]
    dx, dy = (x > ax) - (x < ax), (y > ay) - (y < ay)
    near = ax + dx * _OFF - dy * _HALF, ay + dy * _OFF - dx * _HALF
    far = x + dx * _DROP + dy * _HALF, y + dy * _DROP + dx * _HALF
    return box_around((near, far))


def sign_box(way: Polyline) -> Box:
    """Around the sign of the frame at the end of a stub."""
    (ax, ay), (x, y) = way[-2], way[-1]
    dx, dy = (x > ax) - (x < ax), (y > ay) - (y < ay)
    near = x - dy * _HALF, y - dx * _HALF
    far = x + dx * _DROP + dy * _HALF, y + dy * _DROP + dx * _HALF
    return box_around((near, far))


def frame_sign(way: Polyline) -> tuple[Item, ...]:
    """The sign of the frame across the end of a stub, its strokes leaning away from the part."""
    (ax, ay), (x, y) = way[-2], way[-1]
    dx, dy = (x > ax) - (x < ax), (y > ay) - (y < ay)

    def at(along: int, out: int) -> Point:
        return x + along * abs(dy) + out * dx, y + along * abs(dx) + out * dy

    bar = Line(*at(-_HALF, 0), *at(_HALF, 0), _PEN)
    hung = (
        Line(*at(along, 0), *at(along - _LEAN, _DROP), _HUNG) for along in (-_HALF + 6, 0, _HALF)
    )
    return (bar, *hung)
