"""Ways along the conductors of a state."""

from __future__ import annotations

from heapq import heappop, heappush

from linework.circuit.series import ways_back
from linework.study.once import once
from linework.study.situation import Situation, System
from linework.study.walks import Walk, way_to
from linework.study.ways.windings import drivers


class Ways:
    """Shortest ways along the conductors of a state, searched once from each start."""

    def __init__(self, situation: Situation) -> None:
        self._situation = situation
        self._walked: dict[tuple[int, bool], Walk[int, int]] = {}

    def way(self, start: int, goal: int, bonds: bool = False) -> list[int] | None:
        """Branch indices from start to goal along one conductor; None if there is no way."""
        key = (start, bonds)
        if key not in self._walked:
            self._walked[key] = _shortest(self._situation, start, bonds)
        return way_to(goal, self._walked[key])


def _shortest(situation: Situation, start: int, bonds: bool) -> Walk[int, int]:
    """The ways of the fewest conductors from a node; of equally short ones that of the least
    resistance, so that no name decides."""
    wires, branches = situation.wires(bonds), situation.circuit.branches
    found: dict[int, tuple[int, int] | None] = {}
    waiting: list[tuple[int, float, int, tuple[int, int] | None]] = [(0, 0.0, start, None)]
    while waiting:
        steps, ohm, node, last = heappop(waiting)
        if node in found:
            continue
        found[node] = last
        for i, other in wires.get(node, ()):
            if other not in found:
                heappush(waiting, (steps + 1, ohm + branches[i].r_hot, other, (i, node)))
    return found


def way(situation: Situation, start: int, goal: int, bonds: bool = False) -> list[int] | None:
    """One way of :class:`Ways`."""
    return Ways(situation).way(start, goal, bonds)


def parts_on_way(situation: Situation, source: int, goal: int) -> set[str]:
    """Parts that the hot conductor touches from a source to a node, both ends included."""
    circuit = situation.circuit
    steps = way(situation, circuit.sources[source].plus, goal)
    if steps is None:
        return set()
    nodes = {n for i in steps for n in (circuit.branches[i].a, circuit.branches[i].b)} | {goal}
    return {spot.part for node in nodes for spot in circuit.spots[node] if spot.part != "@"}


def parts_passed(situation: Situation, source: int, goal: int) -> tuple[str, ...]:
    """Parts and runs through which the hot conductor leads from a source to a node, in this order
    and each once; not what else hangs on it."""
    steps = _ways(situation).way(situation.circuit.sources[source].plus, goal)
    return tuple(dict.fromkeys(situation.circuit.branches[i].owner for i in steps or ()))


def parts_in_turn(situation: Situation, source: int, goal: int) -> list[str]:
    """Parts that the hot conductor touches from a node back to a source, the nearest first."""
    circuit = situation.circuit
    steps = _ways(situation).way(circuit.sources[source].plus, goal) or []
    nodes = [goal]
    for i in reversed(steps):
        branch = circuit.branches[i]
        nodes.append(branch.b if nodes[-1] == branch.a else branch.a)
    return [spot.part for node in nodes for spot in circuit.spots[node] if spot.part != "@"]


@once
def _ways(situation: Situation) -> Ways:
    """The ways from the sources, each searched once."""
    return Ways(situation)


def fed_parts(situation: Situation, owner: str, only_ac: bool = False) -> set[str]:
    """Parts that have a terminal on a hot conductor of a source part, the source included."""
    systems = [s for s in situation.systems if s.owner == owner]
    hot = {s.hot for s in systems if s.is_ac or not only_ac}
    return {part for label in hot for part in situation.parts_on.get(label, ())}


def volts_between(situation: Situation, a: int, b: int) -> float:
    """Open voltage between two nodes from the windings that reach them, in volt.

    Each end counts once, however many sources are on it; the return counts nothing, and
    nothing lies between two nodes of one conductor. Batteries in series add up.
    """
    if situation.clusters[a] == situation.clusters[b]:
        return 0.0
    string = max(_string_v(situation, a, b), _string_v(situation, b, a))
    return string or sum(
        max((winding_v(situation, s) for s in situation.feeds(node)), default=0.0)
        for node in (a, b)
    )


def winding_v(situation: Situation, system: System) -> float:
    """The open voltage of a winding in volt; of one that others drive, by what they give it."""
    source = situation.circuit.sources[system.source]
    if not source.primary:
        return source.data.volts
    best: dict[int, float] = {}
    for driver, node in drivers(situation, source):
        volts = situation.circuit.sources[driver.source].data.volts
        best[node] = max(volts, best.get(node, 0.0))
    return sum(best.values()) * source.data.turns


def _string_v(situation: Situation, plus: int, minus: int) -> float:
    """Voltage of the longest string of batteries between two nodes."""
    label, sources = situation.conductive, situation.circuit.sources
    passed = (
        ways_back(situation, system.source, label).get(label[minus], ())
        for system in situation.feeds(plus)
    )
    return max((sum(sources[i].data.volts for i in string) for string in passed), default=0.0)
