"""A quantity of which only a band is known: low, usual, high."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Three:
    """Low, usual and high figure of one quantity, in one unit.

    ValueError unless ``low <= usual <= high``: of a band the wrong way round the low figure
    would be the unsafe one.
    """

    low: float
    usual: float
    high: float

    def __post_init__(self) -> None:
        if not self.low <= self.usual <= self.high:
            raise ValueError(f"{self.low}, {self.usual}, {self.high} do not rise")

    @classmethod
    def exactly(cls, value: float) -> Three:
        """The band of a quantity that is known."""
        return cls(value, value, value)

    def scaled(self, factor: float) -> Three:
        """The band times a positive factor."""
        return Three(self.low * factor, self.usual * factor, self.high * factor)
