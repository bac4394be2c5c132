"""Study: parts that power passes through: the device before each, what lies behind, and what they
carry."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.model import Device
from linework.design import Design
from linework.study.situation import Situation, System
from linework.study.slack import exceeds
from linework.study.studies import Studies
from linework.study.ways.bars import through_bar_a
from linework.study.ways.paths import way
from linework.study.ways.protection import (
    Beyond,
    Feed,
    Guard,
    beyond,
    device_of,
    guards,
    held_a,
)
from linework.study.ways.sums import Inflow, adds_up, alone_a, inflow, taken_a
from linework.study.wires.rated import Rated

_THROUGH = ("contact", "cord")
"""What leads through a part."""


@dataclass(frozen=True)
class Behind:
    """A part with the device that protects it from one source, and its node that this feeds."""

    rated: Rated
    node: int
    system: System
    device: Device

    def order(self, situation: Situation) -> tuple[int, bool, str]:
        """How far it is from its source; at one place the outlet comes before what is in it."""
        start = situation.circuit.sources[self.system.source].plus
        steps = way(situation, start, self.node) or ()
        return len(steps), not self.rated.kind.receptacle, self.rated.part

    def ahead(self, situation: Situation) -> Beyond | None:
        """What lies behind it; None where power does not pass through it on a single conductor."""
        branches = situation.circuit.branches
        own = [
            i
            for i in situation.closed
            if branches[i].owner == self.rated.part
            and branches[i].sort in _THROUGH
            and self.node in (branches[i].a, branches[i].b)
        ]
        if len(own) != 1:
            return None
        return beyond(situation, Feed("", own[0], self.system, Guard()))


def device_before(situation: Situation, rated: Rated) -> Behind | bool:
    """The largest device before a part, of equals the farthest from the sources; True where some
    source reaches it past all devices and can drive more than it is made for; False where nothing
    feeds it so."""
    found: list[Behind] = []
    bare = False
    for node in rated.nodes:
        for system in situation.feeds(node):
            guard = guards(situation, system).get(node, Guard())
            device = device_of(situation, guard)
            if device is None:
                bare = bare or exceeds(held_a(situation, system), rated.bare_a)
                continue
            found.append(Behind(rated, node, system, device))
    if bare or not found:
        return bare
    return max(found, key=lambda b: (b.device.data.rating_a, situation.away(b.device.branches)))


@dataclass(frozen=True)
class Together:
    """What several sources, or ways, together let into a part, and the most in ampere of it that
    its ends can take for good."""

    inflow: Inflow
    taken_a: float


def together(situation: Situation, rated: Rated) -> Together | None:
    """The way through a part into which most comes together; None where none adds to another, and
    where nothing bounds it."""
    found: list[Together] = []
    for near, far, branch in _passages(situation, rated):
        comes = inflow(situation, (near,), situation.feeds(near), branch)
        if comes.finite and exceeds(comes.amps, alone_a(situation, near)):
            taken = (
                through_bar_a(situation, near)
                if near == far
                else taken_a(situation, near, far, branch)
            )
            found.append(Together(comes, taken))
    return max(found, key=lambda each: (each.taken_a, each.inflow.amps), default=None)


def unguarded_bar(situation: Situation, rated: Rated) -> Together | None:
    """What a source without a device lets into a bar or board, and what the devices there let on;
    None where that is no more than it is made for, and where nothing bounds it."""
    branches = situation.circuit.branches
    through = {
        node
        for i in situation.closed
        if branches[i].owner == rated.part and branches[i].sort in _THROUGH
        for node in (branches[i].a, branches[i].b)
    }
    bars = [n for n in rated.nodes if n not in through and _parts_ways(situation, n)]
    found = [
        Together(comes, through_bar_a(situation, bar))
        for bar in bars
        if (comes := inflow(situation, (bar,), situation.feeds(bar), -1)).finite
        and exceeds(comes.amps, rated.bare_a)
    ]
    return max(found, key=lambda each: (each.taken_a, each.inflow.amps), default=None)


def _passages(situation: Situation, rated: Rated) -> Iterator[tuple[int, int, int]]:
    """The ways through a part, both ways round: nodes and branch; a bar is entered and left at
    one node."""
    branches = situation.circuit.branches
    nodes = {node for node in rated.nodes if adds_up(situation, node)}
    own = [
        i
        for i in sorted(situation.closed)
        if branches[i].owner == rated.part and branches[i].sort in _THROUGH
    ]
    ways = [i for i in own if not nodes.isdisjoint((branches[i].a, branches[i].b))]
    for i in ways:
        yield branches[i].a, branches[i].b, i
        yield branches[i].b, branches[i].a, i
    yield from ((n, n, -1) for n in sorted(nodes) if not ways and _parts_ways(situation, n))


def _parts_ways(situation: Situation, node: int) -> bool:
    """Whether more than two ways meet at a node, loads and sources among them: what comes by one
    of two leaves by the other."""
    loads = sum(node in (load.a, load.b) for _, load in situation.loads)
    sources = sum(node in (source.plus, source.minus) for _, source in situation.active)
    return len(situation.wires().get(node, ())) + loads + sources > 2


def carried_a(studies: Studies, design: Design, rated: Rated) -> float:
    """The largest current through a part with the drawn loads on, in ampere: in its own contacts,
    of what is plugged into it, of the runs that feed a board. Through a bar, which is one node,
    half of what comes and goes."""
    situation, loaded = studies.situation, studies.loaded
    branches, loads = situation.circuit.branches, situation.circuit.loads
    seated = [s.part for s in design.seated_in(rated.part)] if rated.plugs else []
    own = [
        i
        for i in situation.closed
        if branches[i].owner == rated.part and {branches[i].a, branches[i].b} & set(rated.nodes)
    ]
    found = [loaded.amps(i) for i in own if branches[i].sort in _THROUGH]
    if not own and not rated.plugs:
        ends = {node: situation.wires().get(node, ()) for node in rated.nodes}
        found += [sum(loaded.amps(i) for i, _ in there) / 2.0 for there in ends.values()]
    found += [a for i, a in loaded.load_a.items() if loads[i].owner in seated]
    if rated.kind.board:
        feed = {r.id for r in design.runs_at(rated.part, "feed")}
        found += [loaded.amps(i) for i in situation.closed if branches[i].owner in feed]
    return max((a for a in found if math.isfinite(a)), default=0.0)
