"""The items of the scene: each paints one piece of the sheet and knows nothing else."""

from __future__ import annotations

from dataclasses import dataclass, field

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QPainter, QPainterPath
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from linework.bench.paper.pieces import Layer, Piece
from linework.picture.geometry import Box
from linework.picture.inks import Ink
from linework.picture.model import Polyline, flatten
from linework.picture.palettes import LIGHT, Palette
from linework.picture.qt import PIXELS_PER_TENTH, Sketch, sketch_group

_MARGIN = 30
"""Room around the ink for the ends of its strokes, in tenths of a millimetre."""
_LEAST_STROKES = 0.25
"""Only symbols become plain boxes when they are seen from far off."""
_LEAST_TEXT = 0.3
"""Writing is drawn down to this zoom; below it nobody could read it."""


@dataclass
class Look:
    """What all items of a scene share: the colours, and which elements are chosen."""

    palette: Palette = LIGHT
    chosen: frozenset[str] = field(default_factory=frozenset)

    def color(self, ink: Ink) -> QColor:
        """The colour of an ink."""
        return QColor(self.palette.color(ink))


class PieceItem(QGraphicsItem):
    """One piece on the scene. What it paints is its ``piece`` and nothing else."""

    def __init__(self, piece: Piece, look: Look) -> None:
        super().__init__()
        self.look = look
        self.piece = piece
        self._sketch = Sketch((), None)
        self._path: QPainterPath | None = None
        self._rect = QRectF()
        self.show_piece(piece)

    def show_piece(self, piece: Piece) -> None:
        """Become another piece, with no more work than the difference asks for."""
        self.setPos(piece.x, piece.y)
        self.setZValue(float(piece.layer))
        if piece.group is not self.piece.group or self._sketch.box is None:
            self.prepareGeometryChange()
            self._sketch = sketch_group(piece.group, piece.group.turn, piece.group.mirror)
            self._rect = _rect(self._sketch.box)
            self._path = None
            self.update()
        self.piece = piece

    def boundingRect(self) -> QRectF:
        """The ink, with a little room."""
        return self._rect

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionGraphicsItem,
        widget: QWidget | None = None,
    ) -> None:
        """Paint the piece at the detail that its size on the screen is worth."""
        zoom = option.levelOfDetailFromTransform(painter.worldTransform()) / PIXELS_PER_TENTH
        self._sketch.paint(painter, self.look.palette, self._detail(zoom))

    def _detail(self, zoom: float) -> float:
        if self.piece.layer in (Layer.SYMBOL, Layer.BOARD):
            return zoom
        if self.piece.layer is Layer.RUN:
            return max(zoom, _LEAST_STROKES)
        return max(zoom, 0.5) if zoom >= _LEAST_TEXT else max(zoom, _LEAST_STROKES)

    @property
    def ink(self) -> Box | None:
        """The box of what it paints, about its own place."""
        return self._sketch.box

    def line(self) -> QPainterPath:
        """The way of a run, bows left out."""
        if self._path is None:
            self._path = QPainterPath()
            for flat in flatten(self.piece.group.items):
                if isinstance(flat.item, Polyline) and not flat.item.closed:
                    self._path.moveTo(*flat.item.points[0])
                    for point in flat.item.points[1:]:
                        self._path.lineTo(*point)
        return self._path


def _rect(box: Box | None) -> QRectF:
    if box is None:
        return QRectF()
    wide = box.grown(_MARGIN)
    return QRectF(wide.left, wide.top, wide.width, wide.height)
