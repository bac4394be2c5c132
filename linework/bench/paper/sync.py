"""The only code that makes, changes and removes the items of the scene.

The sheet on the scene is what :func:`~linework.sheet.compose.compose` lays out, so that screen
and paper are one. What a change touches is shown at once (see quick); as soon as the hand rests
the sheet is laid out from scratch.
"""

from __future__ import annotations

from dataclasses import replace
from time import monotonic
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer

from linework.bench.paper.pieces import Piece, pieces_of
from linework.bench.paper.quick import Patch
from linework.bench.paper.scene import SheetScene
from linework.design import Change, Design, History, Part, Run, Seat
from linework.sheet.compose import compose
from linework.sheet.energised import SourceMark, source_marks, state_named
from linework.sheet.laid import Options

if TYPE_CHECKING:
    from linework.analysis import Analysis
    from linework.study.report import StateReport

_LEAST_REST_S = 0.12
_REST_FACTOR = 2.0
"""The longer it takes to lay out a sheet, the longer the hand must rest before it is done."""


class Sync:
    """Keeps a scene equal to one sheet of the design of a history, whose changes it is told."""

    def __init__(self, scene: SheetScene, history: History, sheet: int = 1) -> None:
        self.scene = scene
        self.history = history
        self.sheet = sheet
        self.date = ""
        self.settled = False
        self._pieces: dict[str, Piece] = {}
        self._analysis: Analysis | None = None
        self._state = ""
        self._given: tuple[Analysis | None, str, str] = (None, "", "")
        self._marks: dict[str, SourceMark] = {}
        self._took_s = 0.0
        self._held = False
        self._timer = QTimer(scene)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._rested)
        self.rebuild()

    @property
    def design(self) -> Design:
        """The design that is shown."""
        return self.history.design

    def close(self) -> None:
        """Lay nothing out any more: another takes the scene over."""
        self._timer.stop()

    # what is shown

    def rebuild(self) -> None:
        """Remove every item and show the sheet from scratch."""
        self.scene.clear_pieces()
        self.settle()

    def settle(self) -> None:
        """Lay the sheet out from scratch now; only what differs is touched."""
        begun = monotonic()
        options = Options(sheet=self.sheet, date=self.date)
        layout = compose(self.design, self._analysis, self._state, options)
        self._pieces = pieces_of(self.design, layout)
        self.scene.lay(layout, self._pieces)
        self._timer.stop()
        self._marks = self._source_marks()
        self.settled = True
        self._took_s = monotonic() - begun

    def show_analysis(self, analysis: Analysis | None, state_key: str = "", case: str = "") -> None:
        """Show what is live in a state, and the findings' flags; None: the bare drawing.

        ``case``: of several cases of the state the one to be shown; "" takes the first.
        """
        if self._given[0] is analysis and self._given[1:] == (state_key, case) and self.settled:
            return
        self._given = analysis, state_key, case
        self._analysis = None if analysis is None else _with_case_first(analysis, case)
        self._state = state_key if analysis is not None else ""
        if self._held:
            self.settled = False
        else:
            self.settle()

    def show_sheet(self, number: int) -> None:
        """Show another sheet of the design."""
        self.sheet = number
        self.rebuild()

    def hold(self, held: bool) -> None:
        """While the hand is busy nothing under it is laid out anew."""
        self._held = held
        if not held and not self.settled:
            self._settle_soon()

    # following the design

    def follow(self, change: Change) -> None:
        """Show a change that was made in the design."""
        self.settled = False
        layout = self.scene.layout
        state, marks = self._shown_state(), self._source_marks()
        if layout is None or not _is_simple(change) or self._recolored(marks):
            self.settle()
            return
        patch = Patch(self.design, layout, self._pieces, self.sheet, state, marks)
        layout, self._pieces = patch.patched(change)
        self.scene.lay(layout, self._pieces)
        if not self._held:
            self._settle_soon()

    def _shown_state(self) -> StateReport | None:
        reports = () if self._analysis is None else self._analysis.reports
        return state_named(reports, self._state)

    def _source_marks(self) -> dict[str, SourceMark]:
        return source_marks(self.design) if self._shown_state() is not None else {}

    def _recolored(self, marks: dict[str, SourceMark]) -> bool:
        """Whether a source, where another came or went, has another letter or color than shown."""
        shown = {key: mark for key, mark in self._marks.items() if key in self.design}
        return any(marks.get(key) != mark for key, mark in shown.items())

    def _settle_soon(self) -> None:
        self._timer.start(round(1000 * max(_LEAST_REST_S, _REST_FACTOR * self._took_s)))

    def _rested(self) -> None:
        if not self._held and not self.settled:
            self.settle()


def _with_case_first(analysis: Analysis, case: str) -> Analysis:
    reports = sorted(analysis.reports, key=lambda report: report.case != case)
    return replace(analysis, reports=tuple(reports))


def _is_simple(change: Change) -> bool:
    """Whether a change is of parts, runs and seats alone, so that little else can be altered."""
    elements = [element for pair in change.pairs.values() for element in pair]
    return all(element is None or isinstance(element, Part | Run | Seat) for element in elements)
