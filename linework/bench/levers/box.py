"""One lever with its name over it: its positions side by side, or, where the row has no room for
them, only the one that holds, with the others in a menu."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QMenu, QPushButton, QVBoxLayout, QWidget

from linework.bench.levers.segments import STEPS, Segments
from linework.bench.looks import Label, caption, mark
from linework.bench.states import Lever
from linework.words import say

_OPENS = " \N{BLACK DOWN-POINTING SMALL TRIANGLE}"
_WAITING = "…"


class LeverBox(QWidget):
    """``moved`` (position) when a person chooses another. What follows it stands beside it.

    ``lever`` None: only followers, which nobody moves.
    """

    moved = Signal(str)

    def __init__(self, lever: Lever | None, followers: Sequence[Lever], name: str) -> None:
        super().__init__()
        self.content = lever, tuple(followers)
        self.segments: Segments | None = None
        self.button: _Closed | None = None
        self.followers = {follower.key: Follower(follower) for follower in followers}
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        title = Label(name)
        mark(title, "tone", "quiet")
        layout.addWidget(title)
        row = QHBoxLayout()
        row.setSpacing(6)
        if lever is not None:
            self._add_lever(row, lever, name)
        for label in self.followers.values():
            row.addWidget(label)
        row.addStretch(1)
        layout.addLayout(row)
        layout.addStretch(1)

    def _add_lever(self, row: QHBoxLayout, lever: Lever, name: str) -> None:
        self.segments = Segments(name, lever.positions, lever.words)
        self.button = _Closed(self.segments, name, lever.words)
        self.button.hide()
        self.segments.moved.connect(self.moved)
        row.addWidget(self.segments)
        row.addWidget(self.button)

    def hold(self, position: str) -> None:
        """Show which position holds."""
        if self.segments is not None and self.button is not None:
            self.segments.hold(position)
            self.button.show_held()

    def close_up(self, closed: bool) -> None:
        """Show only the position that holds, or all of them; the hand stays on the lever."""
        for label in self.followers.values():
            label.close_up(closed)
        if self.segments is None or self.button is None or closed == self.is_closed:
            return
        away, here = (self.segments, self.button) if closed else (self.button, self.segments)
        held = away.hasFocus() or any(piece.hasFocus() for piece in self.segments.buttons)
        here.show()
        if held:
            target = self.button if closed else self.segments.held_button()
            target.setFocus(Qt.FocusReason.TabFocusReason)
        away.hide()

    @property
    def is_closed(self) -> bool:
        """Whether only the position that holds is shown."""
        return self.button is not None and not self.button.isHidden()

    def take_focus(self) -> None:
        """Put the hand on it."""
        if self.segments is None or self.button is None:
            return
        reason = Qt.FocusReason.TabFocusReason
        if self.is_closed:
            self.button.setFocus(reason)
        else:
            self.segments.held_button().setFocus(reason)


class _Closed(QPushButton):
    """The position that holds; the others open over the paper. Arrow keys go on as in a row."""

    def __init__(self, segments: Segments, name: str, words: Sequence[str]) -> None:
        super().__init__()
        self._segments, self._name, self._words = segments, name, tuple(words)
        self.setObjectName("segment")
        self.setAutoDefault(False)
        self.clicked.connect(self._open)

    def show_held(self) -> None:
        word = self._words[self._segments.positions.index(self._segments.held)]
        self.setText(caption(word) + _OPENS)
        self.setAccessibleName(f"{self._name}: {word}")

    def _open(self) -> None:
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.setAccessibleName(self._name)
        for position, word in zip(self._segments.positions, self._words, strict=True):
            action = menu.addAction(caption(word))
            action.setCheckable(True)
            action.setChecked(position == self._segments.held)
            action.triggered.connect(lambda _=False, p=position: self._segments.choose(p))
        menu.popup(self.mapToGlobal(self.rect().bottomLeft()))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = STEPS.get(Qt.Key(event.key()))
        if step is None:
            super().keyPressEvent(event)
        else:
            self._segments.step(step)


class Follower(Label):
    """Where a follower stands; room is kept for its longest word, so that nothing beside it moves
    when it does."""

    def __init__(self, lever: Lever) -> None:
        super().__init__()
        self._lever = lever
        self._closed = False
        self._position: str | None = None
        self.setContentsMargins(0, 3, 0, 3)
        self._keep_room()
        self.show_position(None)

    def show_position(self, position: str | None) -> None:
        """Tell where it stands; None: not known yet."""
        self._position = position
        self.setText(_WAITING if position is None else self._told(self._lever.word(position)))

    def close_up(self, closed: bool) -> None:
        if closed != self._closed:
            self._closed = closed
            self._keep_room()
            self.show_position(self._position)

    def _told(self, word: str) -> str:
        return word if self._closed else say("{word} (moves by itself)", word=word)

    def _keep_room(self) -> None:
        words = (self._told(word) for word in self._lever.words)
        self.setMinimumWidth(max(map(self.fontMetrics().horizontalAdvance, words), default=0) + 2)
