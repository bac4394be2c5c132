"""Keeps the verdict up with the drawing: when to ask, what to show meanwhile, what holds."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from linework.bench.judge.fingerprint import electrical
from linework.bench.judge.worker import Judge, Trouble
from linework.bench.levers import Levers
from linework.bench.process import Judged, Mended
from linework.bench.states import liveliest, report_of
from linework.design import Accepted, Change, Design
from linework.storage import dumps
from linework.words import N_, say

if TYPE_CHECKING:
    from linework.analysis import Analysis
    from linework.design import Element
    from linework.study.report import StateReport

IDLE_MS = 150
"""So long after the last change the design is sent off."""
PARTIAL_MS = 600
"""So long a verdict on the shown state alone waits for the whole one, lest the margin flickers."""

_PHASES = {
    "shown": N_("checking this state…"),
    "all": N_("checking all states…"),
    "mends": N_("trying mends…"),
}


class Judging(QObject):
    """``changed``: analysis, shown state or trouble are other than they were; ``progressed``:
    only what is being done is."""

    changed = Signal()
    progressed = Signal()
    mended = Signal(str, object)
    unmended = Signal()

    def __init__(self, judge: Judge, levers: Levers, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.judge, self.levers = judge, levers
        self.trouble: Trouble | None = None
        self.phase = ""
        self.cautions: frozenset[str] = frozenset()
        self._design = Design()
        self._whole: Analysis | None = None
        self._partial: Analysis | None = None
        self._extra: dict[str, tuple[StateReport, ...]] = {}
        self._failed: dict[str, str] = {}
        self._joined: tuple[object, object, Analysis | None] = (None, None, None)
        self._print: frozenset[Element] = frozenset()
        self._outdated = True
        self._idle = QTimer(self, singleShot=True, interval=IDLE_MS)
        self._idle.timeout.connect(self._ask)
        self._patience = QTimer(self, singleShot=True, interval=PARTIAL_MS)
        self._patience.timeout.connect(self.changed)
        judge.judged.connect(self._judged)
        judge.mended.connect(self._mended)
        judge.trouble.connect(self._troubled)
        judge.working.connect(self._working)
        levers.moved.connect(self._state_moved)

    # what holds

    @property
    def analysis(self) -> Analysis | None:
        """The newest analysis, with the reports of all states that were looked at."""
        found = self._whole
        if self._partial is not None and not self._patience.isActive():
            found = self._partial  # newer, and the whole one is long in coming
        if found is None:
            return None
        if found is not self._whole or not self._extra:
            return found
        whole, extra, joined = self._joined
        if whole is not found or extra is not self._extra:
            more = [r for reports in self._extra.values() for r in reports]
            joined = replace(found, reports=(*found.reports, *more))
            self._joined = found, self._extra, joined
        return joined

    @property
    def report(self) -> StateReport | None:
        """The report of the shown state and case."""
        return report_of(self.analysis, self.levers.key, self.levers.case)

    @property
    def up_to_date(self) -> bool:
        """Whether the analysis is one of the design as it stands, and the whole of it."""
        return self._whole is not None and not self._outdated and self.trouble is None

    def why_waiting(self) -> str:
        """Why nothing is known of the shown state where nothing is coming, "" while it is."""
        if self.trouble is not None:
            return self.trouble.text
        return self._failed.get(self.levers.key, "") if self.up_to_date else ""

    def progress(self) -> str:
        """What goes on, in words."""
        if self.trouble is not None:
            return ""
        if self._idle.isActive():
            return say(_PHASES["all"])
        return say(_PHASES[self.phase]) if self.phase in _PHASES else ""

    # following the drawing

    def take(self, design: Design) -> None:
        """Judge another design."""
        self._design = design
        self._forget()
        self.levers.forget()
        self._print = electrical(design)
        self._ask()
        self.changed.emit()

    def follow(self, change: Change) -> None:
        """Judge it again, unless only places or acceptances changed."""
        now = electrical(self._design)
        if now == self._print:
            if any(isinstance(e, Accepted) for pair in change.pairs.values() for e in pair):
                self._whole, self._partial = map(self._accepted, (self._whole, self._partial))
                self.changed.emit()
            return
        self._print = now
        self._outdated = True
        self._idle.start()
        self.unmended.emit()
        self.progressed.emit()

    def _accepted(self, analysis: Analysis | None) -> Analysis | None:
        """The analysis under the acceptances of the drawing as it stands."""
        if analysis is None:
            return None
        # Late: it brings the solver's libraries along, for which the window must not wait.
        from linework.analysis import accepted_anew

        return accepted_anew(analysis, self._design.accepted, self.cautions)

    def invalidate(self) -> None:
        """Nothing holds any more; judge it again."""
        self._forget()
        self.judge.forget()
        self._ask()
        self.changed.emit()

    def again(self) -> None:
        """After a trouble: try once more."""
        self.trouble = None
        self.judge.again()
        self.changed.emit()

    def _forget(self) -> None:
        self._whole = self._partial = None
        self._extra, self._failed = {}, {}
        self._outdated, self.trouble = True, None
        self._patience.stop()
        self.unmended.emit()

    def _ask(self) -> None:
        self._idle.stop()
        if not self.up_to_date:
            # The same bytes may have been judged before: undone and done again, opened once more.
            self.judge.forget()
        self.judge.ask(dumps(self._design), self.levers.key)

    def _state_moved(self) -> None:
        """Another state is shown; what is not known of it by its own name is asked for."""
        if not self._is_told(self.analysis) and not self._idle.isActive():
            self._ask()
        self.changed.emit()

    # hearing

    def _judged(self, message: Judged) -> None:
        self.trouble = None
        self.cautions = message.cautions
        first = not self.levers.board.levers
        self.levers.set_board(message.board)
        if message.analysis.partial:
            self._take_partial(message.analysis)
        else:
            # The drawing's acceptances may be newer than those that were sent off.
            self._whole = self._accepted(message.analysis)
            self._partial, self._extra, self._failed = None, {}, {}
            self._outdated = self._idle.isActive()
            self._patience.stop()
            if first:
                self._show_something_live()
            if not self._idle.isActive() and not self._is_told(self._whole):
                self._ask()
        self.changed.emit()

    def _is_told(self, known: Analysis | None) -> bool:
        """Whether there is a report of the shown state by its own name, or none is needed."""
        key = self.levers.key
        return not key or (known is not None and any(r.key == key for r in known.reports))

    def _take_partial(self, analysis: Analysis) -> None:
        # Of the same drawing as the whole one at hand? Then it only adds a state.
        if self._whole is not None and self.judge.known:
            self._extra = {**self._extra, self.levers.key: analysis.reports}
            if not self._is_told(analysis):
                reasons = dict.fromkeys(gap.reason for gap in analysis.gaps)
                self._failed[self.levers.key] = "; ".join(reasons) or say(
                    "This state could not be worked out."
                )
            return
        self._partial = self._accepted(analysis)
        self._patience.start()

    def _show_something_live(self) -> None:
        """When a drawing is first shown, show the state in which most is live. From then on levers
        move by hand alone."""
        best = liveliest(self._whole) if self._whole is not None else None
        if best is not None and any(load.sources for load in best.loads):
            choice = {(part, name): position for part, name, position in best.free}
            if self.levers.board.fitted(choice) != self.levers.choice:
                self.levers.set_choice(choice, by_hand=False)

    def _mended(self, message: Mended) -> None:
        if not self._idle.isActive():
            self.mended.emit(message.fingerprint, replace(message.change, title=message.title))

    def _troubled(self, trouble: Trouble) -> None:
        self.trouble = trouble
        self._whole = self._partial = None
        self._extra, self._failed = {}, {}
        self._outdated = True
        self.changed.emit()

    def _working(self, phase: str) -> None:
        self.phase = phase
        self.progressed.emit()
