"""Paints a drawing with Qt: one cached path for strokes that belong together, text as glyph runs.

One unit of the painter's coordinates is a tenth of a paper millimetre. Text is laid out by our own
measures, so that it is as wide here as on paper, and is never replaced by another font.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import IntEnum
from functools import cache, cached_property, lru_cache

from PySide6.QtCore import QByteArray, QPointF, QRectF, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFont,
    QFontDatabase,
    QGlyphRun,
    QPainter,
    QPainterPath,
    QPen,
    QRawFont,
)

from linework.picture.fonts import FACES, FAMILY, Face, FontError, font_path, metrics, stretches
from linework.picture.geometry import Box
from linework.picture.inks import Dash, Ink, Pen
from linework.picture.measure import base_point, bounds, em_size, stretch_width
from linework.picture.model import (
    Arc,
    Bezier,
    Circle,
    Group,
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
from linework.picture.palettes import Palette
from linework.words import say

PIXELS_PER_TENTH = 96 / 254
"""Scale at which the sheet has its true size on a screen of 96 dots per inch (zoom 1)."""

_LEAST_PIXELS = 0.8
"""A thinner line would fade away when zoomed out."""


_LARGEST_RUN = 48
"""Font size in pixels up to which glyphs are drawn as a run, which is ten times as fast as paths.

