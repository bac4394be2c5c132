"""What lies on an empty sheet: how to begin, samples, and what was open of late."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QPushButton, QVBoxLayout, QWidget

import linework
from linework.bench.looks import Label, caption, em, mark, tip
from linework.storage import SUFFIX
from linework.words import say


def samples() -> list[Path]:
    """The sample drawings that came with the program."""
    package = Path(linework.__file__).resolve().parent
    folders = (package / "_resources" / "samples", package.parent / "samples")
    return [
        file for folder in folders if folder.is_dir() for file in sorted(folder.glob(f"*{SUFFIX}"))
    ]


class StartCard(QFrame):
    """``begun``: a new sheet is wanted; ``opened`` (path) a file; ``sampled`` (path) a sample."""

    begun = Signal()
    opening = Signal()
    opened = Signal(object)
    sampled = Signal(object)

    def __init__(self, recent: tuple[str, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self.setAccessibleName(say("How to begin"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(18, 14, 18, 14)
        layout.setSpacing(5)
        self._words(layout)
        self._buttons(layout, recent)
        self.setFixedWidth(em(self, 38))

    def _words(self, layout: QVBoxLayout) -> None:
        title = Label(say("An empty sheet"), bold=True)
        how = Label(
            say(
                "Drag a part from the strip below onto the paper; or click on the paper and type"
                " what you want, such as “30 A breaker”. Drag from a terminal to"
                " another to run a cable. What is found stands in the margin at the right."
            )
        )
        how.setWordWrap(True)
        for label in (title, how):
            layout.addWidget(label)

    def _buttons(self, layout: QVBoxLayout, recent: tuple[str, ...]) -> None:
        self._button(layout, say("New: a few questions first…"), self.begun.emit, main=True)
        self._button(layout, say("Open a file…"), self.opening.emit)
        found = samples()
        if found:
            self._heading(layout, say("Look at a sample"))
        for path in found:
            self._button(
                layout, caption(path.stem.replace("-", " ")), self._sends(self.sampled, path)
            )
        there = [Path(item) for item in recent if Path(item).exists()][:4]
        if there:
            self._heading(layout, say("Open again"))
        for path in there:
            self._button(layout, caption(path.name), self._sends(self.opened, path), told=str(path))

    def _heading(self, layout: QVBoxLayout, text: str) -> None:
        label = Label(text)
        label.setContentsMargins(0, 6, 0, 0)
        mark(label, "tone", "quiet")
        layout.addWidget(label)

    def _sends(self, signal, path: Path):
        return lambda: signal.emit(path)

    def _button(
        self, layout: QVBoxLayout, text: str, does, main: bool = False, told: str = ""
    ) -> None:
        button = QPushButton(text)
        button.setAccessibleName(text)
        button.setToolTip(tip(told))
        if main:
            button.setObjectName("main")
        button.clicked.connect(lambda _=False: does())
        layout.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft)
