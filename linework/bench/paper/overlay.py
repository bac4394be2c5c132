"""What the hand shows over the sheet while it works: ghost, lines, lit terminals, band, caret.

None of it belongs to the sheet; all of it goes when the hand lets go.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from linework.bench.paper.items import Look
from linework.picture.geometry import Box, Point
from linework.picture.inks import Ink
from linework.picture.model import Group
from linework.picture.qt import PIXELS_PER_TENTH, Sketch, sketch_group

_ABOVE = 100.0
_ROOM = 40
_FAINT = 0.55


@dataclass(frozen=True)
class Figure:
    """A symbol of the ghost at a point of the paper."""

    group: Group
    x: int
    y: int


@dataclass(frozen=True)
class Lit:
    """A terminal that can take the run; ``asks``: once it is said which conductor goes where."""

    x: int
    y: int
    asks: bool = False


class _Over(QGraphicsItem):
    """Something over the sheet that no click meets."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self.look = look
        self.rect = QRectF()
        self.setZValue(_ABOVE)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)

    def boundingRect(self) -> QRectF:
        """As far as it paints."""
        return self.rect


class GhostItem(_Over):
    """Symbols that follow the pointer; moved as a whole by the item's position."""

    def __init__(self, look: Look, figures: Iterable[Figure]) -> None:
        super().__init__(look)
        self.figures = tuple(figures)
        self._sketches: list[tuple[Sketch, int, int]] = []
        for figure in self.figures:
            ready = sketch_group(figure.group, figure.group.turn, figure.group.mirror)
            self._sketches.append((ready, figure.x, figure.y))
            if ready.box is not None:
                box = ready.box.moved(figure.x, figure.y).grown(_ROOM)
                self.rect = self.rect.united(QRectF(box.left, box.top, box.width, box.height))

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """The symbols, half through."""
        zoom = option.levelOfDetailFromTransform(painter.worldTransform()) / PIXELS_PER_TENTH
        painter.setOpacity(_FAINT)
        for ready, x, y in self._sketches:
            painter.translate(x, y)
            ready.paint(painter, self.look.palette, zoom, {Ink.INK: Ink.CHOSEN})
            painter.translate(-x, -y)


class LinesItem(_Over):
    """Thin lines: where runs would go, and guides."""

    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self._ways = QPainterPath()
        self._guides = QPainterPath()

    def show_lines(
        self,
        ways: Iterable[tuple[Point, ...]],
        guides: Iterable[tuple[Point, Point]] = (),
    ) -> None:
        """Show these lines and no others."""
        self.prepareGeometryChange()
        self._ways, self._guides = _path(ways), _path(guides)
        both = self._ways.boundingRect().united(self._guides.boundingRect())
        self.rect = both.adjusted(-_ROOM, -_ROOM, _ROOM, _ROOM)
        self.update()

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """Ways broad, guides thin with dots at their ends."""
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.strokePath(self._ways, QPen(self.look.color(Ink.CHOSEN), 7))
        pen = QPen(self.look.color(Ink.CHOSEN), 0)
        painter.strokePath(self._guides, pen)
        for at in range(self._guides.elementCount()):
            element = self._guides.elementAt(at)
            painter.setPen(pen)
            painter.drawEllipse(QPointF(element.x, element.y), 10, 10)


def _path(ways: Iterable[tuple[Point, ...]]) -> QPainterPath:
    path = QPainterPath()
    for way in ways:
        path.moveTo(*way[0])
        for point in way[1:]:
            path.lineTo(*point)
    return path


class LitItem(_Over):
    """Terminals that can take a run: a full disc, or a ring where it must be asked first."""

    _RADIUS = 16

    def __init__(self, look: Look, lit: Iterable[Lit]) -> None:
        super().__init__(look)
        self.lit = tuple(lit)
        for spot in self.lit:
            self.rect = self.rect.united(QRectF(spot.x, spot.y, 1, 1))
        self.rect.adjust(-_ROOM, -_ROOM, _ROOM, _ROOM)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """One disc or ring each."""
        color = self.look.color(Ink.CHOSEN)
        painter.setPen(QPen(color, 6))
        for spot in self.lit:
            painter.setBrush(Qt.BrushStyle.NoBrush if spot.asks else color)
            painter.drawEllipse(QPointF(spot.x, spot.y), self._RADIUS, self._RADIUS)


class FieldItem(_Over):
    """A box: the band that is drawn up, or the place a part would go into."""

    def __init__(self, look: Look, box: Box) -> None:
        super().__init__(look)
        self.box = box
        self.show_box(box)

    def show_box(self, box: Box) -> None:
        """Become another box."""
        self.prepareGeometryChange()
        self.box = box
        self.rect = QRectF(box.left, box.top, box.width, box.height).adjusted(-9, -9, 9, 9)
        self.update()

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """An outline with a thin wash."""
        color = self.look.color(Ink.CHOSEN)
        pen = QPen(color, 2)
        pen.setCosmetic(True)
        painter.setPen(pen)
        wash = self.look.color(Ink.CHOSEN)
        wash.setAlpha(28)
        painter.setBrush(wash)
        painter.drawRect(QRectF(self.box.left, self.box.top, self.box.width, self.box.height))


class CaretItem(_Over):
    """Where the next part goes: four short strokes around the point."""

    _ARM, _HOLLOW = 34, 12

    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self.rect = QRectF(-_ROOM, -_ROOM, 2 * _ROOM, 2 * _ROOM)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """The strokes."""
        pen = QPen(self.look.color(Ink.CHOSEN), 2)
        pen.setCosmetic(True)
        painter.setPen(pen)
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            near = QPointF(dx * self._HOLLOW, dy * self._HOLLOW)
            painter.drawLine(near, QPointF(dx * self._ARM, dy * self._ARM))
