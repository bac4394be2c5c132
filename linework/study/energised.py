"""Study: what is live, from which source; what meets; what is bare and live; what stays dead."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

from linework.circuit.series import ways_back
from linework.study.situation import Situation, System
from linework.study.ways.windings import drivers, drives, shares_conductor
from linework.wiring import Source


@dataclass(frozen=True)
class Meeting:
    """Two windings of different parts on one conductor; ``nodes`` show where."""

    one: System
    other: System
    label: int


@dataclass(frozen=True)
class LivePins:
    """Bare pins that a source energises."""

    pins: int
    owner: str
    sources: tuple[str, ...]


@dataclass(frozen=True)
class Energised:
    """The result: owners of the sources that feed each fed load, meetings, live pins."""

    fed: dict[int, tuple[str, ...]]
    crossed: tuple[int, ...]
    """Loads whose return and supply are exchanged, or that lie across two systems."""
    meetings: tuple[Meeting, ...]
    live_pins: tuple[LivePins, ...]
    backfed: tuple[tuple[str, str], ...]
    """(supply, source): the source can energise the terminals of the supply."""


def energised(situation: Situation) -> Energised:
    """Found on the graph alone, exactly, without solving."""
    fed, crossed = _fed(situation)
    meetings = tuple(_meetings(situation))
    return Energised(fed, crossed, meetings, tuple(_live_pins(situation)), _backfed(situation))


def _fed(situation: Situation) -> tuple[dict[int, tuple[str, ...]], tuple[int, ...]]:
    fed: dict[int, tuple[str, ...]] = {}
    crossed: list[int] = []
    for index, load in situation.loads:
        straight = _across(situation, load.a, load.b)
        turned = _across(situation, load.b, load.a)
        if straight or turned:
            fed[index] = tuple(sorted({s.owner for s in straight or turned}))
            if not straight or _strays(situation, straight, load.b):
                crossed.append(index)
    return fed, tuple(crossed)


def _strays(situation: Situation, feeding: list[System], node: int) -> bool:
    """Whether the current goes back along the return of other windings than those that feed it."""
    others = situation.returns(node)
    return bool(others) and not any(s in others or _other_leg(situation, s, node) for s in feeding)


def _across(situation: Situation, a: int, b: int) -> list[System]:
    """Windings that reach ``a`` with their hot and come back from ``b``, by any conductive way.

    Batteries in series come with all of their string. Where the plus of direct current is joined to
    metal, it is this that reaches ``a`` and the minus that comes by wire.
    """
    label = situation.conductive
    if situation.clusters[a] == situation.clusters[b]:
        return []
    found: list[System] = []
    for system in situation.feeds(a) or _by_metal(situation, a, b):
        passed = ways_back(situation, system.source, label).get(label[b], ())
        found += [s for s in situation.systems if s.source in passed]
        if not passed and _other_leg(situation, system, b):
            found.append(system)
    return [*found, *_behind(situation, found)]


def _by_metal(situation: Situation, a: int, b: int) -> list[System]:
    """Direct current whose plus reaches ``a`` by metal alone, where ``b`` hangs on the minus."""
    label, source = situation.conductive, situation.circuit.sources
    if label[a] == label[b]:
        return []
    return [
        system
        for system in situation.systems
        if not system.is_ac
        and label[source[system.source].plus] == label[a]
        and situation.clusters[b] in ways_back(situation, system.source, situation.clusters)
    ]


def _behind(situation: Situation, found: list[System]) -> list[System]:
    """The windings that feed through an autotransformer among these."""
    sources = situation.circuit.sources
    through = (sources[s.source] for s in found if sources[s.source].primary)
    return [d for s in through if shares_conductor(situation, s) for d, _ in drivers(situation, s)]


def reached_by_others(situation: Situation, owner: str, a: int, b: int) -> bool:
    """Whether a winding of another part reaches ``a`` and comes back from ``b``, or turned."""
    both = (*_across(situation, a, b), *_across(situation, b, a))
    return any(system.owner != owner for system in both)


def in_use(situation: Situation, system: System) -> bool:
    """Whether a winding is joined to a load or converter of another part, or to another source
    beside it or beside its string."""
    loads = [x for x in situation.circuit.loads if x.owner != system.owner]
    return _beside_others(situation, system) or any(
        system in (*_across(situation, x.a, x.b), *_across(situation, x.b, x.a)) for x in loads
    )


def _beside_others(situation: Situation, system: System) -> bool:
    """Whether another source lies across a winding or across a string in which it is."""
    label = situation.conductive
    return any(
        other.owner != system.owner
        and other.source not in passed
        and far in ways_back(situation, other.source, label)
        for first in situation.systems
        for far, passed in ways_back(situation, first.source, label).items()
        if system.source in passed
        for other in situation.hot_of[first.hot]
    )


def _other_leg(situation: Situation, system: System, node: int) -> bool:
    return any(
        other.owner == system.owner and other.source != system.source
        for other in situation.feeds(node)
    )


def _meetings(situation: Situation) -> list[Meeting]:
    """Two AC windings of different parts whose hot conductors are one, or AC upon DC; not a
    winding that the other drives, nor two made to run in parallel, which keep in step."""
    found = []
    for one, other in combinations(situation.systems, 2):
        if one.owner == other.owner or one.hot != other.hot:
            continue
        if _in_step(*(situation.circuit.sources[s.source].data for s in (one, other))):
            continue
        if drives(situation, one, other) or drives(situation, other, one):
            continue
        if one.is_ac or other.is_ac:
            found.append(Meeting(one, other, one.hot))
    return found


def _in_step(one: Source, other: Source) -> bool:
    """Whether two windings are made to run in parallel, and are joined like to like."""
    alike = (one.volts, one.hertz, one.phase_deg) == (other.volts, other.hertz, other.phase_deg)
    return one.in_step and other.in_step and alike


def _live_pins(situation: Situation) -> list[LivePins]:
    found = []
    for index, pins in situation.pins:
        owners = {s.owner for node in pins.nodes for s in situation.feeds(node)}
        if owners:
            found.append(LivePins(index, pins.owner, tuple(sorted(owners))))
    return found


def _backfed(situation: Situation) -> tuple[tuple[str, str], ...]:
    """On-board sources that reach the terminals of a supply, dead or live."""
    found = set()
    for source in situation.circuit.sources:
        if source.data.group.off_site:
            for system in situation.feeds(source.plus):
                if not situation.circuit.sources[system.source].data.group.off_site:
                    found.add((source.owner, system.owner))
    return tuple(sorted(found))
