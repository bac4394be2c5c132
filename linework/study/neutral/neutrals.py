"""What a neutral may have to carry: returns that cancel each other, returns that add up.

Conductors are taken as a tree: what hangs on a neutral is found by the branches without which
it would be cut off (bridges of the graph; R. Tarjan 1974). The most that flows there for good is
the largest flow from the sources to all loads and outlets of one phase that hang on it, every
device and source being a bound (L. Ford and D. Fulkerson 1956).
"""

from __future__ import annotations

import cmath
import math
from collections import Counter, defaultdict
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

import networkx as nx

from linework.circuit.network import load_admittance
from linework.study.once import once
from linework.study.situation import Situation, System
from linework.study.ways.paths import Ways

_IN_PHASE = 1e-6


@dataclass(frozen=True)
class Taker:
    """A load or an outlet between a hot conductor and a neutral, and what it may take for good.

    ``amps`` infinite: an outlet, which takes what its circuit gives. ``system`` feeds it.
    """

    owner: str
    hot: int
    neutral: int
    amps: float
    system: System


@dataclass(frozen=True)
class Shared:
    """A neutral conductor (``branch``) that returns several hot conductors of one phase.

    ``most_a``: the most that devices, sources and loads let flow in it for good, in ampere.
    ``hots``: the branches by which it is fed; ``takers`` hang on it.
    """

    branch: int
    hots: tuple[int, ...]
    takers: tuple[Taker, ...]
    most_a: float


def shared_neutrals(situation: Situation, also: Collection[str] = ()) -> list[Shared]:
    """Every conductor of a run in which returns of one phase add up.

    ``also``: runs whose neutral is wanted though it returns one hot conductor only.
    """
    found: list[Shared] = []
    trees = _Trees(situation)
    branches = situation.circuit.branches
    for branch, takers in sorted(_hanging(situation, trees).items()):
        wanted = branches[branch].owner in also
        for group in _in_phase(situation, takers):
            hots, adds = _hots(situation, trees, branch, group)
            if adds or wanted:
                most = largest_flow(situation, group)
                found.append(Shared(branch, hots, tuple(group), most))
    return found


def balanced_neutrals(situation: Situation) -> dict[int, tuple[Taker, ...]]:
    """The conductors of runs that return both legs of a source: branch -> what hangs on it."""
    sources = situation.circuit.sources

    def opposite(one: Taker, other: Taker) -> bool:
        a, b = (sources[t.system.source].data.phase_deg for t in (one, other))
        return one.system.owner == other.system.owner and _cosine(a, b) < -_IN_PHASE

    return {
        branch: tuple(takers)
        for branch, takers in returning(situation).items()
        if any(opposite(takers[0], other) for other in takers[1:])
    }


@once
def returning(situation: Situation) -> dict[int, list[Taker]]:
    """The conductors of runs by which alone something returns, with all that does."""
    return dict(sorted(_hanging(situation, _Trees(situation)).items()))


def _hanging(situation: Situation, trees: _Trees) -> dict[int, list[Taker]]:
    """The conductors of runs by which alone something returns, with all that does."""
    on: dict[int, list[Taker]] = {}
    for taker in _takers(situation):
        for branch in trees.bridges(taker.system, True, taker.neutral):
            on.setdefault(branch, []).append(taker)
    return on


def _takers(situation: Situation) -> Iterator[Taker]:
    """Loads and outlets that lie between a hot conductor and a neutral."""
    for _, load in situation.loads:
        amps = abs(load_admittance(load)) * load.data.volts
        for hot, neutral in ((load.a, load.b), (load.b, load.a)):
            yield from _fed(situation, load.owner, hot, neutral, amps)
    for face in situation.circuit.faces:
        if "N" in face.nodes:
            for pole, node in face.nodes.items():
                if pole.startswith("L"):
                    yield from _fed(situation, face.owner, node, face.nodes["N"], math.inf)


def _fed(situation: Situation, owner: str, hot: int, neutral: int, amps: float) -> Iterator[Taker]:
    returns = {s.source for s in situation.returns(neutral)}
    for system in situation.feeds(hot):
        if system.is_ac and system.source in returns:
            yield Taker(owner, hot, neutral, amps, system)


