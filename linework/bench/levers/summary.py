"""What the shown state is, in three lines of fixed height: its title, what feeds it, its links."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from linework.bench.looks import Combo, Span, SpanLabel, em, tip, tone
from linework.bench.states import feeding, links_text, number_of, part_name
from linework.design import Design
from linework.picture.inks import Ink
from linework.sheet.energised import source_marks
from linework.words import say

if TYPE_CHECKING:
    from linework.analysis import Analysis
    from linework.study.report import StateReport

_WIDE = 30
"""Width in letters m."""
_SLOT = "\0"
"""Where the sources stand in their sentence."""
_JOINED = "\N{NO-BREAK SPACE}"


class Summary(QWidget):
    """``picked`` (case) when a person takes what is not known another way."""

    picked = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        self.state, self.fed, self.links = SpanLabel(), SpanLabel(), SpanLabel()
        self.state.setAccessibleName(say("Shown state"))
        self.fed.setAccessibleName(say("Live from"))
        self.links.setAccessibleName(say("Links"))
        self.cases = Combo(say("What is not known, taken as"))
        told = say("What is not known is judged both ways; this is the way shown")
        self.cases.setToolTip(tip(told))
        self.cases.activated.connect(lambda number: self.picked.emit(self.cases.itemData(number)))
        layout.addWidget(self.state)
        second = QHBoxLayout()
        second.addWidget(self.fed, 1)
        second.addWidget(self.cases, 1)
        layout.addLayout(second)
        layout.addWidget(self.links)
        self.setFixedWidth(em(self, _WIDE))
        self.cases.hide()

    def wanted_height(self) -> int:
        """Three lines, one of them with room for a list."""
        self.cases.ensurePolished()
        line = self.state.fontMetrics().lineSpacing()
        return 2 * (line + 2) + max(line, self.cases.sizeHint().height()) + 2

    def show_waiting(self, text: str) -> None:
        """Nothing is known of the state: say why."""
        self.state.show_line(self.width(), Span(text))
        self.fed.show_line(self.width())
        self.links.show_line(self.width())

    def show_state(
        self,
        design: Design,
        analysis: Analysis,
        key: str,
        report: StateReport,
        all_: list[StateReport],
    ) -> None:
        """Tell the state of a report; ``key`` names it, ``all_`` are its reports in all cases."""
        states = analysis.walked()
        number = number_of(states, report)
        if number and not analysis.partial:
            text = say("state {number} of {count}", number=number, count=len(states))
            self.state.show_line(self.width(), Span(text, bold=True), Span(f": {report.title}"))
        else:
            self.state.show_line(self.width(), Span(report.title, bold=True))
        equal = states[number - 1].key if number else key
        if equal != key:
            self.state.setToolTip(tip(say("Electrically the same: {keys}", keys=equal)))
        half = self.width() // 2 - 6 if len(all_) > 1 else self.width()
        if report.solved:
            self.fed.show_line(half, *_fed(design, report))
            links = Span(links_text(design, all_), hue=tone(Ink.QUIET).name())
        else:
            cause = say("Not solved in this state: {cause}", cause=report.cause)
            self.fed.show_line(half)
            links = Span(cause, hue=tone(Ink.DANGER).name())
        self.links.show_line(self.width(), links)

    def show_cases(self, names: list[str], held: str) -> None:
        """Offer the ways in which what is not known can be taken."""
        self.cases.setVisible(len(names) > 1)
        if names == [self.cases.itemData(i) for i in range(self.cases.count())]:
            return
        self.cases.clear()
        for case in names:
            self.cases.addItem(case or say("as given"), case)
        if held in names:
            self.cases.setCurrentIndex(names.index(held))


def _fed(design: Design, report: StateReport) -> list[Span]:
    """The sources that feed something, each with its letter in its hue."""
    owners = feeding(report)
    if not owners:
        return [Span(say("Nothing is live."))]
    before, after = say("Live from {sources}", sources=_SLOT).split(_SLOT)
    listed = [span for owner in owners for span in (Span(", "), *_source(design, owner))][1:]
    return [Span(before), *listed, Span(after)]


def _source(design: Design, owner: str) -> list[Span]:
    marks, name = source_marks(design), part_name(design, owner).replace(" ", _JOINED)
    if owner not in marks:
        return [Span(name)]
    hue = tone(marks[owner].ink).name()
    return [Span(marks[owner].letter, bold=True, hue=hue), Span(_JOINED + name)]
