"""Answers that are more than one value: a least conductor, a permission."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from linework.codes.sizes import size_of
from linework.codes.value import Sourced, Step, Worked


@dataclass(frozen=True, slots=True)
class GroundNeed:
    """The least size of a protective conductor: exact in circular mils, and as a size to buy."""

    cmil: Fraction
    worked: Worked[str]

    @property
    def size(self) -> str:
        """The thinnest American size that suffices."""
        return self.worked.value

    @property
    def steps(self) -> tuple[Step, ...]:
        """How it was found."""
        return self.worked.steps

    @property
    def confirmed(self) -> bool:
        """Whether every step rests on a confirmed figure."""
        return self.worked.confirmed

    @property
    def clause(self) -> str:
        """The clause of the deciding step."""
        return self.worked.clause

    def met_by(self, size: str) -> bool:
        """Whether a conductor of this size suffices; compared exactly, never rounded."""
        return size_of(size).cmil >= self.cmil


@dataclass(frozen=True, slots=True)
class Allowed:
    """Whether something is allowed, with the rule that says so."""

    ok: bool
    rule: Sourced[str]
