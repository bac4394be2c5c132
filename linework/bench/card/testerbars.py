"""What an outlet tester shows, as three short bars named by what they span."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QGridLayout, QWidget

from linework.bench.looks import Label, em, mark, tone
from linework.bench.states import told
from linework.picture.inks import Ink
from linework.words import N_, say

if TYPE_CHECKING:
    from linework.study.tester import Reading

SPANS = (N_("line-{neutral}"), N_("line-{ground}"), N_("{neutral}-{ground}"))
_SHOWN = {"lit": N_("lit"), "dim": N_("dark or dim"), "dark": N_("dark")}


class Bar(QWidget):
    """One lamp as a bar: full when lit, half when dim, hollow when dark."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.lamp = "dark"

    def sizeHint(self) -> QSize:
        """As high as a small letter, a few letters wide."""
        return QSize(em(self, 3.4), self.fontMetrics().ascent())

    def minimumSizeHint(self) -> QSize:
        """The same."""
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        """A frame, filled as far as the lamp is lit."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        high = self.fontMetrics().ascent()
        box = QRectF(1, (self.height() - high) / 2 + 1, self.width() - 2, high - 2)
        painter.setPen(QPen(tone(Ink.INK), 1.4))
        painter.drawRoundedRect(box, 2, 2)
        filled = {"lit": 1.0, "dim": 0.5}.get(self.lamp, 0.0)
        if filled:
            part = box.adjusted(2, 2, -2, -2)
            part.setWidth(part.width() * filled)
            painter.fillRect(part, tone(Ink.INK))


class TesterBars(QWidget):
    """The three bars of one outlet with their volts, and what they mean."""

    def __init__(self, family: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.family = family
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setVerticalSpacing(2)
        self.bars = tuple(Bar() for _ in SPANS)
        self.words = tuple(Label() for _ in SPANS)
        for line, (span, bar, word) in enumerate(zip(SPANS, self.bars, self.words, strict=True)):
            name = say(span, family=family)
            bar.setAccessibleName(name)
            word.setAccessibleName(name)
            grid.addWidget(bar, line, 0, Qt.AlignmentFlag.AlignVCenter)
            grid.addWidget(Label(name), line, 1)
            grid.addWidget(word, line, 2)
        self.meaning = Label()
        self.meaning.setWordWrap(True)
        self.meaning.setAccessibleName(say("What the tester says"))
        self.meaning.setContentsMargins(0, 4, 0, 0)
        grid.addWidget(self.meaning, len(SPANS), 0, 1, 3)
        grid.setColumnStretch(2, 1)

    def show_reading(self, reading: Reading) -> None:
        """Show what the instrument would."""
        # Late: it brings the solver's libraries along, for which the window must not wait.
        from linework.findings.explain import sentence_of_tester

        for bar, word, lamp, volts in zip(
            self.bars, self.words, reading.lamps, reading.volts, strict=True
        ):
            bar.lamp = lamp
            bar.setAccessibleDescription(say(_SHOWN[lamp]))
            bar.update()
            word.setText(f"{_volts(volts)}  {say(_SHOWN[lamp])}")
        self.meaning.setText(sentence_of_tester(reading, self.family))
        cut = reading.ground_whole is False
        mark(self.meaning, "tone", "danger" if cut else "")


def _volts(value: float) -> str:
    return told(value, "voltage") if math.isfinite(value) else say("not defined")
