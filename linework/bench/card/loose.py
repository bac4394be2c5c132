"""A frame that lies loose on the sheet: a hand can drag it aside."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtGui import QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QFrame, QWidget


class Loose(QFrame):
    """Is dragged by its bare places, as far as the sheet reaches; then ``resized`` tells."""

    resized = Signal()

    def __init__(self, sheet: QWidget) -> None:
        super().__init__(sheet)
        self._sheet = sheet
        self.moved_by_hand = False
        self._held: QPoint | None = None

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Keep what the list at its end leaves over: the sheet below is not to be zoomed."""
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Remember where it is held."""
        self._held = event.position().toPoint()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Follow the hand."""
        if self._held is None or not event.buttons() & Qt.MouseButton.LeftButton:
            return
        room = self._sheet.rect().adjusted(0, 0, -self.width(), -self.height())
        to = self.pos() + event.position().toPoint() - self._held
        self.move(
            max(0, min(to.x(), max(room.right(), 0))), max(0, min(to.y(), max(room.bottom(), 0)))
        )
        self.moved_by_hand = True
        self.resized.emit()
