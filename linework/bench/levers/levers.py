"""The levers above the sheet: moving one moves the drawing into that operating state."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from linework.bench.levers.segments import Segments
from linework.bench.looks import Combo, Flow, Label, Span, SpanLabel, em, mark, tip, tone
from linework.bench.states import (
    Choice,
    Key,
    Lever,
    LeverBoard,
    feeding,
    links_text,
    number_of,
    part_name,
    report_of,
    reports_of,
)
from linework.design import Design
from linework.sheet.energised import source_marks
from linework.words import say

if TYPE_CHECKING:
    from linework.analysis import Analysis
    from linework.study.report import StateReport


_SLOT = "\0"
"""Where the sources stand in their sentence."""
_JOINED = "\N{NO-BREAK SPACE}"


class Levers(QFrame):
    """``moved`` when the shown state changed by hand, ``refused`` (str) when an interlock held."""

    moved = Signal()
    refused = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("band")
        self.setAccessibleName(say("Levers"))
        self.board = LeverBoard()
        self.choice: dict[Key, str] = {}
        self.case = ""
        self._pinned = False
        self.segments: dict[Key, Segments] = {}
        self.followers: dict[Key, Label] = {}
        outer = QHBoxLayout(self)
        outer.setContentsMargins(10, 4, 10, 5)
        outer.setSpacing(16)
        self._row = QWidget()
        self._row.setAccessibleName(say("Levers"))
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self._row.setSizePolicy(policy)
        self._flow = Flow(self._row, gap_x=18, gap_y=4)
        outer.addWidget(self._row, 1)
        outer.addWidget(self._summary())
        self._say_none()

    def _summary(self) -> QWidget:
        box = QWidget()
        box.setFixedWidth(em(self, 26))
        layout = QVBoxLayout(box)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        self.state, self.fed, self.links = SpanLabel(), SpanLabel(), Label()
        self.state.setAccessibleName(say("Shown state"))
        self.fed.setAccessibleName(say("Live from"))
        self.links.setAccessibleName(say("Links"))
        self.cases = Combo(say("What is not known, taken as"))
        told = say("What is not known is judged both ways; this is the way shown")
        self.cases.setToolTip(tip(told))
        self.cases.activated.connect(self._case_picked)
        for label in (self.state, self.fed, self.links):
            label.setWordWrap(True)
            layout.addWidget(label)
        mark(self.links, "tone", "quiet")
        layout.addWidget(self.cases)
        layout.addStretch(1)
        self.cases.hide()
        return box

    # the levers themselves

    def set_board(self, board: LeverBoard) -> None:
        """Show the levers of a drawing; those that were there keep their position."""
        choice = board.fitted(self.choice)
        if board != self.board or not self.segments:
            self.board = board
            self._rebuild()
        self.choice = choice
        self._hold()

    def _rebuild(self) -> None:
        while (item := self._flow.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        self.segments, self.followers = {}, {}
        for lever in self.board.levers:
            beside = [f for f in self.board.followers if f.key[0] == lever.key[0]]
            self._flow.addWidget(self._lever(lever, beside))
        moved = {lever.key[0] for lever in self.board.levers}
        for follower in self.board.followers:
            if follower.key[0] not in moved:
                self._flow.addWidget(self._titled(follower, self._follower(follower)))
        if not self.board.levers and not self.board.followers:
            self._say_none()
        self._row.updateGeometry()

    def _say_none(self) -> None:
        label = Label(say("No levers yet: a source, a plug or a switch on the sheet makes one."))
        mark(label, "tone", "quiet")
        self._flow.addWidget(label)

    def _titled(self, lever: Lever, *pieces: QWidget) -> QWidget:
        box = QWidget()
        layout = QVBoxLayout(box)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        title = Label(_name(lever))
        mark(title, "tone", "quiet")
        layout.addWidget(title)
        row = QHBoxLayout()
        row.setSpacing(6)
        for piece in pieces:
            row.addWidget(piece)
        row.addStretch(1)
        layout.addLayout(row)
        layout.addStretch(1)
        return box

    def _lever(self, lever: Lever, beside: list[Lever]) -> QWidget:
        segments = Segments(_name(lever), lever.positions, lever.words)
        segments.moved.connect(lambda position: self.move_lever(lever.key, position))
        self.segments[lever.key] = segments
        return self._titled(lever, segments, *map(self._follower, beside))

    def _follower(self, lever: Lever) -> QWidget:
        label = Label()
        label.setAccessibleName(_name(lever))
        label.setContentsMargins(0, 3, 0, 3)
        self.followers[lever.key] = label
        return label

    def _hold(self) -> None:
        for key, segments in self.segments.items():
            segments.hold(self.choice[key])

    def move_lever(self, key: Key, position: str) -> None:
        """Move one lever, if no interlock holds it."""
        reason = self.board.why_not(self.choice, key, position)
        if reason:
            self.refused.emit(reason)
            return
        self.set_choice({**self.choice, key: position})

    def set_choice(self, choice: Choice, by_hand: bool = True) -> None:
        """Move all levers at once."""
        self._pinned = self._pinned or by_hand
        self.choice = self.board.fitted(choice)
        self._hold()
        self.moved.emit()

    @property
    def pinned(self) -> bool:
        """Whether a person has chosen a state since the sheet was opened."""
        return self._pinned

    def forget(self) -> None:
        """Begin anew, as for another sheet."""
        self.board, self.choice, self.case, self._pinned = LeverBoard(), {}, "", False
        self._rebuild()

    @property
    def key(self) -> str:
        """The key of the shown state, "" before there are levers."""
        return self.board.state_key(self.choice) if self.board.levers else ""

    # what the state is

    def show_analysis(self, design: Design, analysis: Analysis | None) -> None:
        """Tell the shown state and where the followers stand in it."""
        reports = reports_of(analysis, self.key)
        report = report_of(analysis, self.key, self.case)
        self._show_cases(reports)
        for lever in self.board.followers:
            self._show_follower(lever, report)
        if analysis is None or report is None or not self.board.levers:
            self.state.setText(say("This state is being worked out…") if self.board.levers else "")
            self.fed.setText("")
            self.links.setText("")
            return
        self._tell_state(analysis, report)
        self.fed.show_spans(*_fed(design, report))
        self.links.setText(links_text(design, reports))

    def _tell_state(self, analysis: Analysis, report: StateReport) -> None:
        states = analysis.walked()
        number = number_of(states, report)
        if number and not analysis.partial:
            text = say("state {number} of {count}", number=number, count=len(states))
            self.state.show_spans(Span(text, bold=True), Span(f": {report.title}"))
        else:
            self.state.show_spans(Span(report.title, bold=True))
        equal = states[number - 1].key if number else self.key
        told = say("Electrically the same: {keys}", keys=equal) if equal != self.key else ""
        self.state.setToolTip(tip(told))

    def _show_follower(self, lever: Lever, report: StateReport | None) -> None:
        position = report.positions.get(lever.key) if report is not None else None
        if position is None:
            self.followers[lever.key].setText("…")
            return
        word = lever.word(position)
        self.followers[lever.key].setText(say("{word} (moves by itself)", word=word))

    def _show_cases(self, reports: list[StateReport]) -> None:
        names = [r.case for r in reports]
        self.cases.setVisible(len(names) > 1)
        if names == [self.cases.itemData(i) for i in range(self.cases.count())]:
            return
        self.cases.clear()
        for case in names:
            self.cases.addItem(case or say("as given"), case)
        if self.case in names:
            self.cases.setCurrentIndex(names.index(self.case))

    def _case_picked(self, number: int) -> None:
        self.case = self.cases.itemData(number)
        self.moved.emit()


def _name(lever: Lever) -> str:
    return f"{lever.designation} {lever.title}".strip()


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
