"""What is said and asked at the pointer: a small text, a small menu."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QMenu, QWidget

from linework.bench.looks import Label, caption
from linework.words import say

_OFF = QPoint(18, 18)
_READ_MS = 6000


class Hint(Label):
    """Says what would happen, or why it cannot, beside the pointer."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("", parent)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAutoFillBackground(True)
        self.setBackgroundRole(QPalette.ColorRole.ToolTipBase)
        self.setForegroundRole(QPalette.ColorRole.ToolTipText)
        self.setFrameShape(Label.Shape.Box)
        self.setMargin(4)
        self.setWordWrap(False)
        self._at = QPoint()
        self._room = parent
        self._fade = QTimer(self, singleShot=True, interval=_READ_MS)
        self._fade.timeout.connect(lambda: self.say(""))
        self.hide()

    def say(self, text: str) -> None:
        """Show a text, "" hides it."""
        self._fade.stop()
        if text == self.text() and self.isVisible() == bool(text):
            return
        self.setText(text)
        self.adjustSize()
        self.setVisible(bool(text))
        self._lie()

    def say_a_while(self, text: str) -> None:
        """Show a text long enough to be read."""
        self.say(text)
        self._fade.start()

    def follow(self, at: QPoint) -> None:
        """The pointer moved to here."""
        self._at = at
        if self.isVisible():
            self._lie()

    def _lie(self) -> None:
        """Beside the pointer, inside the window."""
        room = self._room.size()
        at = self._at + _OFF
        x = min(at.x(), max(0, room.width() - self.width()))
        below = at.y() + self.height() <= room.height()
        y = at.y() if below else max(0, self._at.y() - self.height() - 8)
        self.move(x, y)


def menu_of(labels: tuple[str, ...], then: Callable[[int], None], parent: QWidget) -> QMenu:
    """A menu of the ways to join two ends; ``then`` gets the number of the one that is taken."""
    menu = QMenu(parent)
    menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    menu.setAccessibleName(say("Which conductor goes where"))
    for number, label in enumerate(labels):
        action = menu.addAction(caption(label))
        action.triggered.connect(lambda _=False, number=number: then(number))
    return menu
