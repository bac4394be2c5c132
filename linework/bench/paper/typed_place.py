"""Placing by typing: a line to type in at a place of the paper, and a short list below it."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QPoint, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QFrame, QLineEdit, QListWidget, QVBoxLayout, QWidget

from linework.bench.paper.typed_match import Match, matches
from linework.words import say

_MOST = 7
"""So many lines of the list are in view at once."""


class TypedPlace(QFrame):
    """Emits ``taken`` (a Match) when one is chosen; closes itself then, and when it is left."""

    taken = Signal(object)
    closed = Signal()

    def __init__(self, parent: QWidget, family: str) -> None:
        super().__init__(parent)
        self._family = family
        self._room = parent
        self._found: tuple[Match, ...] = ()
        self.setFrameShape(QFrame.Shape.Box)
        self.setAutoFillBackground(True)
        self.line = QLineEdit(self)
        self.line.setPlaceholderText(say("what goes here? for example 30 A breaker"))
        self.line.setAccessibleName(say("Part to place here"))
        self.list = QListWidget(self)
        self.list.setAccessibleName(say("Parts that fit what was typed"))
        self.list.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.list.setUniformItemSizes(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(4, 4, 4, 4)
        layout.setSpacing(2)
        layout.addWidget(self.line)
        layout.addWidget(self.list)
        self.line.textChanged.connect(self._typed)
        self.list.itemClicked.connect(lambda item: self._take(self.list.row(item)))
        self.line.installEventFilter(self)
        self.hide()

    def open_at(self, at: QPoint, text: str, family: str) -> None:
        """Open at a point of the parent, with a text typed already."""
        self._family = family
        self.line.setText(text)
        self._typed(text)
        self.show()
        self._fit(at)
        self.raise_()
        self.line.setFocus(Qt.FocusReason.PopupFocusReason)

    def _fit(self, at: QPoint) -> None:
        """Inside the parent, as wide as its texts need."""
        metrics = self.fontMetrics()
        texts = [match.label for match in self._found[:_MOST]] + [self.line.placeholderText()]
        width = max(metrics.horizontalAdvance(text) for text in texts) + 48
        rows = max(1, min(len(self._found), _MOST))
        row = self.list.sizeHintForRow(0)
        self.list.setFixedHeight(rows * row + 2 * self.list.frameWidth())
        self.resize(width, self.list.height() + self.line.sizeHint().height() + 12)
        room = self._room.size()
        x = max(0, min(at.x() + 12, room.width() - self.width()))
        y = max(0, min(at.y() + 12, room.height() - self.height()))
        self.move(x, y)

    def _typed(self, text: str) -> None:
        self._found = matches(text, self._family)
        self.list.clear()
        for match in self._found:
            self.list.addItem(match.label)
        if self._found:
            self.list.setCurrentRow(0)
        else:
            self.list.addItem(say("nothing of this name; try battery, outlet, 30 A breaker"))
            self.list.item(0).setFlags(Qt.ItemFlag.NoItemFlags)
        if self.isVisible():
            self._fit(self.pos() - QPoint(12, 12))

    def _take(self, row: int) -> None:
        if 0 <= row < len(self._found):
            match = self._found[row]
            self.close_up()
            self.taken.emit(match)

    def close_up(self) -> None:
        """Close without placing anything."""
        if self.isVisible():
            self.hide()
            self.closed.emit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Keys of the line: up and down move in the list, Enter takes, Escape closes."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            return self._key(event)
        if isinstance(event, QFocusEvent) and event.type() == QEvent.Type.FocusOut:
            self.close_up()
        return super().eventFilter(watched, event)

    def _key(self, event: QKeyEvent) -> bool:
        row = self.list.currentRow()
        match event.key():
            case Qt.Key.Key_Down:
                self.list.setCurrentRow(min(row + 1, self.list.count() - 1))
            case Qt.Key.Key_Up:
                self.list.setCurrentRow(max(row - 1, 0))
            case Qt.Key.Key_Return | Qt.Key.Key_Enter:
                self._take(row)
            case Qt.Key.Key_Escape:
                self.close_up()
            case _:
                return False
        return True
