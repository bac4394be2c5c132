"""What is told below the ratings: help, what holds in the shown state, what is sound."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QSizePolicy, QVBoxLayout, QWidget

from linework.bench.card.testerbars import TesterBars
from linework.bench.looks import Column, Label, em, mark, true_height
from linework.bench.states import foot, sound_lines
from linework.design import Design
from linework.kinds import Rating, Values
from linework.words import say

if TYPE_CHECKING:
    from linework.analysis import Analysis
    from linework.study.report import StateReport


class Told(Column):
    """``report`` and ``analysis``: what is known, None while it is not; ``why``: what keeps it from
    becoming known. ``changed``: its height. Where it has no room it scrolls: what comes in moves
    nothing above it."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__(say("What is told of it"))
        self.report: StateReport | None = None
        self.analysis: Analysis | None = None
        self.why = ""
        self.bars: list[TesterBars] = []
        holder = QWidget()
        self._lines = QVBoxLayout(holder)
        self._lines.setContentsMargins(0, 0, 4, 0)
        self._lines.setSpacing(5)
        self._bars_box = QVBoxLayout()
        self.help = self._label(say("Help"), "quiet")
        self.help.hide()
        line = QFrame()
        line.setFrameShape(QFrame.Shape.HLine)
        self._lines.addWidget(line)
        self.foot = self._label(say("In the shown state"))
        self._lines.addLayout(self._bars_box)
        self.sound = self._label(say("Sound here, and why"), "sound")
        self.sound.hide()
        self._lines.addStretch(1)
        self.setWidget(holder)
        self.setMinimumHeight(em(self, 3))

    def wanted_height(self, width: int) -> int:
        """How high it is with everything it says, at a width."""
        held = self.widget()
        return true_height(held, self._lines, width) if held is not None else 0

    def spare_height(self) -> int:
        """So much more it may come to say: help on a rating, and what is not known yet."""
        lines = 4 if self.report is not None else 8
        return lines * self.fontMetrics().lineSpacing()

    def _label(self, name: str, tone: str = "") -> Label:
        label = Label()
        label.setWordWrap(True)
        label.setAccessibleName(name)
        label.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        if tone:
            mark(label, "tone", tone)
        self._lines.addWidget(label)
        return label

    def forget(self) -> None:
        """Nothing is known of the design that is worked on now."""
        self.report = self.analysis = None

    def tell(self, design: Design, element_id: str) -> None:
        """Tell what is known of an element."""
        lines = foot(design, element_id, self.report, self.why)
        self.foot.setText("\n".join(lines))
        reasons = sound_lines(self.analysis, element_id)
        self.sound.setText("\n".join(f"✓ {line}" for line in reasons))
        self.sound.setVisible(bool(reasons))
        self._show_bars(element_id, design.settings.family)
        self.changed.emit()

    def _show_bars(self, element_id: str, family: str) -> None:
        while self.bars:
            old = self.bars.pop()
            self._bars_box.removeWidget(old)
            old.deleteLater()
        reading = self.report.reading(element_id) if self.report else None
        if reading is not None:
            bars = TesterBars(family)
            bars.show_reading(reading)
            self._bars_box.addWidget(bars)
            bars.show()  # now, so that its height counts
            self.bars.append(bars)

    def help_with(self, key: str, rating: Rating, values: Values, family: str) -> None:
        """Tell what a rating means, and where its value is from if nobody gave it."""
        text = say(rating.help, family=family) if rating.help else ""
        if not values.given(key) and not rating.quiet and values.has(key):
            source = say(rating.source.text, family=family)
            text = f"{text} " + say("Assumed: {source}.", source=source)
        self.help.setText(text.strip())
        self.help.setVisible(bool(text.strip()))
        self.changed.emit()
