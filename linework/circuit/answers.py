"""What was answered for some positions, kept as long as nothing more is decided."""

from __future__ import annotations

from dataclasses import dataclass, field

from linework.circuit.model import Condition, SelectorKey


@dataclass
class Reach:
    """What is joined to a label: surely, and perhaps (label -> branch and label before it)."""

    sure: set[int]
    perhaps: dict[int, tuple[int, int] | None] = field(default_factory=dict)
    owners: tuple[str, ...] | None = None
    """Whose sources may be on there, once asked."""

    def may(self, label: int) -> bool:
        """Whether a way may lead there."""
        return label in self.sure or label in self.perhaps


@dataclass
class Answers:
    """What was answered for one set of positions of the followers, in whatever world."""

    holds: dict[Condition, bool | None] = field(default_factory=dict)
    reached: dict[tuple[bool, int], Reach] = field(default_factory=dict)
    sent: dict[SelectorKey, str] = field(default_factory=dict)
    """Where its rule sends a follower in the world after this."""
