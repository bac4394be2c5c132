"""A value that travels with its source, and a result that can be unfolded to its steps."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Generic, Literal, TypeVar

from linework.data import Confidence

T = TypeVar("T")
V = TypeVar("V")

_SURE = list(Confidence)
"""The marks, surest first; the confirmed ones are equally sure."""


def weakest(*confidences: Confidence) -> Confidence:
    """The least sure of several marks; of confirmed ones, which are equally sure, the first."""
    return max(confidences, key=lambda mark: 0 if mark.confirmed else _SURE.index(mark))


@dataclass(frozen=True, slots=True)
class Sourced(Generic[T]):
    """One value with the place it comes from.

    ``clause`` names standard, edition and clause or table; ``row`` the row and
    column, or the formula; ``source`` what confirms it; ``confidence`` how sure it is.
    """

    value: T
    unit: str
    clause: str
    row: str
    confidence: Confidence
    source: str
    edition: str = ""
    note: str = ""

    @property
    def confirmed(self) -> bool:
        """Whether two sources, theory or a definition stand behind the value."""
        return self.confidence.confirmed

    def became(
        self, value: V, unit: str, row: str, confidence: Confidence = Confidence.DERIVED
    ) -> Sourced[V]:
        """A value calculated from this one: same clause, ``row`` tells how, never surer."""
        return Sourced(
            value,
            unit,
            self.clause,
            row,
            weakest(self.confidence, confidence),
            self.source,
            self.edition,
            self.note,
        )

    def of(self, clause: str) -> Sourced[T]:
        """The same value under a clause with its standard and edition."""
        return replace(self, clause=clause)

    def remarked(self, note: str) -> Sourced[T]:
        """The same value with a remark."""
        return replace(self, note=note)


Effect = Literal["start", "times", "plus", "at most", "at least", "next"]


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a result: what was done with which figure, and what stood then.

    ``what`` is ready to be read. ``decides``: this step set the result.
    """

    what: str
    effect: Effect
    figure: Sourced[float] | Sourced[int] | Sourced[str]
    result: float
    decides: bool = False


@dataclass(frozen=True, slots=True)
class Worked(Generic[T]):
    """A result with the steps that led to it, first to last."""

    value: T
    unit: str
    steps: tuple[Step, ...]

    @property
    def confidence(self) -> Confidence:
        """The mark of the least sure step."""
        return weakest(*(step.figure.confidence for step in self.steps))

    @property
    def confirmed(self) -> bool:
        """Whether every step rests on a confirmed figure."""
        return all(step.figure.confirmed for step in self.steps)

    @property
    def decided_by(self) -> Step:
        """The last step that set the result."""
        return [step for step in self.steps if step.decides][-1]

    @property
    def clause(self) -> str:
        """The clause of the deciding step."""
        return self.decided_by.figure.clause


class Working:
    """Collects the steps of a :class:`Worked` result while it is being calculated."""

    def __init__(self, what: str, start: Sourced[float]) -> None:
        self.value = start.value
        self.unit = start.unit
        self._steps = [Step(what, "start", start, start.value, decides=True)]

    def times(self, what: str, factor: Sourced[float]) -> None:
        """Multiply; a factor of one is kept as a step but decides nothing."""
        # 25 A x 0.8 must be 20 A and not a hair more, which the next standard rating would cover.
        self.value = round(self.value * factor.value, 9)
        self._add(what, "times", factor, factor.value != 1.0)

    def plus(self, what: str, more: Sourced[float]) -> None:
        """Add; a summand of zero decides nothing."""
        self.value += more.value
        self._add(what, "plus", more, more.value != 0.0)

    def at_most(self, what: str, cap: Sourced[float]) -> None:
        """Lower the value to ``cap`` if it is above it."""
        bites = cap.value < self.value
        self.value = min(self.value, cap.value)
        self._add(what, "at most", cap, bites)

    def set(self, what: str, figure: Sourced[float]) -> None:
        """Replace the value, as by rounding to a standard rating."""
        changed = figure.value != self.value
        self.value = figure.value
        self._add(what, "next", figure, changed)

    def _add(self, what: str, effect: Effect, figure: Sourced[float], decides: bool) -> None:
        self._steps.append(Step(what, effect, figure, self.value, decides))

    def done(self) -> Worked[float]:
        """The result so far."""
        return Worked(self.value, self.unit, tuple(self._steps))
