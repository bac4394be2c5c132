"""From the shapes of a picture to entities: millimetres, y up, line widths and dashes kept."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import Any

from ezdxf import colors
from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts.base import BaseLayout

from linework.handover.cad.layers import Layer, style_of
from linework.picture.fonts import printed
from linework.picture.geometry import Point
from linework.picture.inks import Dash, Ink, Pen
from linework.picture.measure import arc_points
from linework.picture.model import (
    Arc,
    Bezier,
    Circle,
    Leaf,
    Line,
    Link,
    Polyline,
    Rect,
    Shape,
    Target,
    Text,
)
from linework.picture.palettes import PRINT, contrast, rgb

_ALIGNMENTS = {
    "start": TextEntityAlignment.LEFT,
    "middle": TextEntityAlignment.CENTER,
    "end": TextEntityAlignment.RIGHT,
}
_GROUNDS = (Ink.PAPER, Ink.TINT)
"""Fields of these only cover what lies below, or shade: on a dark screen they would hide ink."""
_QUARTER = math.tan(math.pi / 8)
"""The bulge of a quarter circle."""
_STEPS = 48
_SEEN = 3.0
"""Least contrast of what is to be told apart (WCAG 2.1, 1.4.11)."""


@dataclass
class Pencil:
    """Draws into one layout: the model, or a block.

    ``height``: of the picture in its tenths of a millimetre, where y is nought on paper; ``scale``:
    millimetres of the paper to one of these. ``left``, ``below``: millimetres by which all is moved
    from the corner of the paper.
    """

    layout: BaseLayout
    height: int
    scale: float
    left: float = 0.0
    below: float = 0.0

    def point(self, x: float, y: float) -> tuple[float, float]:
        """Where a point of the picture comes to lie."""
        across, up = x * self.scale + self.left, (self.height - y) * self.scale + self.below
        return round(across, 4), round(up, 4)

    def leaf(self, item: Leaf, layer: Layer) -> None:
        """Draw one item; targets and links leave nothing."""
        if isinstance(item, Text):
            self._text(item, layer)
        elif not isinstance(item, Target | Link):
            fill = None if isinstance(item, Line) else item.fill
            if fill is not None and fill not in _GROUNDS:
                self._field(item, fill, layer)
            if item.pen is not None:
                self._stroke(item, looks(item.pen, layer, self.scale))

    def chain(self, points: list[tuple[Point, float]], pen: Pen, layer: Layer) -> Any:
        """One polyline through points, each with the bulge of what follows it."""
        bulged = [(*self.point(*point), bulge) for point, bulge in points]
        return self.layout.add_lwpolyline(
            bulged, format="xyb", dxfattribs=looks(pen, layer, self.scale)
        )

    def _stroke(self, item: Shape, look: dict[str, Any]) -> None:
        match item:
            case Line():
                ends = self.point(item.x1, item.y1), self.point(item.x2, item.y2)
                self.layout.add_line(*ends, dxfattribs=look)
            case Polyline():
                points = [self.point(*point) for point in item.points]
                self.layout.add_lwpolyline(points, close=item.closed, dxfattribs=look)
            case Rect():
                self._rectangle(item, look)
            case Circle():
                middle = self.point(item.x, item.y)
                self.layout.add_circle(middle, item.r * self.scale, dxfattribs=look)
            case Arc():
                self._arc(item, look)
            case Bezier():
                points = [self.point(*point) for point in item.points]
                for at in range(0, len(points) - 1, 3):
                    self.layout.add_open_spline(points[at : at + 4], degree=3, dxfattribs=look)

    def _rectangle(self, item: Rect, look: dict[str, Any]) -> None:
        """Against the clock on paper, so that round corners bulge outwards."""
        x1, y1, x2, y2, r = item.x, item.y, item.x + item.width, item.y + item.height, item.radius
        corners = [(x1, y1), (x1, y2), (x2, y2), (x2, y1)]
        if not r:
            points = [self.point(*corner) for corner in corners]
            self.layout.add_lwpolyline(points, close=True, dxfattribs=look)
            return
        # Before each corner and behind it; what lies between them is a quarter circle.
        around = [
            *((x1 + r, y1, _QUARTER), (x1, y1 + r, 0.0), (x1, y2 - r, _QUARTER), (x1 + r, y2, 0.0)),
            *((x2 - r, y2, _QUARTER), (x2, y2 - r, 0.0), (x2, y1 + r, _QUARTER), (x2 - r, y1, 0.0)),
        ]
        bulged = [(*self.point(x, y), bulge) for x, y, bulge in around]
        self.layout.add_lwpolyline(bulged, format="xyb", close=True, dxfattribs=look)

    def _arc(self, item: Arc, look: dict[str, Any]) -> None:
        """With y up angles turn the other way; entities run against the clock."""
        middle = self.point(item.x, item.y)
        start, end = sorted((-item.start, -item.start - item.sweep))
        if item.rx == item.ry:
            radius = item.rx * self.scale
            if abs(item.sweep) == 360:
                self.layout.add_circle(middle, radius, dxfattribs=look)
            else:
                self.layout.add_arc(middle, radius, start, end, dxfattribs=look)
            return
        level = item.rx > item.ry
        major = (item.rx * self.scale, 0) if level else (0, item.ry * self.scale)
        ratio = min(item.rx, item.ry) / max(item.rx, item.ry)
        turned = 0 if level else 90
        first, last = (math.radians(angle - turned) for angle in (start, end))
        self.layout.add_ellipse(middle, major, ratio, first, last, dxfattribs=look)

    def _field(self, item: Shape, fill: Ink, layer: Layer) -> None:
        hatch = self.layout.add_hatch(colors.BYLAYER, dxfattribs={"layer": layer, **_color(fill)})
        points = [self.point(x, y) for x, y in _outline(item)]
        hatch.paths.add_polyline_path(points, is_closed=True)

    def _text(self, item: Text, layer: Layer) -> None:
        text = self.layout.add_text(
            _spelled(item.text),
            height=item.height * self.scale,
            dxfattribs={"layer": layer, "style": style_of(item.bold), **_color(item.ink)},
        )
        down = {"base": 0.0, "middle": item.height / 2, "top": float(item.height)}[item.level]
        at = (item.x + down, item.y) if item.upward else (item.x, item.y + down)
        text.dxf.rotation = 90 if item.upward else 0
        text.set_placement(self.point(*at), align=_ALIGNMENTS[item.across])


def looks(pen: Pen, layer: Layer, scale: float) -> dict[str, Any]:
    """The properties of what a pen draws. ``scale`` makes dashes shorter, lines stay as wide."""
    look: dict[str, Any] = {"layer": layer, "lineweight": pen.width, **_color(pen.ink)}
    if pen.dash is not Dash.SOLID:
        look |= {"linetype": pen.dash.name, "ltscale": pen.width / 100 * scale * 10}
    return look


def _color(ink: Ink) -> dict[str, Any]:
    """Drawing ink is that of the layer; all else has a colour that means something."""
    return {} if ink is Ink.INK else {"true_color": colors.rgb2int(colored(ink))}


@cache
def colored(ink: Ink) -> tuple[int, int, int]:
    """Of an ink on paper, made so light that it is seen on a black ground too; 0 to 255 each."""
    color = PRINT.color(ink)
    while contrast(color, "#000000") < _SEEN:
        color = "#" + "".join(f"{round(255 * (part + (1 - part) / 8)):02x}" for part in rgb(color))
    red, green, blue = (round(255 * part) for part in rgb(color))
    return red, green, blue


def _outline(item: Shape) -> list[tuple[float, float]]:
    """A shape as a polygon."""
    match item:
        case Line():
            return [(item.x1, item.y1), (item.x2, item.y2)]
        case Polyline() | Bezier():
            return [(x, y) for x, y in item.points]
        case Rect():
            x2, y2 = item.x + item.width, item.y + item.height
            return [(item.x, item.y), (x2, item.y), (x2, y2), (item.x, y2)]
        case Circle():
            return _outline(Arc(item.x, item.y, item.r, item.r, 0, 360))
        case Arc():
            steps = [item.start + item.sweep * at / _STEPS for at in range(_STEPS + 1)]
            return arc_points(item, steps)


def _spelled(words: str) -> str:
    """Signs that mean something to a drawing program, as themselves."""
    text = printed(words).encode("utf-8", "replace").decode()
    return text.replace("^", "^ ").replace("%%", "%%%%%%")
