"""How large things are: text by the bundled fonts' own tables, shapes by their geometry."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from linework.picture.fonts import Face, metrics, stretches
from linework.picture.geometry import Box, box_around, joined_boxes
from linework.picture.model import (
    Arc,
    Bezier,
    Circle,
    Item,
    Leaf,
    Line,
    Link,
    Polyline,
    Rect,
    Target,
    Text,
    flatten,
)


def em_size(height: int, which: Face) -> float:
    """The font size in tenths of a millimetre that gives capitals of this height."""
    measures = metrics(which)
    return height * measures.units_per_em / measures.cap_height


@lru_cache(maxsize=16384)
def advance(text: str, height: int, bold: bool = False) -> float:
    """The exact length of the writing, in tenths of a millimetre."""
    return sum(stretch_width(signs, height, which) for which, signs in stretches(text, bold))


def stretch_width(signs: str, height: int, which: Face) -> float:
    """The exact length of signs of one face, in tenths of a millimetre."""
    measures = metrics(which)
    return sum(map(measures.advance, signs)) * height / measures.cap_height


def text_width(text: str, height: int, bold: bool = False) -> int:
    """The length of the writing, rounded up to whole tenths of a millimetre."""
    return math.ceil(advance(text, height, bold))


def base_point(item: Text) -> tuple[float, float]:
    """Where the base line of the writing begins."""
    along = advance(item.text, item.height, item.bold)
    back = {"start": 0.0, "middle": along / 2, "end": along}[item.across]
    down = {"base": 0.0, "middle": item.height / 2, "top": float(item.height)}[item.level]
    if item.upward:
        return item.x + down, item.y + back
    return item.x - back, item.y + down


def text_box(item: Text) -> Box:
    """The box around the writing: its full length, and the height of its own letters.

    At least from the base line to the top of the capitals.
    """
    below, above = _reach(item.text, item.height, item.bold)
    along = advance(item.text, item.height, item.bold)
    x, y = base_point(item)
    above = max(above, float(item.height))
    if item.upward:
        return _outward(x - above, y - along, x + below, y)
    return _outward(x, y - above, x + along, y + below)


@lru_cache(maxsize=16384)
def _reach(text: str, height: int, bold: bool) -> tuple[float, float]:
    """How far the letters reach below and above the base line."""
    below = above = 0.0
    for which, signs in stretches(text, bold):
        measures = metrics(which)
        scale = height / measures.cap_height
        for low, high in map(measures.extent, signs):
            below, above = max(below, -low * scale), max(above, high * scale)
    return below, above


def _outward(left: float, top: float, right: float, bottom: float) -> Box:
    return Box(math.floor(left), math.floor(top), math.ceil(right), math.ceil(bottom))


def box_of(item: Leaf) -> Box:
    """The box around one item's geometry, without the width of its line.

    That of a Bezier curve is the box around its control points; it may be larger than the curve.
    """
    match item:
        case Line():
            return box_around([(item.x1, item.y1), (item.x2, item.y2)])
        case Polyline() | Bezier():
            return box_around(item.points)
        case Rect() | Link():
            return Box(item.x, item.y, item.x + item.width, item.y + item.height)
        case Circle():
            return Box(item.x, item.y, item.x, item.y).grown(item.r)
        case Arc():
            return _arc_box(item)
        case Text():
            return text_box(item)
        case Target():
            return Box(item.x, item.y, item.x, item.y)


def arc_points(item: Arc, angles: Iterable[float]) -> list[tuple[float, float]]:
    """Points of the ellipse at angles in degrees."""
    return [
        (
            item.x + item.rx * math.cos(math.radians(angle)),
            item.y + item.ry * math.sin(math.radians(angle)),
        )
        for angle in angles
    ]


def _arc_box(item: Arc) -> Box:
    low, high = sorted((item.start, item.start + item.sweep))
    corners = [angle for angle in range(-720, 1081, 90) if low <= angle <= high]
    xs, ys = zip(*arc_points(item, [low, high, *corners]), strict=True)
    nudge = 1e-6  # cos(90 degrees) is not quite zero: not a whole tenth more for that
    return _outward(min(xs) + nudge, min(ys) + nudge, max(xs) - nudge, max(ys) - nudge)


def line_margin(item: Leaf) -> int:
    """By how much the item's line reaches beyond its geometry, in tenths of a millimetre."""
    if isinstance(item, Text | Target | Link) or item.pen is None:
        return 0
    return math.ceil(item.pen.width / 20)


@dataclass(frozen=True, slots=True)
class Boxed:
    """One item of a drawing at its final place, with the box that its ink fills."""

    item: Leaf
    tag: str
    box: Box


def boxes(items: Iterable[Item]) -> tuple[Boxed, ...]:
    """Every item that leaves ink, with its box, line width included."""
    return tuple(
        Boxed(flat.item, flat.tag, box_of(flat.item).grown(line_margin(flat.item)))
        for flat in flatten(items)
        if not isinstance(flat.item, Target | Link)
    )


def bounds(items: Iterable[Item]) -> Box | None:
    """The box around all ink; None if there is none."""
    return joined_boxes(boxed.box for boxed in boxes(items))
