"""Paints a drawing on a reportlab canvas: embedded fonts, named groups kept as forms, links.

Inside, the page is scaled to tenths of a paper millimetre, as in the drawing; but y points up, so
every y changes its sign here.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import Any

from linework.picture.fonts import FACES, FontError, font_path, stretches
from linework.picture.geometry import Placing
from linework.picture.inks import Ink, Pen
from linework.picture.measure import base_point, bounds, em_size
from linework.picture.model import (
    Arc,
    Bezier,
    Circle,
    Flat,
    Group,
    Inks,
    Item,
    Line,
    Link,
    Picture,
    Piece,
    Polyline,
    Rect,
    Shape,
    Target,
    Text,
    flatten,
    joined_inks,
    pieces,
)
from linework.picture.palettes import PRINT, Palette
from linework.words import say

POINTS_PER_TENTH = 72 / 254

_ROUND, _BUTT = 1, 0


@cache
def use_fonts() -> None:
    """Make the bundled faces known to reportlab under their own names.

    FontError if a font file is missing or damaged.
    """
    from reportlab.pdfbase.pdfmetrics import registerFont
    from reportlab.pdfbase.ttfonts import TTFError, TTFont

    for which in FACES:
        try:
            registerFont(TTFont(which.name, str(font_path(which))))
        except TTFError as error:
            raise FontError(
                say(
                    "Text cannot be printed, because the font {file} is damaged: {reason}",
                    file=font_path(which),
                    reason=error,
                )
            ) from error


class PdfPainter:
    """Paints drawings into one document and keeps its forms: one painter for each document.

    ``canvas``: a reportlab canvas, best made with ``invariant=1`` and the name of a bundled face
    as ``initialFontName``, so that no font is left out of the file.
    """

    def __init__(self, canvas: Any, palette: Palette = PRINT) -> None:
        use_fonts()
        self._canvas = canvas
        self._palette = palette
        self._forms: dict[Group, str] = {}

    def paint(
        self,
        drawing: Picture | Iterable[Item],
        left: float = 0.0,
        top: float | None = None,
        scale: float = 1.0,
    ) -> None:
        """Paint on the current page with the drawing's origin at ``left``, ``top`` (points).

        ``top`` is counted from the foot of the page and defaults to its upper edge. ``scale``: 1
        is true size. The paper itself is not painted.
        """
        items = drawing.items if isinstance(drawing, Picture) else tuple(drawing)
        canvas = self._canvas
        canvas.saveState()
        canvas.translate(left, canvas._pagesize[1] if top is None else top)
        canvas.scale(scale * POINTS_PER_TENTH, scale * POINTS_PER_TENTH)
        surface = _Surface(canvas, self._palette)
        for piece in pieces(items, keep_named=True):
            if isinstance(piece.item, Group):
                self._paint_form(piece.item, piece)
            else:
                surface.leaf(piece.flat())
        for flat in flatten(items):
            self._guide(flat)
        canvas.restoreState()

    def _paint_form(self, group: Group, piece: Piece) -> None:
        """The group's drawing is written once for each way of lying, then only called up."""
        place = group.placing.after(piece.at)
        inks = joined_inks(group.inks, piece.inks)
        name = self._form(group, place, inks)
        if name:
            self._canvas.saveState()
            self._canvas.translate(place.x, -place.y)
            self._canvas.doForm(name)
            self._canvas.restoreState()

    def _form(self, group: Group, place: Placing, inks: Inks) -> str:
        lying = Group(group.items, 0, 0, place.turn, place.mirror, group.name, inks=inks)
        if lying not in self._forms:
            self._forms[lying] = self._define_form(lying)
        return self._forms[lying]

    def _define_form(self, group: Group) -> str:
        box = bounds([group])
        if box is None:
            return ""
        name = f"form{len(self._forms) + 1}"
        # Without its bounding box a form shows nothing of what lies at negative coordinates.
        self._canvas.beginForm(name, box.left, -box.bottom, box.right, -box.top)
        surface = _Surface(self._canvas, self._palette)
        for flat in flatten([group]):
            surface.leaf(flat)
        self._canvas.endForm()
        return name

    def _guide(self, flat: Flat) -> None:
        item = flat.item
        if isinstance(item, Target):
            left, top = self._canvas.absolutePosition(item.x, -item.y)
            self._canvas.bookmarkPage(item.name, fit="XYZ", left=left, top=top)
        elif isinstance(item, Link):
            field = (item.x, -item.y - item.height, item.x + item.width, -item.y)
            self._canvas.linkRect("", item.target, field, relative=1, thickness=0)


