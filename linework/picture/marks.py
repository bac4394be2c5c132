"""Signs that sit on lines and inside symbols, drawn as strokes and never as characters.

Each is drawn about the origin; marks on a conductor are drawn for one that runs from left to
right. Geometry after IEC 60617 (S00446 neutral, S00447 protective, S00448 combined, S00200 earth,
S00203 frame, S00002 number of conductors; from memory).
"""

from __future__ import annotations

import math

from linework.picture.inks import MEDIUM, PEN, THIN, Dash, Ink, Pen
from linework.picture.model import Arc, Bezier, Circle, Group, Item, Line, Polyline

_THIN = Pen(width=THIN)


def alternating(x: int = 0, y: int = 0, width: int = 50, pen: Pen = _THIN) -> tuple[Item, ...]:
    """The sign of alternating current: one period of a sine about the middle."""
    half, rise = width // 2, width // 3
    pull = round(half * 0.36)  # of a half wave: the cubic that comes nearest to a sine
    points = (
        (x - half, y),
        (x - half + pull, y - rise),
        (x - pull, y - rise),
        (x, y),
        (x + pull, y + rise),
        (x + half - pull, y + rise),
        (x + half, y),
    )
    return (Bezier(points, pen),)


def direct(x: int = 0, y: int = 0, width: int = 42, pen: Pen = _THIN) -> tuple[Item, ...]:
    """The sign of direct current: a full line over one of three dashes."""
    left, gap = x - width // 2, width // 7
    dash = (width - 2 * gap) // 3
    starts = [left + part * (dash + gap) for part in range(3)]
    over = Line(left, y - 6, starts[2] + dash, y - 6, pen)
    return (over, *(Line(at, y + 6, at + dash, y + 6, pen) for at in starts))


def earth(x: int = 0, y: int = 0, width: int = 75, pen: Pen = PEN) -> tuple[Item, ...]:
    """Three bars below the point where the stem ends, in the proportion 3:2:1."""
    pitch = width // 4
    return tuple(
        Line(x - width * part // 6, y + row * pitch, x + width * part // 6, y + row * pitch, pen)
        for row, part in enumerate((3, 2, 1))
    )


def frame(x: int = 0, y: int = 0, width: int = 75, pen: Pen = PEN) -> tuple[Item, ...]:
    """A bar with three strokes that hang to the left: frame, chassis."""
    half, drop, lean = width // 2, width * 2 // 5, width // 4
    bar = Line(x - half, y, x + half, y, pen)
    hung = (Line(at, y, at - lean, y + drop, pen) for at in (x - half, x, x + half))
    return (bar, *hung)


def jump(x: int = 0, y: int = 0, radius: int = 12, pen: Pen = PEN) -> tuple[Item, ...]:
    """A bow over a line that is crossed without joining; the crossing line is left open below."""
    return (Arc(x, y, radius, radius, 180, 180, pen),)


def junction(x: int = 0, y: int = 0, ink: Ink = Ink.INK) -> tuple[Item, ...]:
    """A dot where lines join."""
    return (Circle(x, y, 9, pen=None, fill=ink),)


def arrow(x1: int, y1: int, x2: int, y2: int, size: int = 20, pen: Pen = _THIN) -> tuple[Item, ...]:
    """A line with a filled head at its second end. ValueError if it has no length."""
    length = math.hypot(x2 - x1, y2 - y1)
    if not length:
        raise ValueError("an arrow needs two different ends")
    dx, dy = (x2 - x1) / length, (y2 - y1) / length
    foot_x, foot_y, half = x2 - dx * size, y2 - dy * size, size * 0.4
    corners = (
        (x2, y2),
        (round(foot_x - dy * half), round(foot_y + dx * half)),
        (round(foot_x + dy * half), round(foot_y - dx * half)),
    )
    head = Polyline(corners, closed=True, pen=None, fill=pen.ink)
    return (Line(x1, y1, round(foot_x), round(foot_y), pen), head)


def interlock(x1: int, y1: int, x2: int, y2: int) -> tuple[Item, ...]:
    """A mechanical interlock: dashed between two devices, with a triangle in the middle.

    The two points lie level or plumb; ValueError if not.
    """
    if x1 != x2 and y1 != y2:
        raise ValueError("an interlock is drawn level or plumb")
    x, y = (x1 + x2) // 2, (y1 + y2) // 2
    link = Line(x1, y1, x2, y2, Pen(width=THIN, dash=Dash.DASHED))
    triangle = Polyline(((-14, -11), (14, -11), (0, 13)), True, _THIN, Ink.PAPER)
    return (link, Group((triangle,), x, y, turn=3 if x1 == x2 else 0))


def cell(x: int = 0, y: int = 0, height: int = 75, pen: Pen = PEN) -> tuple[Item, ...]:
    """One cell on a level line, positive to the right: a long thin and a short thick stroke."""
    half = height // 2
    plus = Line(x + 10, y - half, x + 10, y + half, pen)
    minus = Line(x - 10, y - half // 2, x - 10, y + half // 2, Pen(width=2 * MEDIUM))
    return (minus, plus)
