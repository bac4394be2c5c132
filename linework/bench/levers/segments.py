"""Buttons side by side of which one holds: a lever with its positions."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from linework.bench.looks import caption

STEPS = {Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1}
"""Positions that an arrow key goes on."""


class Segments(QWidget):
    """``moved`` (position) when a person chooses another. One tab stop; arrow keys go on."""

    moved = Signal(str)

    def __init__(
        self,
        name: str,
        positions: Sequence[str],
        words: Sequence[str],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.positions = tuple(positions)
        self.held = ""
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        self.buttons: list[QPushButton] = []
        for position, word in zip(positions, words, strict=True):
            button = _Segment(word, self)
            button.setAccessibleName(f"{name}: {word}")
            button.clicked.connect(lambda _=False, p=position: self.choose(p))
            self.buttons.append(button)
            layout.addWidget(button)

    def hold(self, position: str) -> None:
        """Show which position holds ("" none)."""
        self.held = position
        for name, button in zip(self.positions, self.buttons, strict=True):
            held = name == position
            button.setChecked(held)
            button.setFocusPolicy(Qt.FocusPolicy.StrongFocus if held else Qt.FocusPolicy.ClickFocus)

    def held_button(self) -> QPushButton:
        """The button of the position that holds, the first where none does."""
        return self.buttons[self.positions.index(self.held) if self.held else 0]

    def choose(self, position: str) -> None:
        """A person chooses a position."""
        before = self.held
        self.hold(before)  # whoever listens decides whether it moves
        if position != before:
            self.moved.emit(position)

    def step(self, by: int) -> None:
        """One position on, as by an arrow key; the focus goes along."""
        now = self.positions.index(self.held) if self.held else 0
        after = now + by
        if 0 <= after < len(self.positions):
            self.moved.emit(self.positions[after])
            if self.isVisible():
                self.held_button().setFocus(Qt.FocusReason.OtherFocusReason)


class _Segment(QPushButton):
    def __init__(self, word: str, parent: Segments) -> None:
        super().__init__(caption(word), parent)
        self.setObjectName("segment")
        self.setCheckable(True)
        self.setAutoDefault(False)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        group = self.parent()
        step = STEPS.get(Qt.Key(event.key()))
        if isinstance(group, Segments) and step is not None:
            group.step(step)
            return
        super().keyPressEvent(event)
