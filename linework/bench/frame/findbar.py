"""A line over the sheet in which to find a part, run, note or finding by any words of it."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QLineEdit, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from linework.bench.frame.search import Match
from linework.bench.looks import Label, em, mark
from linework.words import say, say_count

_MOST = 9
_EDGE = 12


class FindBar(QFrame):
    """``chosen`` (Match): one of what was found is wanted; ``left``: the line is put away."""

    chosen = Signal(object)
    left = Signal()

    def __init__(self, look_up: Callable[[str], list[Match]], sheet: QWidget) -> None:
        super().__init__(sheet)
        self._look_up, self._found = look_up, list[Match]()
        self.setObjectName("card")
        self.setAccessibleName(say("Find on the sheets"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 8, 10, 8)
        layout.setSpacing(4)
        self.line = QLineEdit()
        self.line.setPlaceholderText(say("name, kind, size, text, number of a finding"))
        self.line.setAccessibleName(say("Find"))
        self.list = QListWidget()
        self.list.setAccessibleName(say("Found"))
        self.told = Label()
        mark(self.told, "tone", "quiet")
        for piece in (self.line, self.list, self.told):
            layout.addWidget(piece)
        self.line.textChanged.connect(self._show)
        self.line.installEventFilter(self)
        self.list.itemActivated.connect(self._take)
        self.list.itemClicked.connect(self._take)
        self.setFixedWidth(em(self, 30))
        self.hide()

    def begin(self) -> None:
        """Open the line with what was looked for last, ready to be written over."""
        self._show()
        self.show()
        self.raise_()
        self.line.selectAll()
        self.line.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def end(self) -> None:
        """Put it away."""
        self.hide()
        self.left.emit()

    def _show(self) -> None:
        wanted = self.line.text()
        self._found = self._look_up(wanted)
        self.list.clear()
        for match in self._found[:_MOST]:
            self.list.addItem(match.text)
        if self._found:
            self.list.setCurrentRow(0)
        self.list.setVisible(bool(self._found))
        self.told.setText(self._words(wanted))
        self.told.setVisible(bool(self.told.text()))
        rows = self.list.sizeHintForRow(0) * self.list.count()
        self.list.setFixedHeight(rows + 2 * self.list.frameWidth())
        self.adjustSize()
        sheet = self.parentWidget()
        if sheet is not None:
            self.move((sheet.width() - self.width()) // 2, _EDGE)

    def _words(self, wanted: str) -> str:
        more = len(self._found) - _MOST
        if more > 0:
            return say_count("and {count} more", "and {count} more", more)
        return say("Nothing of that is drawn.") if wanted.split() and not self._found else ""

    def _take(self, item: QListWidgetItem | None) -> None:
        row = self.list.row(item) if item is not None else -1
        if 0 <= row < len(self._found):
            self.hide()
            self.chosen.emit(self._found[row])

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Up and down go through the list while the hand stays on the line."""
        if not isinstance(event, QKeyEvent) or event.type() is not QEvent.Type.KeyPress:
            return False
        step = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}.get(Qt.Key(event.key()))
        if step is not None and self.list.count():
            row = (self.list.currentRow() + step) % self.list.count()
            self.list.setCurrentRow(row)
            return True
        return False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter takes the line that is marked, Escape leaves."""
        match event.key():
            case Qt.Key.Key_Return | Qt.Key.Key_Enter:
                self._take(self.list.currentItem())
            case Qt.Key.Key_Escape:
                self.end()
            case _:
                super().keyPressEvent(event)
