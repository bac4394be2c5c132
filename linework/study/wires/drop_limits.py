"""Study: how much of its voltage a way may lose, by the family of the design."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf, nan

from linework.codes import CodesError, Sourced, stated
from linework.design import Design
from linework.study.stands import places
from linework.study.wires.ratings import rules_of


@dataclass(frozen=True)
class DropLimits:
    """Parts of the voltage: advised behind the last overcurrent device and in all; much, which is
    more than advice; afloat the most for what safety depends on and for the rest; advised before
    the last device, infinite where the family says nothing of it."""

    branch: float
    total: float
    much: float
    critical_afloat: float = nan
    other_afloat: float = nan
    feeder: float = inf

    def afloat(self, critical: bool) -> float:
        """The most in the low-voltage wiring of a boat."""
        return self.critical_afloat if critical else self.other_afloat


def drop_limits(design: Design) -> DropLimits:
    """Those of a design. CodesError where its family names none that would be needed."""
    rules = rules_of(design)
    land = (rules.drop_advice("branch"), rules.drop_advice("total"), stated("common", "drop_much"))
    sea: tuple[Sourced[float], ...] = ()
    if any(place.afloat for place in places(design)):
        rules.drop_constant_afloat()  # without it no drop afloat can be worked out
        sea = (rules.drop_afloat(critical=True), rules.drop_afloat(critical=False))
    try:
        feeder = rules.drop_advice("feeder").value / 100.0
    except CodesError:
        feeder = inf
    found = DropLimits(*(limit.value / 100.0 for limit in (*land, *sea)))
    return replace(found, feeder=feeder)
