"""How NFPA 70 adds up loads: dwellings (220), motors (430.24), vehicles (551)."""

from __future__ import annotations

import math
from dataclasses import dataclass

from linework.codes.demands import Figure
from linework.codes.errors import not_in_table
from linework.codes.na.edition import LATEST, cite, valid_in
from linework.codes.tables import Row, by, confidence_of, rows
from linework.codes.value import Sourced

_RANGE_W = 12_000.0
"""Ranges up to this rating count as column C of table 220.55 has them."""
_MORE = 0.05
"""Added for each kilowatt, or larger part of one, above it (note 1)."""


@dataclass(frozen=True)
class Demand220:
    """See :class:`linework.codes.demands.Demands`."""

    edition: str = LATEST

    def figure(self, of: Figure) -> Sourced[float]:
        """See Demands; KeyError for a name that is none."""
        found = [
            row for row in rows("na/demand_220") if row["id"] == of and valid_in(row, self.edition)
        ]
        if not found:
            raise KeyError(of)
        return self._sourced(found[0], float(found[0]["value"]), found[0]["unit"])

    def ranges_va(self, number: int, most_va: float) -> Sourced[float]:
        """See Demands (table 220.55, column C and note 1)."""
        table = by("na/demand_ranges_220_55", "number")
        row = table.get(str(number))
        if row is None:
            raise not_in_table(str(number), cite("Table 220.55", self.edition), table)
        over = max(most_va - _RANGE_W, 0.0) / 1e3
        steps = math.floor(over + 0.5)
        base = 1e3 * float(row["kilowatt"])
        where = f"{number}, column C" + (f", + {steps * _MORE:.0%} (note 1)" if steps else "")
        found = self._sourced(row, base, "VA")
        return found.became(base * (1.0 + _MORE * steps), "VA", where)

    def vehicle_supply(self, circuits: int) -> Sourced[float]:
        """See Demands (551.42, 551.44)."""
        for row in rows("na/vehicle_circuits_551_42"):
            if int(row["least"]) <= circuits <= float(row["most"] or "inf"):
                return self._sourced(row, float(row["supply_a"]), "A")
        raise not_in_table(str(circuits), cite("551.42", self.edition), ())

    def _sourced(self, row: Row, value: float, unit: str) -> Sourced[float]:
        clause, where = cite(row["clause"], self.edition), row.get("row", "")
        mark = confidence_of(row)
        return Sourced(value, unit, clause, where, mark, row["sources"], self.edition)
