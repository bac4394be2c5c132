"""Writes a drawing as an SVG 1.1 document of true size, one user unit to a tenth of a millimetre.

Every text carries its length, so that a reader without the bundled font keeps the layout.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby
from xml.sax.saxutils import escape, quoteattr

from linework.picture.fonts import FAMILY, printed
from linework.picture.geometry import Box
from linework.picture.inks import Ink, Pen
from linework.picture.measure import advance, arc_points, base_point, bounds, em_size
from linework.picture.model import (
    Arc,
    Bezier,
    Circle,
    Flat,
    Item,
    Line,
    Link,
    Picture,
    Polyline,
    Rect,
    Shape,
    Target,
    Text,
    flatten,
)
from linework.picture.palettes import LIGHT, Palette


def svg(drawing: Picture | Iterable[Item], palette: Palette = LIGHT, paper: bool = True) -> str:
    """The drawing as text of an SVG file.

    A picture keeps its size; loose items get a page that fits them. ``paper``: paint the ground.
    """
    if isinstance(drawing, Picture):
        items, page = drawing.items, Box(0, 0, drawing.width, drawing.height)
    else:
        items = tuple(drawing)
        page = bounds(items) or Box(0, 0, 0, 0)
    frame = f"{page.left} {page.top} {page.width} {page.height}"
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{frame}"'
        f' width="{page.width / 10}mm" height="{page.height / 10}mm"'
        f' font-family="{FAMILY}" fill="none" style="font-kerning:none">'
    ]
    if paper:
        ground = Rect(page.left, page.top, page.width, page.height, pen=None, fill=Ink.PAPER)
        lines.append(_shape(ground, palette))
    lines.extend(_tagged(flatten(items), palette))
    return "\n".join([*lines, "</svg>", ""])


def _tagged(flats: Iterable[Flat], palette: Palette) -> Iterable[str]:
    """Neighbours that stand for the same element of the design share a group with its id."""
    for tag, run in groupby(flats, key=lambda flat: flat.tag):
        drawn = [text for flat in run if (text := _leaf(flat, palette))]
        if not drawn:
            continue
        yield f"<g data-element={quoteattr(tag)}>" if tag else "<g>"
        yield from drawn
        yield "</g>"


def _leaf(flat: Flat, palette: Palette) -> str:
    item = flat.item
    if isinstance(item, Target | Link):
        return ""
    return _text(item, palette) if isinstance(item, Text) else _shape(item, palette)


def _shape(item: Shape, palette: Palette) -> str:
    fill = None if isinstance(item, Line) else item.fill
    look = _pen(item.pen, palette) + (f' fill="{palette.color(fill)}"' if fill else "")
    match item:
        case Line():
            where = f'line x1="{item.x1}" y1="{item.y1}" x2="{item.x2}" y2="{item.y2}"'
        case Polyline():
            name = "polygon" if item.closed else "polyline"
            where = f'{name} points="{_points(item.points)}"'
        case Rect():
            where = f'rect x="{item.x}" y="{item.y}" width="{item.width}" height="{item.height}"'
            where += f' rx="{item.radius}"' if item.radius else ""
        case Circle():
            where = f'circle cx="{item.x}" cy="{item.y}" r="{item.r}"'
        case Arc():
            where = _arc(item)
        case Bezier():
            where = f'path d="M{_points(item.points[:1])} C{_points(item.points[1:])}"'
    return f"<{where}{look}/>"


def _points(points: Iterable[tuple[int, int]]) -> str:
    return " ".join(f"{x},{y}" for x, y in points)


def _arc(item: Arc) -> str:
    if abs(item.sweep) == 360:
        return f'ellipse cx="{item.x}" cy="{item.y}" rx="{item.rx}" ry="{item.ry}"'
    (ax, ay), (bx, by) = arc_points(item, (item.start, item.start + item.sweep))
    flags = f"{int(abs(item.sweep) > 180)} {int(item.sweep > 0)}"
    return f'path d="M{ax:.2f},{ay:.2f} A{item.rx} {item.ry} 0 {flags} {bx:.2f},{by:.2f}"'


def _pen(pen: Pen | None, palette: Palette) -> str:
    if pen is None:
        return ""
    look = f' stroke="{palette.color(pen.ink)}" stroke-width="{pen.width / 10}"'
    if pen.dash.pattern:
        dashes = " ".join(f"{part * pen.width / 10:g}" for part in pen.dash.pattern)
        return f'{look} stroke-dasharray="{dashes}"'
    return f'{look} stroke-linecap="round" stroke-linejoin="round"'


def _text(item: Text, palette: Palette) -> str:
    x, y = base_point(item)
    along = advance(item.text, item.height, item.bold, item.condensed)
    size = em_size(item.height, item.bold, item.condensed)
    look = ' font-weight="bold"' if item.bold else ""
    look += ' font-stretch="condensed"' if item.condensed else ""
    look += f' transform="rotate(-90 {x:.2f} {y:.2f})"' if item.upward else ""
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-size="{size:.2f}"{look} xml:space="preserve"'
        f' textLength="{along:.2f}" lengthAdjust="spacingAndGlyphs"'
        f' fill="{palette.color(item.ink)}">{escape(printed(item.text))}</text>'
    )
