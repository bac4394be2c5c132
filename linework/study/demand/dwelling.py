"""What one dwelling takes, by the standard method (NFPA 70 220 part III) and by the optional one
(220.82).

Lighting and outlets count by floor area, and what is plugged into them with it. An appliance of
which nobody said what it is counts in full besides, after every share: no method takes less.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from linework.codes.demands import Demands, Figure
from linework.study.demand.lines import Calculation, Line, shared
from linework.words import N_

LIGHTING = N_("lighting and outlets, {area} ft²")
CIRCUITS = N_("small-appliance circuits, {number}")
LAUNDRY = N_("laundry circuit")
FIRST = N_("of these the first {first} VA")
NEXT = N_("of these the next {next} VA")
REST = N_("of these the rest")
FIXED = N_("appliances in place: {names}")
DRYERS = N_("dryers: {names}")
RANGES = N_("ranges: {names}")
HEATING = N_("heating: {names}")
COOLING = N_("cooling: {names}")
MOTOR = N_("a quarter more of the largest motor: {names}")
UNSAID = N_("in full, use not said: {names}")

_SMALL_RANGE_VA = 8750.0
"""Up to this rating a cooking appliance counts here by its plate; column C begins above it."""
_SMALL_VA = 500.0
"""Appliances below count in full and not in the number of 220.53 (since 2020, from memory)."""


class Use(StrEnum):
    """What an appliance is in the calculation; ``UNSAID``: nobody said."""

    UNSAID = "unsaid"
    OUTLETS = "outlets"
    FIXED = "fixed"
    RANGE = "range"
    DRYER = "dryer"
    HEATING = "heating"
    COOLING = "cooling"


@dataclass(frozen=True)
class Appliance:
    """One load: its designation, what its plate asks for in VA, its use, whether it is a motor, and
    whether it lies between the two hots."""

    name: str
    va: float
    use: Use
    motor: bool = False
    between: bool = True


@dataclass(frozen=True)
class Dwelling:
    """Floor area in square feet and the appliances; what is plugged in is none."""

    area_ft2: float
    appliances: tuple[Appliance, ...] = ()

    def of(self, *uses: Use) -> list[Appliance]:
        """The appliances of some uses."""
        return [a for a in self.appliances if a.use in uses]


def standard(dwelling: Dwelling, demands: Demands) -> Calculation:
    """By the standard method, in VA. CodesError where a table has no row."""
    return Calculation(
        (
            *_general(dwelling, demands),
            *_in_place(dwelling, demands),
            *_dryers(dwelling, demands),
            *_ranges(dwelling, demands),
            *_larger(_heating(dwelling, demands, "heating_share"), _cooling(dwelling, demands)),
            *_motor(dwelling, demands),
            *_unsaid(dwelling),
        )
    )


def optional(dwelling: Dwelling, demands: Demands) -> Calculation:
    """By the optional method, in VA; only for a service or feeder of 100 A and more."""
    named = dwelling.of(Use.FIXED, Use.RANGE, Use.DRYER)
    base = _area(dwelling, demands) + ([_full(FIXED, named)] if named else [])
    first, share = demands.figure("optional_first"), demands.figure("optional_share")
    total = sum(line.of for line in base)
    least = min(total, first.value)
    many = len(dwelling.of(Use.HEATING)) >= demands.figure("optional_units").value
    heating = _heating(dwelling, demands, "optional_heating_units" if many else "optional_heating")
    return Calculation(
        (
            *(Line(line.what, line.of, 0.0, line.by, line.words) for line in base),
            Line(FIRST, least, least, first, {"first": f"{first.value:.0f}"}),
            *([shared(REST, total - least, share)] if total > least else []),
            *_larger(heating, _cooling(dwelling, demands)),
            *_unsaid(dwelling),
        )
    )


def neutral_va(dwelling: Dwelling, demands: Demands) -> float:
    """What the neutral counts with by the standard method, in VA: ranges and dryers by their share
    (220.61(B)), all else that lies not between the two hots in full."""
    share = demands.figure("neutral_share").value
    two = [*_dryers(dwelling, demands), *_ranges(dwelling, demands)]
    general = sum(line.counts for line in _general(dwelling, demands))
    to_it = dwelling.of(Use.FIXED, Use.HEATING, Use.COOLING, Use.UNSAID)
    rest = _sum(a for a in to_it if not a.between)
    return general + share * sum(line.counts for line in two) + rest


def _area(dwelling: Dwelling, demands: Demands) -> list[Line]:
    by = {key: demands.figure(key) for key in ("lighting", "small_circuits", "small_circuit")} | {
        "laundry": demands.figure("laundry")
    }
    lit = by["lighting"].value * dwelling.area_ft2
    small = by["small_circuits"].value * by["small_circuit"].value
    laundry = by["laundry"].value
    area, number = f"{dwelling.area_ft2:.0f}", f"{by['small_circuits'].value:.0f}"
    return [
        Line(LIGHTING, lit, lit, by["lighting"], {"area": area}),
        Line(CIRCUITS, small, small, by["small_circuit"], {"number": number}),
        Line(LAUNDRY, laundry, laundry, by["laundry"]),
    ]


def _general(dwelling: Dwelling, demands: Demands) -> Iterator[Line]:
    """The lines by area with what counts of their sum, step by step."""
    base = _area(dwelling, demands)
    yield from (Line(line.what, line.of, 0.0, line.by, line.words) for line in base)
    total = sum(line.of for line in base)
    first, upto = demands.figure("lighting_first"), demands.figure("lighting_next")
    one = min(total, first.value)
    yield Line(FIRST, one, one, first, {"first": f"{first.value:.0f}"})
    two = min(total, upto.value) - one
    if two > 0.0:
        words = {"next": f"{upto.value - first.value:.0f}"}
        yield shared(NEXT, two, demands.figure("lighting_share"), **words)
    if total > upto.value:
        yield shared(REST, total - upto.value, demands.figure("lighting_rest"))


def _in_place(dwelling: Dwelling, demands: Demands) -> Iterator[Line]:
    found = dwelling.of(Use.FIXED)
    large = [a for a in found if a.va >= _SMALL_VA]
    many = len(large) >= demands.figure("appliances_number").value
    if many:
        yield shared(FIXED, _sum(large), demands.figure("appliances_share"), names=_names(large))
    rest = [a for a in found if not many or a not in large]
    if rest:
        yield _full(FIXED, rest)


def _dryers(dwelling: Dwelling, demands: Demands) -> Iterator[Line]:
    found, least = dwelling.of(Use.DRYER), demands.figure("dryer")
    if found:
        counted = sum(max(a.va, least.value) for a in found)
        yield Line(DRYERS, _sum(found), counted, least, {"names": _names(found)})


def _ranges(dwelling: Dwelling, demands: Demands) -> Iterator[Line]:
    found = dwelling.of(Use.RANGE)
    large = [a for a in found if a.va > _SMALL_RANGE_VA]
    if large:
        by = demands.ranges_va(len(large), max(a.va for a in large))
        yield Line(RANGES, _sum(large), by.value, by, {"names": _names(large)})
    small = [a for a in found if a not in large]
    if small:
        yield _full(RANGES, small)


def _heating(dwelling: Dwelling, demands: Demands, share: Figure) -> Line | None:
    found = dwelling.of(Use.HEATING)
    by = demands.figure(share)
    return shared(HEATING, _sum(found), by, names=_names(found)) if found else None


def _cooling(dwelling: Dwelling, demands: Demands) -> Line | None:
    found = dwelling.of(Use.COOLING)
    by = demands.figure("optional_cooling")
    return shared(COOLING, _sum(found), by, names=_names(found)) if found else None


def _larger(heating: Line | None, cooling: Line | None) -> Iterator[Line]:
    """Both as lines; only the larger counts (220.60)."""
    both = [line for line in (heating, cooling) if line is not None]
    most = max((line.counts for line in both), default=0.0)
    counted = next((line for line in both if line.counts == most), None)
    for line in both:
        counts = line.counts if line is counted else 0.0
        yield Line(line.what, line.of, counts, line.by, line.words)


def _motor(dwelling: Dwelling, demands: Demands) -> Iterator[Line]:
    counted = dwelling.of(Use.FIXED, Use.COOLING, Use.HEATING, Use.UNSAID)
    motors = [a for a in counted if a.motor]
    if motors:
        largest = max(motors, key=lambda a: a.va)
        yield shared(MOTOR, largest.va, demands.figure("largest_motor"), names=largest.name)


def _unsaid(dwelling: Dwelling) -> Iterator[Line]:
    found = dwelling.of(Use.UNSAID)
    if found:
        yield _full(UNSAID, found)


def _full(what: str, found: list[Appliance]) -> Line:
    return Line(what, _sum(found), _sum(found), None, {"names": _names(found)})


def _sum(found: Iterable[Appliance]) -> float:
    return sum(a.va for a in found)


def _names(found: Iterable[Appliance]) -> str:
    return ", ".join(a.name for a in found)
