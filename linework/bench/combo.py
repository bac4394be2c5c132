"""A list to choose from that shows its focus and is not turned by a wheel that passes over it."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QWheelEvent
from PySide6.QtWidgets import QComboBox, QWidget

from linework.bench.looks import tone
from linework.picture.inks import Ink

_LETTERS = 14


class Combo(QComboBox):
    """As narrow as its place; what does not fit is in the tip of each line."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(_LETTERS)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Let the wheel scroll what the list lies on."""
        event.ignore()

    def paintEvent(self, event: QPaintEvent) -> None:
        """As usual, with a frame while the hand is here."""
        super().paintEvent(event)
        if self.hasFocus():
            painter = QPainter(self)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(tone(Ink.CHOSEN), 2))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 3, 3)