class _Surface:
    """Writes leaves into the current stream; repeats pen and fill only when they change."""

    def __init__(self, canvas: Any, palette: Palette) -> None:
        self._canvas = canvas
        self._palette = palette
        self._pen: Pen | None = None
        self._fill: Ink | None = None

    def leaf(self, flat: Flat) -> None:
        """Draw one item; targets and links leave no ink."""
        item = flat.item
        if isinstance(item, Text):
            self._text(item)
        elif not isinstance(item, Target | Link):
            self._shape(item)

    def _shape(self, item: Shape) -> None:
        fill = None if isinstance(item, Line) else item.fill
        self._use(item.pen, fill)
        path = self._canvas.beginPath()
        _add_to_path(path, item)
        self._canvas.drawPath(path, stroke=int(item.pen is not None), fill=int(fill is not None))

    def _use(self, pen: Pen | None, fill: Ink | None) -> None:
        if pen is not None and pen != self._pen:
            self._canvas.setStrokeColorRGB(*self._palette.rgb(pen.ink))
            self._canvas.setLineWidth(pen.width / 10)
            self._canvas.setLineJoin(_ROUND)
            self._canvas.setLineCap(_BUTT if pen.dash.pattern else _ROUND)
            self._canvas.setDash([part * pen.width / 10 for part in pen.dash.pattern])
            self._pen = pen
        if fill is not None and fill != self._fill:
            self._canvas.setFillColorRGB(*self._palette.rgb(fill))
            self._fill = fill

    def _text(self, item: Text) -> None:
        self._use(None, item.ink)
        x, y = base_point(item)
        writing = self._canvas.beginText()
        if item.upward:
            writing.setTextTransform(0, 1, -1, 0, x, -y)
        else:
            writing.setTextOrigin(x, -y)
        for which, signs in stretches(item.text, item.bold):
            writing.setFont(which.name, em_size(item.height, which))
            writing.textOut(signs)
        self._canvas.drawText(writing)


def _add_to_path(path: Any, item: Shape) -> None:
    match item:
        case Line():
            path.moveTo(item.x1, -item.y1)
            path.lineTo(item.x2, -item.y2)
        case Polyline():
            path.moveTo(item.points[0][0], -item.points[0][1])
            for x, y in item.points[1:]:
                path.lineTo(x, -y)
            if item.closed:
                path.close()
        case Rect(radius=0):
            path.rect(item.x, -item.y - item.height, item.width, item.height)
        case Rect():
            path.roundRect(item.x, -item.y - item.height, item.width, item.height, item.radius)
        case Circle():
            path.circle(item.x, -item.y, item.r)
        case Arc():
            _add_arc(path, item)
        case Bezier():
            _add_curves(path, item)


def _add_arc(path: Any, item: Arc) -> None:
    """With y up, angles count against the clock."""
    around = (item.x - item.rx, -item.y - item.ry, item.x + item.rx, -item.y + item.ry)
    if abs(item.sweep) == 360:
        path.ellipse(around[0], around[1], 2 * item.rx, 2 * item.ry)
    else:
        path.arc(*around, -item.start, -item.sweep)


def _add_curves(path: Any, item: Bezier) -> None:
    path.moveTo(item.points[0][0], -item.points[0][1])
    for at in range(1, len(item.points), 3):
        (ax, ay), (bx, by), (cx, cy) = item.points[at : at + 3]
        path.curveTo(ax, -ay, bx, -by, cx, -cy)
