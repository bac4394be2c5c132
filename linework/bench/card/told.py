"""What is told below the ratings: help, what holds in the shown state, what is sound."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QSizePolicy, QVBoxLayout

from linework.bench.card.testerbars import TesterBars
from linework.bench.looks import Label, mark
from linework.bench.states import foot, sound_lines
from linework.design import Design
from linework.kinds import Rating, Values
from linework.words import say

if TYPE_CHECKING:
    from linework.analysis import Analysis
    from linework.study.report import StateReport


class Told(QVBoxLayout):
    """``report`` and ``analysis``: what is known, None while it is not. ``changed``: its height."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.report: StateReport | None = None
        self.analysis: Analysis | None = None
        self.bars: list[TesterBars] = []
        self._bars_box = QVBoxLayout()
        self.help = self._label(say("Help"), "quiet")
        line = QFrame()
        line.setFrameShape(QFrame.Shape.HLine)
        self.addWidget(line)
        self.foot = self._label(say("In the shown state"))
        self.addLayout(self._bars_box)
        self.sound = self._label(say("Sound here, and why"), "sound")
        self.sound.hide()

    def _label(self, name: str, tone: str = "") -> Label:
        label = Label()
        label.setWordWrap(True)
        label.setAccessibleName(name)
        label.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        if tone:
            mark(label, "tone", tone)
        self.addWidget(label)
        return label

    def forget(self) -> None:
        """Nothing is known of the design that is worked on now."""
        self.report = self.analysis = None

    def tell(self, design: Design, element_id: str) -> None:
        """Tell what is known of an element."""
        self.foot.setText("\n".join(foot(design, element_id, self.report)))
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
