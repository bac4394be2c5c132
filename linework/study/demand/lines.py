"""A load calculation as it is shown: lines that are added up, each with its clause."""

from __future__ import annotations

from dataclasses import dataclass, field

from linework.codes import Sourced


@dataclass(frozen=True)
class Line:
    """One line: ``what`` with its ``words`` (a message of :mod:`linework.words`); of ``of`` counts
    ``counts``, in the unit of the calculation. ``by``: the figure that decides how much of it."""

    what: str
    of: float
    counts: float
    by: Sourced[float] | None = None
    words: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Calculation:
    """Lines in their order; ``total`` is the sum of what counts of them."""

    lines: tuple[Line, ...]

    @property
    def total(self) -> float:
        """In the unit of the lines."""
        return sum(line.counts for line in self.lines)

    @property
    def confirmed(self) -> bool:
        """Whether every figure that decides is confirmed."""
        return all(line.by is None or line.by.confirmed for line in self.lines)


def shared(what: str, of: float, by: Sourced[float], **words: str) -> Line:
    """The line of which a share counts."""
    return Line(what, of, of * by.value, by, words)
