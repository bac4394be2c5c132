"""A window on the paper: zoom about the pointer, pan, the whole page."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QPointF, Qt, Signal
from PySide6.QtGui import QPainter, QResizeEvent, QShowEvent, QWheelEvent
from PySide6.QtWidgets import QFrame, QGraphicsView, QWidget

from linework.bench.paper.scene import SheetScene
from linework.picture.geometry import Box
from linework.picture.palettes import Palette
from linework.picture.qt import PIXELS_PER_TENTH

_LEAST_ZOOM, _MOST_ZOOM, _STEP = 0.05, 12.0, 1.2
_NOTCH = 120
_SLOP_PIXELS = 9
_LEAST_SLOP = 14
EDGE = 90
"""Free desk around the page, or around what is brought into view."""


class PaperView(QGraphicsView):
    """Shows the paper of a scene. ``viewed`` tells that another part of it came into view."""

    viewed = Signal(object)

    def __init__(self, parent: QWidget | None, palette: Palette | None) -> None:
        super().__init__(parent)
        # A view does not keep its scene alive.
        self.sheet_scene = SheetScene(palette)
        self.setScene(self.sheet_scene)
        self._fits = True
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setResizeAnchor(QGraphicsView.ViewportAnchor.AnchorViewCenter)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.SmartViewportUpdate)
        self.setOptimizationFlag(QGraphicsView.OptimizationFlag.DontSavePainterState)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        for bar in (self.horizontalScrollBar(), self.verticalScrollBar()):
            bar.valueChanged.connect(lambda _: self.viewed.emit(None))

    def use_palette(self, palette: Palette) -> None:
        """Show the same in other colours."""
        self.sheet_scene.use_palette(palette)

    @property
    def zoom(self) -> float:
        """1 is the true size on a screen of 96 dots an inch."""
        return self.transform().m11() / PIXELS_PER_TENTH

    @property
    def slop(self) -> int:
        """How near is near enough for thin things, in tenths of a millimetre."""
        return max(_LEAST_SLOP, round(_SLOP_PIXELS / self.transform().m11()))

    @property
    def visible_box(self) -> Box:
        """The part of the sheet that is in view."""
        rect = self.mapToScene(self.viewport().rect()).boundingRect()
        return Box(int(rect.left()), int(rect.top()), int(rect.right()), int(rect.bottom()))

    def fit_page(self) -> None:
        """The whole paper in the window, and so it stays until somebody zooms or pans."""
        paper = self.sheet_scene.paper.adjusted(-EDGE, -EDGE, EDGE, EDGE)
        self.fitInView(paper, Qt.AspectRatioMode.KeepAspectRatio)
        self._fits = True
        self.viewed.emit(None)

    def zoom_by(self, factor: float, about: QPointF | None = None) -> None:
        """Zoom about a point of the viewport; None is its middle."""
        wanted = min(max(self.zoom * factor, _LEAST_ZOOM), _MOST_ZOOM)
        about = QPointF(self.viewport().rect().center()) if about is None else about
        before = self._scene_point(about)
        self._fits = False
        self.scale(wanted / self.zoom, wanted / self.zoom)
        after = self._scene_point(about)
        shift = (after - before) * self.transform().m11()
        self.scroll_by(QPoint(round(shift.x()), round(shift.y())))

    def _scene_point(self, at: QPointF) -> QPointF:
        inverse, _ = self.viewportTransform().inverted()
        return inverse.map(at)

    def scroll_by(self, pixels: QPoint) -> None:
        """Shift the sheet under the window."""
        self._fits = False
        across, down = self.horizontalScrollBar(), self.verticalScrollBar()
        across.setValue(across.value() - pixels.x())
        down.setValue(down.value() - pixels.y())
        self.viewed.emit(None)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom about the pointer."""
        turned = event.angleDelta().y() / _NOTCH
        if turned:
            self.zoom_by(_STEP**turned, event.position())
        event.accept()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """A page that filled the window fills it still."""
        super().resizeEvent(event)
        if self._fits:
            self.fit_page()

    def showEvent(self, event: QShowEvent) -> None:
        """The first sight is the whole page."""
        super().showEvent(event)
        if self._fits:
            self.fit_page()
