"""While the states are walked: which one is shown, and what changed from the one before."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QAccessible, QAccessibleEvent, QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from linework.bench.looks import Label, em, true_height
from linework.words import say

_WIDE = 34
"""Width in letters m."""


class WalkTag(QFrame):
    """Floats on the sheet. ``stepped`` (1 or -1) asks for another state, ``left`` to end it."""

    stepped = Signal(int)
    left = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self.setAutoFillBackground(True)
        self.setAccessibleName(say("Walk through the states"))
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(12, 8, 12, 9)
        self._layout.setSpacing(4)
        self.title, self.told = Label(bold=True), Label()
        self.title.setAccessibleName(say("State"))
        self.told.setAccessibleName(say("What changed"))
        for label in (self.title, self.told):
            label.setWordWrap(True)
            self._layout.addWidget(label)
        row = QHBoxLayout()
        self.back = self._button(row, say("Back"), lambda: self.stepped.emit(-1))
        self.next = self._button(row, say("Next"), lambda: self.stepped.emit(1))
        row.addStretch(1)
        self.close_button = self._button(row, say("Close"), self.left.emit)
        self._layout.addLayout(row)
        self.setFixedWidth(em(self, _WIDE))
        self.hide()

    def _button(self, row: QHBoxLayout, text: str, slot) -> QPushButton:
        button = QPushButton(text)
        button.clicked.connect(slot)
        row.addWidget(button)
        return button

    def show_step(self, title: str, lines: tuple[str, ...]) -> None:
        """Show a state and what is other than in the one before."""
        self.title.setText(title)
        self.told.setText("\n".join(lines) or say("Nothing changes for any load."))
        self.setAccessibleDescription(f"{title}. {self.told.text()}")
        self.resize(self.wanted_size())
        self.show()
        self.raise_()
        QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.Alert))

    def wanted_size(self) -> QSize:
        """How large it is with everything it says."""
        return QSize(self.width(), true_height(self, self._layout))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape ends the walk."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
            return
        super().keyPressEvent(event)
