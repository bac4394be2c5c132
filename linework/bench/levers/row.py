"""The levers side by side in one line of fixed height. Those that are there keep their places."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QWidget

from linework.bench.levers.box import LeverBox
from linework.bench.looks import Label, mark
from linework.bench.states import Key, Lever, LeverBoard
from linework.words import say

_GAP = 18


class LeverRow(QScrollArea):
    """``moved`` (key, position). Where the levers have no room they close to the position that
    holds; where they have none even so, the wheel and the focus bring them into view."""

    moved = Signal(object, str)

    def __init__(self) -> None:
        super().__init__()
        self.boxes: dict[Key, LeverBox] = {}
        self.setAccessibleName(say("Levers"))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        for turn_off in (self.setHorizontalScrollBarPolicy, self.setVerticalScrollBarPolicy):
            turn_off(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        inner = QWidget()
        self._line = QHBoxLayout(inner)
        self._line.setContentsMargins(0, 0, 0, 0)
        self._line.setSpacing(_GAP)
        self._none = Label(
            say("No levers yet: a source, a plug or a switch on the sheet makes one.")
        )
        mark(self._none, "tone", "quiet")
        self._line.addWidget(self._none)
        self._line.addStretch(1)
        self.setWidget(inner)

    def show_board(self, board: LeverBoard) -> None:
        """Show these levers. What is new comes after the last, so that no other is moved."""
        wanted = {key: (lever, beside) for key, lever, beside in _contents(board)}
        for key in [key for key in self.boxes if key not in wanted]:
            self._drop(self.boxes.pop(key))
        for key, content in wanted.items():
            known = self.boxes.get(key)
            if known is None or known.content != content:
                self._put(key, *content)
        self._none.setVisible(not self.boxes)
        self.fit()

    def clear(self) -> None:
        """Take all away, as for another sheet."""
        for box in self.boxes.values():
            self._drop(box)
        self.boxes = {}
        self._none.show()

    def _put(self, key: Key, lever: Lever | None, beside: tuple[Lever, ...]) -> None:
        """At the end, or in the place of the one that it replaces."""
        old = self.boxes.get(key)
        at = self._line.indexOf(old) if old is not None else self._line.count() - 1
        box = LeverBox(lever, beside, _name(lever or beside[0]))
        box.moved.connect(lambda position: self.moved.emit(key, position))
        for piece in box.findChildren(QWidget):
            piece.installEventFilter(self)
        self._line.insertWidget(at, box)
        box.show()
        if old is not None:
            self._drop(old)
        self.boxes[key] = box

    def _drop(self, box: LeverBox) -> None:
        self._line.removeWidget(box)
        box.hide()
        box.deleteLater()

    # room

    def fit(self) -> None:
        """Open where there is room for all positions, else closed."""
        self._close_up(False)
        if self._wide() > self.width():
            self._close_up(True)

    def _close_up(self, closed: bool) -> None:
        for box in self.boxes.values():
            box.close_up(closed)

    def _wide(self) -> int:
        for box in self.boxes.values():
            for piece in (box, *box.findChildren(QWidget)):
                piece.ensurePolished()  # else the style sheet's padding is not counted
        wide = sum(box.sizeHint().width() for box in self.boxes.values())
        return wide + _GAP * max(len(self.boxes) - 1, 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width may close or open them."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.fit()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """The wheel goes along the row."""
        bar, turned = self.horizontalScrollBar(), event.angleDelta()
        bar.setValue(bar.value() - (turned.y() or turned.x()))
        event.accept()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """What the hand comes to is brought into view."""
        if event.type() is QEvent.Type.FocusIn and isinstance(watched, QWidget):
            self.ensureWidgetVisible(watched, _GAP, 0)
        return False


def _contents(board: LeverBoard) -> Iterator[tuple[Key, Lever | None, tuple[Lever, ...]]]:
    """Each lever with what follows it; then followers of parts that have no lever."""
    moved = {lever.key[0] for lever in board.levers}
    told: set[Key] = set()
    for lever in board.levers:
        mine = (f for f in board.followers if f.key[0] == lever.key[0])
        # Of a part with several levers the first has what follows.
        beside = tuple(follower for follower in mine if follower.key not in told)
        told |= {follower.key for follower in beside}
        yield lever.key, lever, beside
    for follower in board.followers:
        if follower.key[0] not in moved:
            yield follower.key, None, (follower,)


def _name(lever: Lever) -> str:
    return f"{lever.designation} {lever.title}".strip()
