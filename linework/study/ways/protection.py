"""Which device stands between a source and a conductor, and what a conductor leads to.

Between a source and a place there may be several ways. A device protects only what
all of them pass, so the worst way counts: of all ways the one whose smallest device
is the largest (the widest path; E. Dijkstra's search with "least of the way, then
greatest of the ways" in place of sums).
"""

from __future__ import annotations

import heapq
import itertools
import math
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from linework.circuit.incircuit import LINKS
from linework.circuit.model import Device, LiveSource
from linework.study.once import once
from linework.study.situation import Situation, System
from linework.study.walks import walk
from linework.study.ways.windings import drivers, shares_conductor
from linework.wiring import Pole, Source, is_protective

GENERATOR_LEADS = 1.15
"""Least ampacity of a generator's conductors over its rated current (NFPA 70 445.13)."""


@dataclass(frozen=True)
class Guard:
    """The smallest device on the worst way from a source to a node.

    ``rating_a`` infinite and ``device`` None: some way passes no device at all. Of equal
    devices in a row it is the nearest to the node.
    """

    rating_a: float = math.inf
    device: int | None = None


@dataclass(frozen=True)
class Feed:
    """One conductor of a run (``branch``, by index) that a source winding makes live."""

    run: str
    branch: int
    system: System
    guard: Guard

    @property
    def unguarded(self) -> bool:
        """Whether the source reaches it without passing any overcurrent device."""
        return self.guard.device is None


@dataclass(frozen=True)
class Beyond:
    """What a conductor leads to, seen from its source.

    ``loads`` and ``faces`` up to the next devices; ``devices`` those next devices. ``ring``:
    the source reaches both ends another way, so that nothing lies beyond; the rest is empty
    then.
    """

    loads: tuple[int, ...] = ()
    faces: tuple[int, ...] = ()
    devices: tuple[int, ...] = ()
    ring: bool = False


@once
def guards(situation: Situation, system: System) -> dict[int, Guard]:
    """The guard of every node that one source winding reaches along its hot conductor."""
    wires, by_branch = situation.wires(), situation.circuit.device_of
    branches = situation.circuit.branches
    found: dict[int, Guard] = {}
    start = situation.circuit.sources[system.source].plus
    # Of equally good ways the one with fewer steps, then with less resistance: no name decides.
    count = itertools.count()
    before = before_winding(situation, system)
    queue = [(-before.rating_a, 0, 0.0, next(count), start, before)]
    while queue:
        _, steps, ohm, _, node, guard = heapq.heappop(queue)
        if node in found:
            continue
        found[node] = guard
        for branch, other in wires.get(node, ()):
            if other not in found:
                after = _passed(situation, guard, by_branch.get(branch))
                away = steps + 1, ohm + branches[branch].r_hot
                heapq.heappush(queue, (-after.rating_a, *away, next(count), other, after))
    return found


def guarded_back(situation: Situation, system: System) -> bool:
    """Whether all that a source drives comes back through a device: its return leads to nothing
    else before it."""
    circuit = situation.circuit
    source = circuit.sources[system.source]
    near = reached(situation.wires(bonds=True), source.minus, circuit.device_of.keys())
    parts = {spot.part for node in near for spot in circuit.spots[node]}
    devices = {device.owner for device in circuit.devices}
    return bool(parts & devices) and parts <= devices | {source.owner}


def before_winding(situation: Situation, system: System) -> Guard:
    """What stands before a winding that others drive: the device of its primary, its rating over
    the turns. Unbounded for all others.

    That protects both sides where each has two conductors (NFPA 70 240.4(F)), and where they share
    one, as what comes is then taken from there.
    """
    source = situation.circuit.sources[system.source]
    feeding, turns = _feeding(situation, source)
    ends: dict[int, dict[int | None, Guard]] = {}
    for driver, node in feeding:
        guard = guards(situation, driver).get(node, Guard())
        ends.setdefault(node, {})[guard.device] = guard
    if not ends:
        return Guard()
    together = max((list(each.values()) for each in ends.values()), key=_sum_a)
    largest = max(together, key=lambda guard: guard.rating_a)
    return Guard(_sum_a(together) / turns, largest.device)


def _sum_a(devices: Iterable[Guard]) -> float:
    return sum(guard.rating_a for guard in devices)


def _feeding(situation: Situation, source: LiveSource) -> tuple[list[tuple[System, int]], float]:
    """What drives a winding, by the end of its primary, and the turns over which it does; nothing
    where windings are driven apart from each other, or through a second core."""
    beside = [s for _, s in situation.active if s.primary and s.owner == source.owner]
    apart = len(beside) > 1 and not shares_conductor(situation, source)
    feeding = drivers(situation, source) if source.primary and not apart else []
    if any(situation.circuit.sources[s.source].primary for s, _ in feeding):
        feeding = []
    return feeding, sum(s.data.turns for s in beside)


def held_a(situation: Situation, system: System) -> float:
    """As :func:`lasting_a`; of a winding that others drive what these hold, over the turns."""
    source = situation.circuit.sources[system.source]
    feeding, turns = _feeding(situation, source)
    ends: dict[int, float] = {}
    for driver, node in feeding:
        driving = situation.circuit.sources[driver.source].data
        ends[node] = ends.get(node, 0.0) + lasting_a(driving)
    return min(lasting_a(source.data), max(ends.values()) / turns if ends else math.inf)


