"""The mark of what is chosen: an outline that lies under the ink of the sheet and hides none."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPainterPathStroker, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from linework.bench.paper.items import Look, PieceItem
from linework.bench.paper.pieces import Layer
from linework.picture.inks import Ink

_HALO = 14
"""Between the ink and the outline, in tenths of a millimetre."""
_LABEL_HALO = 6
_PIXELS, _LABEL_PIXELS = 2.0, 1.0
_UNDER_BOARDS, _OVER_BOARDS = -1.0, Layer.BOARD + 0.5
"""A board's own ground would hide the outline of what sits in it."""


class MarkItem(QGraphicsItem):
    """The outline of one piece; no click meets it."""

    def __init__(self, item: PieceItem, look: Look) -> None:
        super().__init__()
        self.look = look
        layer = item.piece.layer
        self._is_label = layer is Layer.LABEL
        self._outline = _outline(item)
        self.setPos(item.pos())
        self.setZValue(_UNDER_BOARDS if layer is Layer.BOARD else _OVER_BOARDS)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)

    def boundingRect(self) -> QRectF:
        """The outline, with room for its width at any zoom."""
        return self._outline.boundingRect().adjusted(-9, -9, 9, 9)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        """A line and no field."""
        pen = QPen(self.look.color(Ink.CHOSEN), _LABEL_PIXELS if self._is_label else _PIXELS)
        pen.setCosmetic(True)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(pen)
        painter.drawPath(self._outline)


def _outline(item: PieceItem) -> QPainterPath:
    """A sleeve around a run, a box around a symbol or its writing."""
    if item.piece.layer in (Layer.RUN, Layer.TIE):
        stroker = QPainterPathStroker()
        stroker.setWidth(2 * _HALO)
        stroker.setCapStyle(Qt.PenCapStyle.RoundCap)
        stroker.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        return stroker.createStroke(item.line()).simplified()
    path, box = QPainterPath(), item.ink
    if box is not None:
        wide = box.grown(_LABEL_HALO if item.piece.layer is Layer.LABEL else _HALO)
        path.addRoundedRect(QRectF(wide.left, wide.top, wide.width, wide.height), 10, 10)
    return path