Above some 64 pixels Qt 6.11 draws no run at all of a font that was loaded from bytes.
"""


class Detail(IntEnum):
    """How much is drawn: less when the sheet is seen from far off."""

    BOXES = 0
    STROKES = 1
    FULL = 2


def detail_at(zoom: float) -> Detail:
    """No text below half size, only boxes below a quarter (1 is true size)."""
    if zoom < 0.25:
        return Detail.BOXES
    return Detail.STROKES if zoom < 0.5 else Detail.FULL


@dataclass(frozen=True)
class Strokes:
    """One path that is drawn at one go."""

    path: QPainterPath
    pen: Pen | None
    fill: Ink | None


@dataclass(frozen=True)
class Writing:
    """One line of glyphs, from its base point."""

    run: QGlyphRun
    x: float
    y: float
    ink: Ink
    upward: bool

    @cached_property
    def outline(self) -> QPainterPath:
        """The glyphs as one path from the base point."""
        font, path = self.run.rawFont(), QPainterPath()
        path.setFillRule(Qt.FillRule.WindingFill)
        for glyph, at in zip(self.run.glyphIndexes(), self.run.positions(), strict=True):
            path.addPath(font.pathForGlyph(glyph).translated(at))
        return path


@dataclass(frozen=True)
class Sketch:
    """A drawing made ready for Qt: keep it and paint it as often as needed."""

    parts: tuple[Strokes | Writing, ...]
    box: Box | None

    def paint(
        self,
        painter: QPainter,
        palette: Palette,
        zoom: float = 1.0,
        inks: Mapping[Ink, Ink] | None = None,
    ) -> None:
        """Paint at the painter's origin.

        ``zoom``: 1 is true size; it sets the detail and the least line width. ``inks``: roles to
        be drawn as others, e.g. a part in the hue of its source.
        """
        detail = detail_at(zoom)
        if detail is Detail.BOXES:
            self._paint_box(painter, palette)
            return
        least = _LEAST_PIXELS / (zoom * PIXELS_PER_TENTH)
        colors = _Colors(palette, inks or {})
        pixels = math.sqrt(abs(painter.deviceTransform().determinant()))
        for part in self.parts:
            if isinstance(part, Strokes):
                _paint_strokes(painter, part, colors, least)
            elif detail is Detail.FULL:
                _paint_writing(painter, part, colors.of(part.ink), pixels)

    def _paint_box(self, painter: QPainter, palette: Palette) -> None:
        if self.box is None:
            return
        box = self.box
        rect = QRectF(box.left, box.top, box.width, box.height)
        painter.fillRect(rect, QColor(palette.color(Ink.QUIET)))


@dataclass(frozen=True)
class _Colors:
    palette: Palette
    inks: Mapping[Ink, Ink]

    def name(self, ink: Ink) -> str:
        return self.palette.color(self.inks.get(ink, ink))

    def of(self, ink: Ink) -> QColor:
        return _qt_color(self.name(ink))


@cache
def _qt_color(color: str) -> QColor:
    return QColor(color)


def _paint_strokes(painter: QPainter, part: Strokes, colors: _Colors, least: float) -> None:
    if part.pen is None:
        painter.setPen(Qt.PenStyle.NoPen)
    else:
        width = max(part.pen.width / 10, least)
        painter.setPen(_qt_pen(colors.name(part.pen.ink), width, part.pen.dash))
    painter.setBrush(QBrush(colors.of(part.fill)) if part.fill else Qt.BrushStyle.NoBrush)
    painter.drawPath(part.path)


@lru_cache(maxsize=1024)
def _qt_pen(color: str, width: float, dash: Dash) -> QPen:
    pen = QPen(_qt_color(color), width)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    if dash.pattern:
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        pen.setDashPattern(list(dash.pattern))
    else:
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    return pen


def _paint_writing(painter: QPainter, part: Writing, color: QColor, pixels: float) -> None:
    """``pixels``: of the device to one unit."""
    painter.save()
    painter.translate(part.x, part.y)
    if part.upward:
        painter.rotate(-90)
    if part.run.rawFont().pixelSize() * pixels > _LARGEST_RUN:
        painter.fillPath(part.outline, color)
    else:
        painter.setPen(color)
        painter.drawGlyphRun(QPointF(0, 0), part.run)
    painter.restore()


def sketch(items: Iterable[Item]) -> Sketch:
    """Make a drawing ready. FontError if a font is missing or cannot be loaded."""
    items = tuple(items)
    parts: list[Strokes | Writing] = []
    for flat in flatten(items):
        item = flat.item
        if isinstance(item, Target | Link):
            continue
        if isinstance(item, Text):
            parts.extend(_writings(item))
        else:
            _add_shape(parts, item)
    return Sketch(tuple(parts), bounds(items))


@lru_cache(maxsize=4096)
def sketch_group(group: Group, turn: int = 0, mirror: bool = False) -> Sketch:
    """Make one group ready about its own origin, mirrored and turned as a part may lie; kept."""
    return sketch([Group(group.items, 0, 0, turn % 4, mirror, inks=group.inks)])


def _add_shape(parts: list[Strokes | Writing], item: Shape) -> None:
    """Join to the path before it what looks the same, unless one would cover the other."""
    fill = None if isinstance(item, Line) else item.fill
    last = parts[-1] if parts else None
    alike = isinstance(last, Strokes) and (last.pen, last.fill) == (item.pen, fill)
    if isinstance(last, Strokes) and alike and (fill is None or item.pen is None):
        _add_to_path(last.path, item)
        return
    path = QPainterPath()
    path.setFillRule(Qt.FillRule.WindingFill)
    _add_to_path(path, item)
    parts.append(Strokes(path, item.pen, fill))


def _add_to_path(path: QPainterPath, item: Shape) -> None:
    match item:
        case Line():
            path.moveTo(item.x1, item.y1)
            path.lineTo(item.x2, item.y2)
        case Polyline():
            path.moveTo(*item.points[0])
            for x, y in item.points[1:]:
                path.lineTo(x, y)
            if item.closed:
                path.closeSubpath()
        case Rect():
            rect = QRectF(item.x, item.y, item.width, item.height)
            path.addRoundedRect(rect, item.radius, item.radius)
        case Circle():
            path.addEllipse(QPointF(item.x, item.y), item.r, item.r)
        case Arc():
            _add_arc(path, item)
        case Bezier():
            path.moveTo(*item.points[0])
            for at in range(1, len(item.points), 3):
                (ax, ay), (bx, by), (cx, cy) = item.points[at : at + 3]
                path.cubicTo(ax, ay, bx, by, cx, cy)


def _add_arc(path: QPainterPath, item: Arc) -> None:
    """Qt counts angles against the clock."""
    around = QRectF(item.x - item.rx, item.y - item.ry, 2 * item.rx, 2 * item.ry)
    path.arcMoveTo(around, -item.start)
    path.arcTo(around, -item.start, -item.sweep)
    if abs(item.sweep) == 360:
        path.closeSubpath()


def _writings(item: Text) -> Iterator[Writing]:
    """One for each stretch of one face."""
    x, y = base_point(item)
    along = 0.0
    for which, signs in stretches(item.text, item.bold):
        at = (x, y - along) if item.upward else (x + along, y)
        yield Writing(_glyph_run(signs, item.height, which), *at, item.ink, item.upward)
        along += stretch_width(signs, item.height, which)


def _glyph_run(signs: str, height: int, which: Face) -> QGlyphRun:
    measures = metrics(which)
    scale = height / measures.cap_height
    glyphs, positions, along = [], [], 0.0
    for sign in signs:
        glyphs.append(measures.glyph(sign))
        positions.append(QPointF(along, 0.0))
        along += measures.advance(sign) * scale
    run = QGlyphRun()
    run.setRawFont(_raw_font(which, height))
    run.setGlyphIndexes(glyphs)
    run.setPositions(positions)
    return run


@cache
def _raw_font(which: Face, height: int) -> QRawFont:
    font = QRawFont()
    font.loadFromData(
        QByteArray(_font_bytes(which)),
        em_size(height, which),
        QFont.HintingPreference.PreferNoHinting,
    )
    if not font.isValid():
        raise _refused(which)
    return font


def _refused(which: Face) -> FontError:
    return FontError(
        say("Text cannot be drawn, because Qt refuses the font {file}.", file=font_path(which))
    )


@cache
def _font_bytes(which: Face) -> bytes:
    return font_path(which).read_bytes()


@cache
def use_fonts() -> str:
    """Make the bundled faces known to the widgets too; returns the family's name.

    Needs a running QGuiApplication. FontError if a font is missing or refused.
    """
    for which in FACES:
        if QFontDatabase.addApplicationFont(str(font_path(which))) < 0:
            raise _refused(which)
    return FAMILY


def paint(painter: QPainter, picture: Picture, palette: Palette, zoom: float = 1.0) -> None:
    """Paint a whole sheet, paper included, with its left upper corner at the painter's origin."""
    paper = QRectF(0, 0, picture.width, picture.height)
    painter.fillRect(paper, QColor(palette.color(Ink.PAPER)))
    sketch(picture.items).paint(painter, palette, zoom)
