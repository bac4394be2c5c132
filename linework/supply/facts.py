"""What a design says of its stores, arrays, sets and loads, in plain figures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from linework.circuit.model import Circuit
from linework.design import Design, Part
from linework.supply.climate import Climate
from linework.supply.figures import FuelLine, figure, fuel_line
from linework.supply.habits import Habit, habit_of

_HOUR = 3600.0
_LEAD_TAPERS = ("agm", "flooded")
_AIR_BEHIND = ("rack", "flush")
GASOLINE = "gasoline"
"""Taken where a set's fuel is not given."""


@dataclass(frozen=True)
class Store:
    """One battery.

    ``cells``: the group of figures of its chemistry; ``wh``: its capacity; ``usable`` as given
    (None: usual); ``takes_w`` and ``gives_w``: bounds of its management (None: none).
    """

    part: str
    cells: str
    wh: float
    usable: float | None
    kept_warm: bool
    warmth_given: bool
    takes_w: float | None
    gives_w: float | None

    @property
    def lead(self) -> bool:
        """Whether its last fifth is charged slowly, and cold only makes it smaller."""
        return self.cells in _LEAD_TAPERS


@dataclass(frozen=True)
class ArrayFacts:
    """One solar array: watts by its plates; tilt and azimuth (from north over east) in degrees."""

    part: str
    watts: float
    tilt: float
    azimuth: float
    flush: bool
    tilt_given: bool
    mount_given: bool


@dataclass(frozen=True)
class SetFacts:
    """One set: VA of its plate, its rule, and what it burns (None: no figures for its fuel)."""

    part: str
    va: float
    starts_at: float | None
    stops_at: float | None
    starts_for: float | None
    quiet: tuple[float, float]
    quiet_given: bool
    fuel: str
    fuel_given: bool
    line: FuelLine | None


@dataclass(frozen=True)
class LoadFacts:
    """One load: watts while it draws, and its habit."""

    part: str
    index: int
    watts: float
    habit: Habit


@dataclass(frozen=True)
class Facts:
    """All of it; ``shore_w``: of each supply by part id; hours a day as given (None: not)."""

    stores: Mapping[str, Store]
    arrays: Mapping[str, ArrayFacts]
    sets: Mapping[str, SetFacts]
    loads: tuple[LoadFacts, ...]
    shore_w: Mapping[str, float]
    plugged_hours: float | None
    driven_hours: float | None
    aboard: bool


def facts_of(design: Design, circuit: Circuit, climate: Climate) -> Facts:
    """Read from the ratings of the parts; by what their kinds declare, never by their names."""
    parts = sorted(design.parts, key=lambda part: part.id)
    of = {part: design.kind(part).source for part in parts}
    return Facts(
        {p.id: _store(design, p) for p in parts if of[p].stores},
        {p.id: _array(design, p, climate) for p in parts if of[p].solar},
        {p.id: _set(design, p) for p in parts if of[p].driven},
        tuple(_loads(design, circuit)),
        {p.id: _supply_w(design, p) for p in parts if of[p].off_site},
        _most_hours(design, [p for p in parts if of[p].off_site], "plugged_hours"),
        _most_hours(design, [p for p in parts if of[p].needs_store], "driven_hours"),
        design.settings.kind_of_place.aboard,
    )


def _most_hours(design: Design, parts: list[Part], key: str) -> float | None:
    told = [design.values(p).opt(key) for p in parts]
    return max((t / _HOUR for t in told if t is not None), default=None)


def _store(design: Design, part: Part) -> Store:
    v = design.values(part)
    volts = v.num("voltage")

    def watts(key: str) -> float | None:
        return v.num(key) * volts if v.has(key) else None

    return Store(
        part.id, v.pick("chemistry"), v.num("capacity") * volts, v.opt("usable"),
        v.pick("kept_warm") == "yes", v.given("kept_warm"),
        watts("charge_limit"), watts("discharge_limit"),
    )  # fmt: skip


def _array(design: Design, part: Part, climate: Climate) -> ArrayFacts:
    v, kind = design.values(part), design.kind(part)
    watts = (v.opt("power") or 0.0) * kind.pieces(v)
    mounted = v.pick("mounted")
    flush = mounted == "flush" or (
        mounted not in _AIR_BEHIND and design.settings.kind_of_place.aboard
    )
    towards = 0.0 if climate.south else 180.0
    azimuth = v.opt("azimuth")
    return ArrayFacts(
        part.id, watts, v.opt("tilt") or 0.0, towards if azimuth is None else azimuth, flush,
        v.given("tilt"), mounted in _AIR_BEHIND,
    )  # fmt: skip


def _set(design: Design, part: Part) -> SetFacts:
    v = design.values(part)
    told = v.pick("fuel")
    fuel = GASOLINE if told == "unknown" else told
    va = v.opt("power") or 0.0

    def hour(key: str, usual: str) -> float:
        found = v.opt(key)
        return figure(usual).usual if found is None else found / _HOUR

    return SetFacts(
        part.id, va, v.opt("starts_at"), v.opt("stops_at"), v.opt("starts_for"),
        (hour("quiet_from", "quiet-from"), hour("quiet_until", "quiet-until")),
        v.given("quiet_from") and v.given("quiet_until"), fuel,
        told != "unknown", fuel_line(v.pick("excitation") == "electronic", fuel, va / 1000.0),
    )  # fmt: skip


def _loads(design: Design, circuit: Circuit) -> list[LoadFacts]:
    found = []
    for index, load in enumerate(circuit.loads):
        kind = design.kind(design.part(load.owner))
        if load.data.own and kind.consumes:
            habit = habit_of(design, design.part(load.owner))
            found.append(LoadFacts(load.owner, index, load.data.watts, habit))
    return found


def _supply_w(design: Design, part: Part) -> float:
    v = design.values(part)
    legs = 2.0 if v.pick("circuit") == "split" else 1.0
    return v.num("breaker") * v.num("voltage") * legs
