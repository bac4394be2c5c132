"""A situation, what is expected of its verdict, and the verdict held against it.

Counted as the situations' own notes suggest: an expected danger or warning is hit where a finding
of its key stands at its place, in its state, at its level (or one also accepted; a finding listed
under its cause also counts with the level of the cause). False alarms are what must not be
found and, where a situation is fine, any danger or warning in scope.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from linework.design import Draft
from linework.findings.model import Finding, Level
from tests.cases.judged import Judged
from tests.cases.keys import SCOPES, why_unsaid


@dataclass(frozen=True)
class Number:
    """A figure of the situation: what reads it off the verdict, and how far it may be off."""

    value: float
    within: float
    read: Callable[[Judged, Finding], float]

    def fits(self, found: float) -> bool:
        """Whether a figure is close enough."""
        return abs(found - self.value) <= self.within


@dataclass(frozen=True)
class Expected:
    """A finding that must be there. ``levels``: words, ``at``: designations, any of which do.

    ``also``: other keys that say the same.
    """

    key: str
    levels: str
    at: str
    state: str = ""
    also: tuple[str, ...] = ()
    number: Number | None = None

    @property
    def counts(self) -> bool:
        """Whether it is a danger or a warning, not just worth knowing."""
        return self.levels != "note"

    def found(self, judged: Judged) -> Finding | None:
        """The finding that says it, if any."""
        return next(
            (
                finding
                for key in (self.key, *self.also)
                for finding in judged.said(key, self.at, self.state)
                if judged.levels(finding) & set(self.levels.split())
            ),
            None,
        )

    @property
    def why_missed(self) -> str:
        """The reason, where no rule is there for it."""
        return why_unsaid(self.key)


@dataclass(frozen=True)
class Never:
    """What must not be found, up to a level that is harmless."""

    key: str
    at: str = ""
    state: str = ""
    up_to: Level | None = None

    def found(self, judged: Judged) -> list[Finding]:
        """The false alarms."""
        least = Level.NOTE if self.up_to is None else Level(self.up_to + 1)
        return [f for f in judged.said(self.key, self.at, self.state) if f.level >= least]


@dataclass(frozen=True)
class Verdict:
    """What came of a situation."""

    hit: tuple[Expected, ...]
    missed: tuple[Expected, ...]
    alarms: tuple[str, ...]
    figures: tuple[tuple[Expected, float], ...] = ()

    @property
    def off(self) -> tuple[tuple[Expected, float], ...]:
        """The figures outside what they may be off."""
        return tuple(
            (e, x)
            for e, x in self.figures
            if e.number and abs(x - e.number.value) > e.number.within
        )


@dataclass(frozen=True)
class Case:
    """A situation. ``truth``: fault, fine or mixed; ``surprising``: the experts' answer is the
    opposite of what most people say; ``scope``: the families whose findings count."""

    family: str
    truth: str
    draw: Callable[[], Draft]
    expected: tuple[Expected, ...] = ()
    never: tuple[Never, ...] = ()
    surprising: bool = False
    scope: tuple[str, ...] = ("all",)
    doubtful: bool = False
    """The experts' answer is arguable; told apart."""

    def verdict(self) -> Verdict:
        """Judge it."""
        return self.of(Judged(self.draw()))

    def of(self, judged: Judged) -> Verdict:
        """The verdict of an analysis."""
        found = [(e, e.found(judged)) for e in self.expected]
        return Verdict(
            tuple(e for e, f in found if f is not None),
            tuple(e for e, f in found if f is None),
            tuple(self._alarms(judged)),
            tuple((e, e.number.read(judged, f)) for e, f in found if f is not None and e.number),
        )

    def holds(self) -> None:
        """Nothing missed but what no rule says, no false alarm, every figure within its limits."""
        judged = Judged(self.draw())
        verdict = self.of(judged)
        told = [(f.rule, f.level.word, f.where, f.states) for f in judged.findings]
        missed = [(e.key, e.at, e.state) for e in verdict.missed if not e.why_missed]
        assert not missed, f"missed {missed} among {told}"
        assert not verdict.alarms, verdict.alarms
        assert not verdict.off, verdict.off
        assert not judged.broken

    def _alarms(self, judged: Judged) -> list[str]:
        wrong = [_told(f) for never in self.never for f in never.found(judged)]
        if self.truth == "fine":
            open_ones = [f for f in judged.analysis.open_findings if self._in_scope(f)]
            wrong += [_told(f) for f in open_ones]
        return list(dict.fromkeys(wrong))

    def _in_scope(self, finding: Finding) -> bool:
        return "all" in self.scope or any(finding.rule in SCOPES[name] for name in self.scope)


def _told(finding: Finding) -> str:
    return f"{finding.rule} at {' '.join(finding.where)}: {finding.message}"
