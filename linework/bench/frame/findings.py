"""What is done about a finding: told why, gone to, mended, accepted."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject

from linework.bench.file import tell
from linework.bench.judge import rebased
from linework.bench.margin import earlier_acceptances
from linework.bench.states import sound_lines
from linework.design import Change, Design, EditError
from linework.design.edits import accept_finding, drop_element
from linework.words import say

if TYPE_CHECKING:
    from linework.design import Accepted
    from linework.findings.model import Finding

BenchWindow = Any
"""The window. It imports this module, so that its name cannot be taken from there."""


class Findings(QObject):
    """One method for each thing that the margin asks about a finding."""

    def __init__(self, window: BenchWindow) -> None:
        super().__init__(window)
        self._window = window

    @property
    def _design(self) -> Design:
        return self._window.history.design

    def explain(self, finding: Finding) -> None:
        """Say why a finding is one, and what is sound at its places all the same."""
        judging = self._window.judging
        analysis = judging.analysis if judging.up_to_date else None
        sound = [line for place in finding.subjects for line in sound_lines(analysis, place)]
        self._window.why.explain(finding, self._design.settings.family, tuple(dict.fromkeys(sound)))

    def choose(self, finding: Finding) -> None:
        """Show where it is, and choose what it is about."""
        self._window.view.bring_into_view(finding.subjects)
        there = [key for key in finding.subjects if key in self._design]
        if len(there) > 1 or not self._window.card.isVisible():
            self._window.view.sheet_scene.choose(there)

    def show_state(self, finding: Finding) -> None:
        """Move to the next arrangement in which a finding holds, as few levers as can be."""
        if finding.standing is None:
            return
        levers, cubes = self._window.levers, finding.standing.cubes
        choice = levers.choice
        here = (n for n, cube in enumerate(cubes, 1) if cube <= set(choice.items()))
        wanted = dict(cubes[next(here, 0) % len(cubes)])
        levers.set_choice(levers.board.fitted({**choice, **wanted}, wanted))
        self.choose(finding)

    def mend(self, change: Change) -> None:
        """Carry out a mend that was proven on a copy of the drawing."""
        if self._window.carry_out(lambda: rebased(change, self._design)):
            self._window.top.tell(say("Mended: {title}. Undo takes it back.", title=change.title))

    def accept(self, finding: Finding, reason: str, by: str, date: str) -> None:
        """Record why a finding is accepted, in place of an acceptance that no longer holds."""
        known = earlier_acceptances(self._window.judging.analysis)
        earlier = known.get((finding.rule, finding.subjects))
        try:
            self._window.history.do(
                accept_finding(
                    self._design,
                    finding.rule,
                    finding.subjects,
                    finding.fingerprint,
                    reason=reason,
                    by=by,
                    date=date,
                    instead_of=(earlier.id,) if earlier is not None else (),
                )
            )
        except EditError as fault:
            self._window.margin.refuse_acceptance(finding, str(fault))
            return
        self._window.margin.by = by
        self._window.filing.remember(name=by)

    def take_back(self, accepted: Accepted) -> None:
        """Let an accepted finding stand among the others again."""
        self._window.carry_out(lambda: drop_element(self._design, accepted.id))

    def tell_trouble(self) -> None:
        """Say why nothing was checked."""
        trouble = self._window.judging.trouble
        if trouble is not None:
            details = trouble.details or trouble.text
            tell(say("Why nothing was checked"), trouble.text, details, self._window)
