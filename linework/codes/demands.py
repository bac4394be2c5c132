"""What a family says of how loads are added up: figures, each with its clause."""

from __future__ import annotations

from typing import Literal, Protocol

from linework.codes.value import Sourced

Figure = Literal[
    "lighting",
    "small_circuits",
    "small_circuit",
    "laundry",
    "lighting_first",
    "lighting_share",
    "lighting_next",
    "lighting_rest",
    "appliances_number",
    "appliances_share",
    "dryer",
    "heating_share",
    "larger_only",
    "neutral_share",
    "service",
    "optional_service",
    "optional_first",
    "optional_share",
    "optional_cooling",
    "optional_heating",
    "optional_units",
    "optional_heating_units",
    "continuous",
    "largest_motor",
]
"""Single figures: shares without a unit, loads in VA, the least service in ampere."""


class Demands(Protocol):
    """The figures of one edition. CodesError where a table has no row."""

    def figure(self, of: Figure) -> Sourced[float]:
        """One figure by its name."""
        ...

    def ranges_va(self, number: int, most_va: float) -> Sourced[float]:
        """What so many ranges above 8.75 kVA, the largest of ``most_va``, count for in VA."""
        ...

    def vehicle_supply(self, circuits: int) -> Sourced[float]:
        """The least supply in ampere of a vehicle of so many circuits; of one that of 15 A."""
        ...
