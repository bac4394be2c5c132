"""How far along its conductors a source is from the first device.

A bank counts as one source: distances begin at the posts of every battery that hangs
on the same conductor. What is tapped off the cable of a starter begins at the tap, and so does
what leaves a cable that carries for good all that a source gives.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from linework.circuit.model import LiveSource
from linework.study.once import once
from linework.study.situation import Situation, System
from linework.study.walks import walk
from linework.study.ways.paths import Ways
from linework.study.ways.protection import Feed, guards, lasting_a

Lengths = Mapping[str, float | None]
"""Run id -> its length in meter, None where it is not given."""

Carries = Callable[[str, float], bool]
"""Whether a run, by id, carries so many ampere for good."""


@dataclass(frozen=True)
class Lead:
    """One conductor that a source feeds with no device between.

    ``far_m``: from the source to its far end, None where a length on the way is not given.
    ``devices``: those at which it, or what it leads to, ends; the nearest of them lies ``device_m``
    from the source, None where there is none or a length is not given. ``jumper``: it joins two
    batteries of a bank. ``cranking``: the starter of an engine is fed through it. ``tapped``:
    ``far_m`` counts from where it leaves such a cable.
    """

    feed: Feed
    far_m: float | None
    devices: tuple[int, ...]
    jumper: bool
    cranking: bool = False
    tapped: bool = False
    device_m: float | None = None


def _never(run: str, amps: float) -> bool:
    return False


def leads(
    situation: Situation, feed_list: list[Feed], lengths: Lengths, carries: Carries = _never
) -> list[Lead]:
    """The unguarded ones among the feeds, with their distances."""
    found: list[Lead] = []
    zones: dict[int, _Zone] = {}
    for feed in feed_list:
        if feed.unguarded:
            index = feed.system.source
            if index not in zones:
                zones[index] = _Zone(situation, feed.system, lengths, carries)
            found.append(zones[index].lead(feed))
    return found


def cranking_ways(situation: Situation, system: System) -> frozenset[int]:
    """The branches on the way of a battery's hot conductor to the starters that it feeds.

    What it gives to one past another battery, with a device between the two, is no cranking
    circuit: so a charge relay lets a battery help that which starts the engine.
    """
    source, ways = situation.circuit.sources[system.source], Ways(situation)
    if not source.data.group.stores:
        return frozenset()
    found: set[int] = set()
    for _, load in situation.loads:
        if load.data.lasts == "seconds" and system in situation.feeds(load.a):
            way = ways.way(source.plus, load.a) or ()
            found |= set() if _by_another(situation, source, way) else {*way}
    return frozenset(found)


def _by_another(situation: Situation, source: LiveSource, way: Sequence[int]) -> bool:
    """Whether a way from a battery comes to the hot post of another one behind a device."""
    circuit = situation.circuit
    others = {s.plus for _, s in situation.active if s.data.group.stores} - {source.plus}
    guarded = False
    for index in way:
        guarded = guarded or index in circuit.device_of
        branch = circuit.branches[index]
        if guarded and {branch.a, branch.b} & others:
            return True
    return False


@once
def starter_cables(situation: Situation) -> frozenset[int]:
    """The branches by which batteries feed the starters of engines."""
    return frozenset().union(*(cranking_ways(situation, s) for s in situation.systems))


def battery_posts(situation: Situation) -> frozenset[int]:
    """The nodes at which a battery in circuit is joined."""
    cells = [s for _, s in situation.active if s.data.group.stores]
    return frozenset(node for s in cells for node in (s.plus, s.minus))


class _Zone:
    """What one source reaches without a device, with the length of conductor up to each node."""

    def __init__(
        self, situation: Situation, system: System, lengths: Lengths, carries: Carries
    ) -> None:
        self.situation, self.lengths = situation, lengths
        self.nodes = {n for n, g in guards(situation, system).items() if g.device is None}
        self.wires, self.by_branch = situation.wires(), situation.circuit.device_of
        source = situation.circuit.sources[system.source]
        self.posts = battery_posts(situation) if source.data.group.stores else frozenset()
        self.cranking = cranking_ways(situation, system)
        branches = (situation.circuit.branches[i] for i in self.cranking)
        taps = {node for branch in branches for node in (branch.a, branch.b)}
        self.posted = {*self._carried(source, carries), *(self.posts & self.nodes)}
        self.starts = self.posted | (taps & self.nodes)
        self.away = self._distances()

    def _carried(self, source: LiveSource, carries: Carries) -> set[int]:
        """The nodes up to which its conductors carry for good all that a source gives."""
        most = lasting_a(source.data)
        branches = self.situation.circuit.branches

        def steps(node: int) -> list[tuple[int, int]]:
            return [
                (i, other)
                for i, other in self.wires.get(node, ())
                if other in self.nodes
                and (branches[i].sort != "run" or carries(branches[i].owner, most))
            ]

        return set(walk([source.plus], steps)) if math.isfinite(most) else {source.plus}

    def _length_m(self, branch: int) -> float:
        """Zero inside a part; NaN would lose its order, so an unknown length is infinite."""
        owner = self.situation.circuit.branches[branch].owner
        length = self.lengths.get(owner, 0.0)
        return math.inf if length is None else length

    def _distances(self) -> dict[int, tuple[float, int, bool]]:
        """Meters, steps and whether from a tap, to each node; the steps tell near from far where
        no length does."""
        found: dict[int, tuple[float, int, bool]] = {}
        queue = [(0.0, 0, node not in self.posted, node) for node in self.starts]
        heapq.heapify(queue)
        while queue:
            away, steps, tapped, node = heapq.heappop(queue)
            if node in found:
                continue
            found[node] = away, steps, tapped
            for branch, other in self.wires.get(node, ()):
                if other in self.nodes and other not in found and branch not in self.by_branch:
                    entry = (away + self._length_m(branch), steps + 1, tapped, other)
                    heapq.heappush(queue, entry)
        return found

    def lead(self, feed: Feed) -> Lead:
        """The lead of one unguarded conductor."""
        branch = self.situation.circuit.branches[feed.branch]
        near, far = sorted((branch.a, branch.b), key=lambda n: self.away[n])
        away, tapped = self.away[near][0] + self._length_m(feed.branch), self.away[near][2]
        jumper = branch.a in self.posts and branch.b in self.posts
        known = None if math.isinf(away) else away
        devices, cranking = self._devices_from(far, near), feed.branch in self.cranking
        beyond = min(devices.values(), default=math.inf)
        device_m = None if math.isinf(beyond) else beyond
        return Lead(feed, known, tuple(devices), jumper, cranking, tapped, device_m)

    def _devices_from(self, far: int, near: int) -> dict[int, float]:
        """The devices met from the far end on, going away from the source, the nearest first, and
        how far each is in meter; infinite where a length is not given."""
        barred = {near, *self.starts} - {far}

        def steps(node: int) -> list[tuple[int, int]]:
            here = self.wires.get(node, ())
            return [(i, n) for i, n in here if i not in self.by_branch and n not in barred]

        nodes = walk([far], steps)
        found: dict[int, float] = {}
        for node in nodes:
            for device in {
                self.by_branch[i] for i, _ in self.wires.get(node, ()) if i in self.by_branch
            }:
                found[device] = min(found.get(device, math.inf), self.away[node][0])
        return dict(sorted(found.items(), key=lambda item: (item[1], item[0])))
