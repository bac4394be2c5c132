"""The levers above the sheet: moving one moves the drawing into that operating state."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QWidget

from linework.bench.levers.box import Follower
from linework.bench.levers.row import LeverRow
from linework.bench.levers.segments import Segments
from linework.bench.levers.summary import Summary
from linework.bench.states import Choice, Key, LeverBoard, report_of, reports_of
from linework.design import Design
from linework.words import say

if TYPE_CHECKING:
    from linework.analysis import Analysis


class Levers(QFrame):
    """``moved`` when the shown state changed by hand, ``refused`` (str) when an interlock held.

    Of one height, whatever it shows: what lies under it is never pushed.
    """

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
        outer = QHBoxLayout(self)
        outer.setContentsMargins(10, 4, 10, 5)
        outer.setSpacing(16)
        self._row, self._summary = LeverRow(), Summary()
        self._row.moved.connect(self.move_lever)
        self._summary.picked.connect(self._case_picked)
        outer.addWidget(self._row, 1)
        outer.addWidget(self._summary)
        self.state, self.fed, self.links = (
            self._summary.state,
            self._summary.fed,
            self._summary.links,
        )
        self.cases = self._summary.cases
        self._keep_height()

    def _keep_height(self) -> None:
        self.setFixedHeight(self._summary.wanted_height() + 9)

    def changeEvent(self, event: QEvent) -> None:
        """Another font or style has other lines."""
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._keep_height()

    # the levers themselves

    @property
    def segments(self) -> dict[Key, Segments]:
        """The levers by what they move."""
        boxes = self._row.boxes.items()
        return {key: box.segments for key, box in boxes if box.segments is not None}

    @property
    def followers(self) -> dict[Key, Follower]:
        """Where what follows stands."""
        return {k: label for box in self._row.boxes.values() for k, label in box.followers.items()}

    def set_board(self, board: LeverBoard) -> None:
        """Show the levers of a drawing; those that were there keep position and place, what is new
        is shown in use."""
        choice = board.fitted({**board.in_use(), **self.choice}, self.choice.keys())
        if board != self.board:
            self.board = board
            self._row.show_board(board)
        self.choice = choice
        self._hold()

    def _hold(self) -> None:
        for key, box in self._row.boxes.items():
            if key in self.choice:
                box.hold(self.choice[key])
        self._row.fit()

    def take_focus(self) -> bool:
        """Put the hand on the first lever; False where there is none."""
        first = next((b for b in self._row.boxes.values() if b.segments is not None), None)
        if first is not None:
            first.take_focus()
        return first is not None

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
        self._row.clear()

    @property
    def key(self) -> str:
        """The key of the shown state, "" before there are levers."""
        return self.board.state_key(self.choice) if self.board.levers else ""

    # what the state is

    def show_analysis(self, design: Design, analysis: Analysis | None, why: str = "") -> None:
        """Tell the shown state and where the followers stand in it; ``why`` nothing is known."""
        reports = reports_of(analysis, self.key)
        report = report_of(analysis, self.key, self.case)
        self._summary.show_cases([r.case for r in reports], self.case)
        for key, label in self.followers.items():
            label.show_position(report.positions.get(key) if report is not None else None)
        if analysis is None or report is None or not self.board.levers:
            waiting = why or say("This state is being worked out…")
            self._summary.show_waiting(waiting if self.board.levers else "")
        else:
            self._summary.show_state(design, analysis, self.key, report, reports)

    def _case_picked(self, case: str) -> None:
        self.case = case
        self.moved.emit()
