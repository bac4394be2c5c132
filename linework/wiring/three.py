"""A quantity of which only a band is known: low, usual, high."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Three:
    """Low, usual and high figure of one quantity, in one unit, ``low <= usual <= high``."""

    low: float
    usual: float
    high: float

    @classmethod
    def exactly(cls, value: float) -> Three:
        """The band of a quantity that is known."""
        return cls(value, value, value)

    def scaled(self, factor: float) -> Three:
        """The band times a positive factor."""
        return Three(self.low * factor, self.usual * factor, self.high * factor)
