"""The international family: the few answers that are known, and the name of its standard."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from linework.codes.errors import not_in_table
from linework.codes.families import Family
from linework.codes.stated import stated
from linework.codes.tables import confidence_of, rows
from linework.codes.value import Sourced
from linework.data import Confidence
from linework.words import say


@dataclass(frozen=True)
class International(Family):
    """IEC 60364. What it does not answer, this version has no tables for; that is told."""

    edition: str = ""
    key: str = "INT"

    @property
    def title(self) -> str:
        """The standard; its parts have editions of their own."""
        return "IEC 60364"

    def ground_fault_protection(
        self, place: str, area: str, volts: float, amps: float
    ) -> Sourced[bool]:
        """See Family (411.3.3): every outlet up to 32 A, wherever it lies."""
        most = stated("international", "outlet_protection")
        rule = most.became(amps <= most.value, "", f"{amps:g} A", most.confidence)
        return rule.of(self.cite(most.clause))

    def arc_fault_protection(
        self, place: str, area: str, volts: float, amps: float
    ) -> Sourced[bool]:
        """See Family (421.7): recommended where people sleep, asked for nowhere."""
        return Sourced(
            False, "", self.cite("421.7"), "recommended only", Confidence.MEMORY, "from memory"
        )

    def outlet_guards(self) -> tuple[str, ...]:
        """See Family: a 30 mA device; an American one opens sooner."""
        return ("rcd_30", "class_a")

    def set_outlet_protection(self, volts: float, amps: float, set_va: float) -> Sourced[bool]:
        """See Family: there is no such rule; outlets of sets are outlets."""
        return Sourced(
            False, "", self.cite("551"), "no rule of its own", Confidence.MEMORY, "from memory"
        )

    def disconnect_from(self, of: Literal["voltage", "energy"]) -> Sourced[float]:
        """See Family: figures of practice."""
        return stated("international", f"disconnect_{of}")

    def drop_advice(self, part: Literal["branch", "feeder", "total"]) -> Sourced[float]:
        """See Family (informative annex G), which says nothing of feeders alone."""
        if part == "feeder":
            raise self._lacks("drop_advice")
        return stated("international", f"drop_{part}")

    def leakage_afloat_ma(self) -> Sourced[float]:
        """See Family (ISO 13297)."""
        return stated("international", "leakage_afloat")

    def drop_afloat(self, critical: bool) -> Sourced[float]:
        """See Family (ISO 13297)."""
        return stated("international", "drop_afloat_critical" if critical else "drop_afloat")

    def drop_constant_afloat(self) -> Sourced[float]:
        """See Family: a property of copper."""
        return stated("international", "drop_constant_afloat")

    def appliance_device(self, amps: float) -> None:
        """See Family: there is no such limit."""

    def cord_mark(self, size: str, length_m: float) -> None:
        """See Family: they are marked for their plugs."""

    def vehicle_cord(self, inlet_a: float) -> Sourced[str]:
        """See Family (7-721, table 721)."""
        table = rows("international/vehicle_cord_721")
        for row in table:
            if inlet_a <= float(row["inlet_A"]):
                mark = confidence_of(row)
                where = f"inlet of {row['inlet_A']} A"
                return Sourced(row["size"], "", self.cite("7-721"), where, mark, row["sources"])
        raise not_in_table(f"{inlet_a:g} A", self.cite("7-721"), [f"{table[-1]['inlet_A']} A"])

    def room_before_boards(self, aboard: bool) -> Sourced[str]:
        """See Family (7-729)."""
        room = say("0.7 m deep, 2 m high")
        return Sourced(
            room, "", self.cite("7-729"), "passage before boards", Confidence.MEMORY, "from memory"
        )
