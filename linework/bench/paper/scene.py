"""The scene: one design sheet on a desk. It shows; it never changes the design."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache

from PySide6.QtCore import QPointF, QRect, QRectF
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QGraphicsScene

from linework.bench.paper.items import Look, PieceItem
from linework.bench.paper.marks import MarkItem
from linework.bench.paper.pieces import Piece
from linework.picture.geometry import MODULE, Box
from linework.picture.inks import Ink
from linework.picture.palettes import Palette
from linework.sheet.compose import Composition

_DESK = 2000
"""Free desk around the paper, in tenths of a millimetre."""
_SHADOW = 12
_LEAST_GRID = 7.0
"""Grid points closer than this many pixels are thinned out."""

Fingerprint = tuple[tuple[object, ...], ...]


class SheetScene(QGraphicsScene):
    """One sheet: an item for every piece of ``layout``, and overlays of what the hand is doing.

    Items are made, changed and removed by :class:`~linework.bench.paper.sync.Sync` alone.
    """

    def __init__(self, palette: Palette | None = None) -> None:
        super().__init__()
        self.look = Look() if palette is None else Look(palette)
        self.layout: Composition | None = None
        self.items_by_key: dict[str, PieceItem] = {}
        self._marks: list[MarkItem] = []
        self.setItemIndexMethod(QGraphicsScene.ItemIndexMethod.BspTreeIndex)

    # showing

    def lay(self, layout: Composition, pieces: Mapping[str, Piece]) -> None:
        """Show a sheet: only what differs from what is shown is touched."""
        self.layout = layout
        rect = QRectF(0, 0, layout.frame.width, layout.frame.height)
        wide = rect.adjusted(-_DESK, -_DESK, _DESK, _DESK)
        if self.sceneRect() != wide:
            self.setSceneRect(wide)
            self.update()
        for key in [key for key in self.items_by_key if key not in pieces]:
            self.removeItem(self.items_by_key.pop(key))
        for key, piece in pieces.items():
            shown = self.items_by_key.get(key)
            if shown is None:
                self.items_by_key[key] = shown = PieceItem(piece, self.look)
                self.addItem(shown)
            elif shown.piece != piece:
                shown.show_piece(piece)
        self._mark()

    def clear_pieces(self) -> None:
        """Remove every piece."""
        for item in self.items_by_key.values():
            self.removeItem(item)
        self.items_by_key.clear()
        self.layout = None
        self._mark()

    def choose(self, element_ids: Iterable[str]) -> None:
        """Mark elements as chosen, and no others."""
        self.look.chosen = frozenset(element_ids)
        self._mark()

    def _mark(self) -> None:
        """An outline under everything that is chosen."""
        for mark in self._marks:
            self.removeItem(mark)
        chosen = self.look.chosen - {""}
        shown = self.items_by_key.values() if chosen else ()
        self._marks = [MarkItem(i, self.look) for i in shown if i.piece.element in chosen]
        for mark in self._marks:
            self.addItem(mark)

    def use_palette(self, palette: Palette) -> None:
        """Show the same sheet in other colours."""
        self.look.palette = palette
        self.update()

    @property
    def paper(self) -> QRectF:
        """The paper, empty before a sheet was laid."""
        if self.layout is None:
            return QRectF()
        return QRectF(0, 0, self.layout.frame.width, self.layout.frame.height)

    def fingerprint(self) -> Fingerprint:
        """What is shown, read from the items themselves: two scenes that look alike compare equal.

        Overlays and what is chosen do not belong to the sheet and are left out.
        """
        found: list[tuple[object, ...]] = [("paper", "", _figures(self.paper))]
        for item in self.items():
            if isinstance(item, PieceItem):
                piece, rect = item.piece, item.boundingRect()
                place = (item.x(), item.y(), item.zValue(), item.isVisible(), _figures(rect))
                found.append((piece.key, piece.element, place, piece.group))
        return tuple(sorted(found, key=lambda entry: repr(entry[:3])))

    # desk and paper

    def drawBackground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        """Desk, shadow, paper and grid."""
        painter.fillRect(rect, self.look.color(Ink.DESK))
        paper = self.paper
        if paper.isEmpty():
            return
        painter.fillRect(paper.translated(_SHADOW, _SHADOW), QColor(0, 0, 0, 60))
        painter.fillRect(paper, self.look.color(Ink.PAPER))
        if self.layout is not None:
            self._draw_grid(painter, self.layout.frame.area)

    def _draw_grid(self, painter: QPainter, area: Box) -> None:
        scale = painter.worldTransform().m11()
        pitch = next((p for p in (MODULE, 4 * MODULE) if p * scale >= _LEAST_GRID), 0)
        if not pitch:
            return
        pen = QPen(self.look.color(Ink.FAINT), 2)
        pen.setCosmetic(True)
        # Plain square points: round ones take longer than all the rest of the sheet.
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        painter.setPen(pen)
        painter.drawPoints(_grid(area, pitch))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)


def _figures(rect: QRectF) -> tuple[float, float, float, float]:
    return rect.x(), rect.y(), rect.width(), rect.height()


@lru_cache(maxsize=8)
def _grid(area: Box, pitch: int) -> QPolygonF:
    across = range(-(-area.left // pitch) * pitch, area.right, pitch)
    down = range(-(-area.top // pitch) * pitch, area.bottom, pitch)
    return QPolygonF([QPointF(x, y) for y in down for x in across])
