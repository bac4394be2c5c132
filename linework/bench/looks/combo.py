"""A list to choose from that shows its focus and is not turned by a wheel that passes over it."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QWheelEvent
from PySide6.QtWidgets import QComboBox, QStyle, QStyleOptionComboBox, QStylePainter, QWidget

from linework.bench.looks.colors import tone
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
        """With dots for what does not fit, and with a frame while the hand is here."""
        painter = QStylePainter(self)
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        painter.drawComplexControl(QStyle.ComplexControl.CC_ComboBox, option)
        room = self.style().subControlRect(
            QStyle.ComplexControl.CC_ComboBox,
            option,
            QStyle.SubControl.SC_ComboBoxEditField,
            self,
        )
        option.currentText = self.fontMetrics().elidedText(
            option.currentText, Qt.TextElideMode.ElideRight, room.width() - 4
        )
        painter.drawControl(QStyle.ControlElement.CE_ComboBoxLabel, option)
        if self.hasFocus():
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(tone(Ink.CHOSEN), 2))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 3, 3)
