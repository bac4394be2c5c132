"""Cords that end in a plug at both ends: whichever is pulled out last has bare live pins."""

from __future__ import annotations

from dataclasses import dataclass

from linework.findings.model import Evidence, Hit, Level
from linework.findings.view import Look, View
from linework.study.answers.downstream import downstream
from linework.study.situation import Situation
from linework.words import N_

MALE = N_(
    "{run} has a plug at both ends, {plugs}: pulled out, one has bare live pins, from {source}; in"
    " its outlet it feeds that circuit backwards, past its breaker."
)


@dataclass(frozen=True)
class MaleCord:
    """A run with its plugs; the sources on it, and what it feeds."""

    run: str
    plugs: tuple[str, ...]
    owners: tuple[str, ...]
    behind: frozenset[str]

    def hit(self, view: View, look: Look) -> Hit:
        """What is said of it; all that it feeds hangs on it."""
        words = {
            "run": view.name(self.run),
            "plugs": ", ".join(map(view.name, self.plugs)),
            "source": ", ".join(map(view.name, self.owners)),
        }
        sources = (s for s in look.studies.circuit.sources if s.owner in self.owners)
        evidence = Evidence(
            N_("voltage on the pins"), max(s.data.volts for s in sources), "voltage"
        )
        subjects = (self.run, *self.plugs)
        return look.hit(
            Level.DANGER, subjects, MALE, words, (evidence,), explains=self.behind | {*subjects}
        )


def male_cords(view: View, look: Look) -> list[MaleCord]:
    """Those on which some source lies."""
    situation, found = look.studies.situation, []
    for run in view.design.runs:
        plugs = (run.a.part, run.b.part)
        owners = _feeding(situation, run.id) if all(view.kind(p).plugs for p in plugs) else ()
        if owners:
            behind = downstream(situation, (run.id, *plugs))
            found.append(MaleCord(run.id, plugs, owners, behind))
    return found


def _feeding(situation: Situation, run: str) -> tuple[str, ...]:
    branches = (situation.circuit.branches[i] for i in situation.circuit.branches_of.get(run, ()))
    owners = {s.owner for b in branches for n in (b.a, b.b) for s in situation.feeds(n)}
    return tuple(sorted(owners))
