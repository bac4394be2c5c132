"""What conductors are made of, and the constants of those metals."""

from __future__ import annotations

from enum import StrEnum

from linework.codes.errors import not_among, not_in_table
from linework.codes.tables import confidence_of, rows
from linework.codes.value import Sourced

CONSTANTS = "common/material_constants"


class Material(StrEnum):
    """The metal of a conductor. "aluminium" is read as "aluminum"."""

    COPPER = "copper"
    TINNED = "tinned copper"
    ALUMINUM = "aluminum"
    CLAD = "copper-clad aluminum"
    STEEL = "steel"

    @property
    def is_copper(self) -> bool:
        """Whether the copper columns of the tables hold for it."""
        return self in (Material.COPPER, Material.TINNED)

    @property
    def core(self) -> Material:
        """The plain metal whose constants hold: copper, aluminum or steel."""
        if self.is_copper:
            return Material.COPPER
        return Material.ALUMINUM if self is Material.CLAD else self


def material_of(text: str) -> Material:
    """The material that a word names. CodesError for any other word."""
    try:
        return Material("aluminum" if text == "aluminium" else text)
    except ValueError:
        raise not_among(text, Material) from None


def metal_constant(quantity: str, material: str) -> Sourced[float]:
    """A constant of a plain metal.

    ``quantity``: "resistivity at 20 C" (ohm m), "temperature coefficient at 20 C" (1/K),
    "reciprocal temperature coefficient at 0 C" (C), "heat capacity at 20 C" (J/(K mm3)).
    CodesError where the table has none.
    """
    metal = material_of(material).core
    for row in rows(CONSTANTS):
        if row["quantity"] == quantity and row["material"] == metal:
            return Sourced(
                float(row["value"]),
                row["unit"],
                row["standard"],
                f"{quantity}, {metal}",
                confidence_of(row),
                row["sources"],
            )
    raise not_in_table(f"{quantity}, {metal}", "the table of metals", ())
