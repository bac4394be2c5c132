"""A situation judged in all its states, and what is asked of the verdict."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from linework.analysis import Analysis, analyse, cases
from linework.circuit import State, expand
from linework.design import Draft, Run
from linework.findings.model import Finding, Level
from linework.study.report import StateReport, state_key
from tests.cases.keys import KEYS, NO_RULE
from tests.enumeration import all_states
from tests.findings.told import flat


class Judged:
    """The analysis of a situation."""

    def __init__(self, draft: Draft) -> None:
        self.draft = draft
        self.analysis: Analysis = analyse(draft.design)
        self.findings = flat(self.analysis.findings)
        self._causes = {id(c): f for f in self.findings for c in f.consequences}
        self.broken = [gap for gap in self.analysis.gaps if "error of its own" in gap.reason]

    def levels(self, finding: Finding) -> set[str]:
        """The words of its level and of the levels of what it is a consequence of."""
        cause = self._causes.get(id(finding))
        return {finding.level.word} | (self.levels(cause) if cause is not None else set())

    @cached_property
    def states(self) -> list[tuple[str, State]]:
        """Every state of every case with its key."""
        design = self.draft.design
        circuits = [expand(design, settled) for settled in cases(design)[0]]
        return [
            (state_key(design, circuit, state), state)
            for circuit in circuits
            for state in all_states(circuit).states
        ]

    def report(self, *words: str) -> StateReport:
        """The first state of rest whose key has all these words."""
        key = next(k for k, state in self.states if state.passing is None and _has(k, words))
        return analyse(self.draft.design, shown=key).reports[0]

    def said(self, key: str, at: str = "", state: str = "") -> list[Finding]:
        """The findings that say a key, at one of these places, in a state of these words."""
        names = set(at.split())
        ids = () if key in NO_RULE else KEYS[key]
        return [
            f
            for f in self.findings
            if f.rule in ids
            and (not names or names & self.places(f))
            and (not state or self._in(f, state.split()))
        ]

    def finds(self, key: str, levels: str, at: str, state: str = "") -> Finding:
        """The finding that says a key; it must be there, at this level and place, in this state."""
        fitting = [f for f in self.said(key, at, state) if self.levels(f) & set(levels.split())]
        told = [(f.rule, f.level.word, f.where, f.states) for f in self.findings]
        assert fitting, f"{key} at {at} in '{state}' is not among {told}"
        return fitting[0]

    def lacks(self, *keys: str, at: str = "", state: str = "", up_to: Level | None = None) -> None:
        """Nothing says these keys, beyond a level if one is given."""
        least = Level.NOTE if up_to is None else Level(up_to + 1)
        for key in keys:
            wrong = [f for f in self.said(key, at, state) if f.level >= least]
            assert not wrong, [(f.rule, f.where, f.states, f.message) for f in wrong]

    def silent(self) -> None:
        """No danger, no warning, and no rule that broke."""
        assert self.analysis.silent, [
            (f.rule, f.where, f.message) for f in self.analysis.open_findings
        ]
        assert not self.broken

    def places(self, finding: Finding) -> set[str]:
        """Where a finding is: its parts and runs, the ends of its runs with the outlets in which
        their plugs are, what its text names."""
        design = self.draft.design
        ends = {
            end.part
            for subject in finding.subjects
            if isinstance(run := design.get(subject), Run)
            for end in (run.a, run.b)
        }
        plugs = {end for end in ends if "plug" in design.kind(design.part(end)).roles}
        hosts = {seat.host for part in plugs for seat in design.seats_of(part)}
        named = {word.strip(".,;:()") for word in finding.message.split()}
        known = {p.designation for p in design.parts} | {r.designation for r in design.runs}
        return set(finding.where) | ends | hosts | (named & known)

    def _in(self, finding: Finding, words: list[str]) -> bool:
        """Whether it holds in some state of these words, one of rest unless they say "while"."""
        standing, moving = finding.standing, "while" in words
        return standing is None or any(
            _has(key, words) and standing.holds(state.positions)
            for key, state in self.states
            if moving or state.passing is None
        )


def _has(key: str, words: Iterable[str]) -> bool:
    return set(words) <= set(key.split())
