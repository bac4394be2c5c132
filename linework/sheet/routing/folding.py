"""Jumpers to a frame, hull or chassis: a stub at the part instead of a line across the sheet.

All of a body is one potential: the sign of the frame at the part says as much as a line to the
body's symbol, which lists the tags of all that is joined to it.
"""

from __future__ import annotations

from linework.design import Design, End, Run
from linework.picture.geometry import Point
from linework.picture.inks import MEDIUM, THIN, Pen
from linework.picture.model import Item, Line
from linework.sheet.parts import End as Drawn
from linework.sheet.routing.lanes import VECTORS, Polyline
from linework.wiring import Pole

STUB = 35
"""The length of a stub, in tenths of a millimetre."""
_HALF, _LEAN, _DROP = 22, 9, 13
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


def stub(end: Drawn) -> Polyline:
    """From a terminal straight ahead to the sign of the frame."""
    x, y, direction = end
    dx, dy = VECTORS[direction]
    return (x, y), (x + dx * STUB, y + dy * STUB)


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