class _Trees:
    """The conductors of a state, with the bridges on the way to each node."""

    def __init__(self, situation: Situation) -> None:
        self._situation, self._ways = situation, Ways(situation)
        pairs = Counter(
            frozenset((situation.circuit.branches[i].a, other))
            for node, wires in situation.wires().items()
            for i, other in wires
            if situation.circuit.branches[i].a == node
        )
        graph = nx.Graph(tuple(pair) for pair in pairs if len(pair) == 2)
        self._bridges = {p for edge in nx.bridges(graph) if pairs[p := frozenset(edge)] == 1}

    @once
    def bridges(self, system: System, back: bool, goal: int) -> list[int]:
        """The conductors of runs without which a node would be cut off from a winding's end, the
        nearest to the node first."""
        source = self._situation.circuit.sources[system.source]
        way = self._ways.way(source.minus if back else source.plus, goal) or []
        branches = self._situation.circuit.branches
        return [
            i
            for i in reversed(way)
            if branches[i].sort == "run"
            and frozenset((branches[i].a, branches[i].b)) in self._bridges
        ]


def _in_phase(situation: Situation, takers: list[Taker]) -> Iterator[list[Taker]]:
    """The takers in groups whose currents add up; sources without a common phase do at worst, sets
    that run in parallel have one."""
    sources = situation.circuit.sources
    phases = [(t.system.owner, sources[t.system.source].data.phase_deg) for t in takers]
    among = dict.fromkeys(phases)
    paired = {t.system.owner for t in takers if sources[t.system.source].data.in_step}
    seen: set[frozenset[tuple[str, float]]] = set()
    for owner, angle in among:
        members = frozenset(
            (other, at)
            for other, at in among
            if (other != owner and not {owner, other} <= paired) or _cosine(angle, at) > _IN_PHASE
        )
        if members not in seen:
            seen.add(members)
            yield [t for t, phase in zip(takers, phases, strict=True) if phase in members]


def _cosine(one_deg: float, other_deg: float) -> float:
    return cmath.exp(1j * math.radians(one_deg - other_deg)).real


def _hots(
    situation: Situation, trees: _Trees, neutral: int, group: list[Taker]
) -> tuple[tuple[int, ...], bool]:
    """The hot conductors of its own run that a neutral returns, and whether it returns several, or
    some of other runs."""
    branches = situation.circuit.branches
    run = branches[neutral].owner
    beside: set[int | None] = set()
    for taker in group:
        ways = trees.bridges(taker.system, False, taker.hot)
        beside.add(next((i for i in ways if branches[i].owner == run), None))
    own = {i for i in beside if i is not None}
    several = len(own) > 1 and not _forked(situation, own)
    return tuple(sorted(own)), several or None in beside


def _forked(situation: Situation, hots: set[int]) -> bool:
    """Conductors of one run that begin or end at one point: one conductor with two ends."""
    branches = situation.circuit.branches
    return len({branches[i].a for i in hots}) == 1 or len({branches[i].b for i in hots}) == 1


def largest_flow(situation: Situation, takers: list[Taker]) -> float:
    """The most that devices and sources let flow to some takers together for good, in ampere.

    Infinite where nothing bounds it.
    """
    most: defaultdict[tuple[object, object], float] = defaultdict(float)  # parallel ways add up
    labels = {t.system.hot for t in takers}
    for _, source in situation.active:
        if situation.clusters[source.plus] in labels:
            most["sources", source.plus] += source.data.rated_a or math.inf
    devices = situation.circuit.device_of
    for i in situation.closed:
        branch = situation.circuit.branches[i]
        if branch.sort in ("bond", "soil") or situation.clusters[branch.a] not in labels:
            continue
        device = devices.get(i)
        amps = math.inf if device is None else situation.circuit.devices[device].data.rating_a
        most[branch.a, branch.b] += amps
        most[branch.b, branch.a] += amps
    for taker in {(t.owner, t.hot, t.neutral): t for t in takers}.values():
        most[taker.hot, "takers"] += taker.amps
    return _flow(most)


def _flow(most: Mapping[tuple[object, object], float]) -> float:
    """The largest flow from "sources" to "takers"; infinite where no cut bounds it."""
    graph = nx.DiGraph()
    for (a, b), amps in most.items():
        # without a capacity an edge is unbounded
        graph.add_edge(a, b, **({} if math.isinf(amps) else {"capacity": amps}))
    try:
        return float(nx.maximum_flow_value(graph, "sources", "takers"))
    except nx.NetworkXUnbounded:
        return math.inf