def device_at(situation: Situation, system: System, node: int) -> Device | None:
    """The device that protects a node from a source winding; None where none does, and where the
    winding does not reach it along its hot conductor."""
    return device_of(situation, guards(situation, system).get(node, Guard()))


def device_of(situation: Situation, guard: Guard) -> Device | None:
    """The device of a guard; before a transformer, with its rating on this side of that."""
    if guard.device is None:
        return None
    device = situation.circuit.devices[guard.device]
    if guard.rating_a == device.data.rating_a:
        return device
    return replace(device, data=replace(device.data, rating_a=guard.rating_a))


def _passed(situation: Situation, guard: Guard, device: int | None) -> Guard:
    if device is None:
        return guard
    rating = situation.circuit.devices[device].data.rating_a
    return guard if guard.rating_a < rating else Guard(rating, device)


def feeds_of_runs(situation: Situation) -> list[Feed]:
    """Every conductor of every run that a source winding makes live, from each such winding.

    What counts is which conductor is live, not how its pole is called; ground wires carry a
    source only by a mistake that other findings tell.
    """
    guarded = {system.source: guards(situation, system) for system in situation.systems}
    found: list[Feed] = []
    for index in sorted(situation.closed):
        branch = situation.circuit.branches[index]
        if branch.sort != "run" or is_protective(Pole(branch.pole)):
            continue
        for system in own_feeds(situation, branch.a):
            ends = [guarded[system.source].get(n) for n in (branch.a, branch.b)]
            known = [guard for guard in ends if guard is not None]
            if known:
                guard = max(known, key=lambda g: g.rating_a)
                found.append(Feed(branch.owner, index, system, guard))
    return found


def own_feeds(situation: Situation, node: int) -> list[System]:
    """The windings that bring a node a current of their own: not a converter that joins its input
    to its output by this very conductor and changes no voltage, for what it gives comes along it
    from the source before it, which counts itself."""
    joined = _joining(situation)
    return [system for system in situation.feeds(node) if system.source not in joined]


@once
def _joining(situation: Situation) -> frozenset[int]:
    circuit, label = situation.circuit, situation.clusters
    return frozenset(
        c.source
        for c in circuit.conversions
        if not c.data.steps
        and label[circuit.loads[c.load].a] == label[circuit.sources[c.source].plus]
    )


def smallest(situation: Situation, feed: Feed) -> Device | None:
    """The device that protects a conductor from one source; None where none does."""
    return device_of(situation, feed.guard)


def beyond(situation: Situation, feed: Feed) -> Beyond:
    """What a conductor leads to, as far as the next devices."""
    circuit, wires = situation.circuit, situation.wires()
    start, branch = circuit.sources[feed.system.source].plus, circuit.branches[feed.branch]
    label = situation.labels_without(frozenset({feed.branch}), LINKS)
    far = [node for node in (branch.a, branch.b) if label[node] != label[start]]
    if not far:
        return Beyond(ring=True)
    by_branch = circuit.device_of
    ahead = reached(wires, far[0], {feed.branch}, by_branch)
    edge = {i for node in ahead for i, _ in wires.get(node, ()) if i != feed.branch}
    return Beyond(
        _at(_load_ends(situation), ahead),
        _at(_face_ends(situation), ahead),
        tuple(sorted({by_branch[i] for i in edge if i in by_branch})),
    )


def _at(ends: Mapping[int, list[int]], nodes: Collection[int]) -> tuple[int, ...]:
    return tuple(sorted({i for node in nodes for i in ends.get(node, ())}))


@once
def _load_ends(situation: Situation) -> dict[int, list[int]]:
    """For each node the loads in circuit there, by index."""
    found: dict[int, list[int]] = {}
    for i, load in situation.loads:
        for node in (load.a, load.b):
            found.setdefault(node, []).append(i)
    return found


@once
def _face_ends(situation: Situation) -> dict[int, list[int]]:
    """For each node the outlets there, by index."""
    found: dict[int, list[int]] = {}
    for i, face in enumerate(situation.circuit.faces):
        for node in face.nodes.values():
            found.setdefault(node, []).append(i)
    return found


def faces_together(situation: Situation, feed: Feed) -> tuple[int, ...]:
    """The outlets on the circuit of a conductor, between its device and the next ones."""
    return faces_at(situation, situation.circuit.branches[feed.branch].a)


def faces_at(situation: Situation, node: int) -> tuple[int, ...]:
    """The outlets on the circuit of a node, between its device and the next ones."""
    return _at(_face_ends(situation), reached(situation.wires(), node, situation.circuit.device_of))


def reached(
    wires: dict[int, list[tuple[int, int]]], start: int, *barred: Collection[int]
) -> set[int]:
    """The nodes reached from one without using some branches."""

    def steps(node: int) -> Iterator[tuple[int, int]]:
        return (s for s in wires.get(node, ()) if not any(s[0] in bar for bar in barred))

    return set(walk([start], steps))


def lasting_a(source: Source) -> float:
    """What the conductors of a source must carry for good so that it needs no device, in ampere.

    Infinite for what nothing limits. A generator: 115 % of its rated current. What goes off by
    itself after some seconds: its rated current. Else the current that it holds at the most.
    """
    if source.rated_a is None or source.limit is None:
        return math.inf
    if source.group.driven:
        return GENERATOR_LEADS * source.rated_a
    if source.limit.off_s is not None:
        return source.rated_a
    return source.limit.sustained_a.high
