"""Study: what all sources together drive through a place for good.

Devices bound what comes along a conductor, each by its rating, and some sources bound it
themselves; what several let through adds up where their ways meet. The most that can come is the
largest flow from all sources to the place, and what bounds it is the least cut between them (the
theorem of maximum flow and minimum cut; L. R. Ford and D. R. Fulkerson 1956).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass

import networkx as nx
from networkx.algorithms.flow import shortest_augmenting_path

from linework.circuit.incircuit import LINKS
from linework.circuit.model import Device
from linework.circuit.unions import Unions
from linework.codes import stated
from linework.study.once import once
from linework.study.situation import Situation, System
from linework.study.slack import exceeds
from linework.study.ways.protection import (
    before_winding,
    guards,
    held_a,
    lasting_a,
    own_feeds,
    reached,
)
from linework.wiring import Pole, Source, SourceGroup, is_protective

_START, _HERE = "sources", "here"


@dataclass(frozen=True)
class Inflow:
    """The most that comes to a place for good, in ampere, and what bounds it: devices and sources
    by index, those nearest to the place where several would."""

    amps: float
    devices: tuple[int, ...] = ()
    sources: tuple[int, ...] = ()

    @property
    def finite(self) -> bool:
        """Whether anything bounds it."""
        return math.isfinite(self.amps)

    def largest(self, situation: Situation) -> Device | None:
        """The largest of its devices; None where only sources bound it."""
        found = [situation.circuit.devices[i] for i in self.devices]
        return max(found, key=lambda d: (d.data.rating_a, d.owner), default=None)

    def owners(self, situation: Situation) -> list[str]:
        """The parts of its devices and sources."""
        circuit = situation.circuit
        devices = [circuit.devices[i].owner for i in self.devices]
        return list(dict.fromkeys(devices + [circuit.sources[i].owner for i in self.sources]))


UNBOUND = Inflow(math.inf)


@dataclass(frozen=True)
class Sum:
    """A conductor of a run (branch index) into which, at the node ``near``, more comes together
    than from any source by itself; ``far`` is its other end."""

    run: str
    branch: int
    near: int
    far: int
    inflow: Inflow


def inflow(
    situation: Situation, nodes: Collection[int], systems: Iterable[System], without: int = -1
) -> Inflow:
    """What windings drive into nodes of their hot conductor, not through one branch.

    ``UNBOUND`` where one of no limit reaches them past all devices.
    """
    graph = _between_regions(situation, nodes, without)
    sources = situation.circuit.sources
    for i, system in sorted({system.source: system for system in systems}.items()):
        before_a = min(before_winding(situation, system).rating_a, held_a(situation, system))
        most = min(counted_a(sources[i].data), before_a)
        _tie(graph, _START, ("source", i), most)
        _tie(graph, ("source", i), graph.graph["region"](sources[i].plus), math.inf)
    return _least_cut(graph)


def _least_cut(graph: nx.DiGraph) -> Inflow:
    if _START not in graph:
        return Inflow(0.0)
    try:
        amps, (before, _) = nx.minimum_cut(graph, _START, _HERE, flow_func=shortest_augmenting_path)
    except nx.NetworkXUnbounded:
        return UNBOUND
    cut = [edge for edge in graph.edges if edge[0] in before and edge[1] not in before]
    devices = {i for edge in cut for i in graph.edges[edge].get("devices", ())}
    held = tuple(thing[1] for start, thing in cut if start == _START)
    return Inflow(amps, tuple(sorted(devices)), tuple(sorted(held)))


def _between_regions(situation: Situation, nodes: Collection[int], without: int) -> nx.DiGraph:
    """What lies between devices as nodes, with the devices as ways of their rating; ``_HERE`` is
    what reaches ``nodes`` past none of them."""
    wires, by_branch = situation.wires(), situation.circuit.device_of
    here = set[int]().union(*(reached(wires, node, {without}, by_branch) for node in nodes))
    label = _regions(situation)

    def region(node: int) -> Hashable:
        return _HERE if node in here else label[node]

    graph = nx.DiGraph(region=region)
    graph.add_node(_HERE)
    hot = {situation.clusters[node] for node in nodes}
    for index, (a, b) in _contacts(situation):
        if index != without and situation.clusters[a] in hot and region(a) != region(b):
            device = by_branch[index]
            rating = situation.circuit.devices[device].data.rating_a
            _tie(graph, region(a), region(b), rating, device)
            _tie(graph, region(b), region(a), rating, device)
    return graph


def _tie(graph: nx.DiGraph, a: Hashable, b: Hashable, amps: float, device: int = -1) -> None:
    """A way from one to another; several add up. What has no capacity lets anything through."""
    if (a, b) not in graph.edges:
        graph.add_edge(a, b, devices=set(), **({} if math.isinf(amps) else {"capacity": 0.0}))
    if "capacity" in graph.edges[a, b]:
        graph.edges[a, b]["capacity"] += amps
    graph.edges[a, b]["devices"].update({device} - {-1})


def _contacts(situation: Situation) -> Iterator[tuple[int, tuple[int, int]]]:
    """The contacts of devices in circuit, with their ends."""
    for index in sorted(situation.circuit.device_of.keys() & situation.closed):
        branch = situation.circuit.branches[index]
        yield index, (branch.a, branch.b)


@once
def _regions(situation: Situation) -> list[int]:
    """For each node the label of what reaches it past no device."""
    opened = frozenset(index for index, _ in _contacts(situation))
    return list(situation.labels_without(opened, LINKS))


@once
def _several(situation: Situation) -> frozenset[int]:
    """The clusters in which currents of several sources, or along several ways, may add up."""
    found = {label for label, systems in situation.hot_of.items() if len(systems) > 1}
    label, regions = _regions(situation), Unions[int]()
    for _, (a, b) in _contacts(situation):
        if label[a] != label[b]:
            if regions.find(label[a]) == regions.find(label[b]):
                found.add(situation.clusters[a])
            regions.join(label[a], label[b])
    return frozenset(found)


def adds_up(situation: Situation, node: int) -> bool:
    """Whether currents of several sources, or along several ways, may meet on a conductor."""
    return situation.clusters[node] in _several(situation)


@once
def sums(situation: Situation) -> list[Sum]:
    """Each live conductor of a run into which more comes than from any source alone, by the end at
    which most comes. What nothing bounds is unprotected, and not here."""
    found = []
    branches = situation.circuit.branches
    for index in sorted(situation.closed):
        branch = branches[index]
        live = branch.sort == "run" and not is_protective(Pole(branch.pole))
        if live and adds_up(situation, branch.a):
            both = [*_into(situation, index, branch.a, branch.b)]
            both += _into(situation, index, branch.b, branch.a)
            found += [max(both, key=lambda each: each.inflow.amps)] if both else []
    return found


def _into(situation: Situation, index: int, near: int, far: int) -> Iterator[Sum]:
    systems = own_feeds(situation, near)
    if not systems:
        return
    come = inflow(situation, (near,), systems, index)
    if come.finite and exceeds(come.amps, alone_a(situation, near)):
        yield Sum(situation.circuit.branches[index].owner, index, near, far, come)


def alone_a(situation: Situation, node: int) -> float:
    """The most in ampere that any source by itself brings to a node past a single device; none
    where one of no limit reaches it past all."""
    sources = situation.circuit.sources
    return max(
        (
            min(
                guards(situation, system)[node].rating_a,
                counted_a(sources[system.source].data),
                held_a(situation, system),
            )
            for system in own_feeds(situation, node)
        ),
        default=0.0,
    )


def counted_a(source: Source) -> float:
    """What a source counts for among others in ampere: what it holds for good, what charges 125 %
    of its rated current (NFPA 70 705.12(B), from memory)."""
    most = lasting_a(source)
    if not source.group.charges or source.rated_a is None:
        return most
    return min(most, stated("common", "added_output").value * source.rated_a)


def takes(situation: Situation, item: Sum) -> Inflow:
    """What the far end of a conductor can take for good: nothing where there is only what gives,
    what devices let through to stores that it charges, anything where loads or outlets are."""
    label = situation.labels_without(frozenset({item.branch}), LINKS)
    if label[item.far] == label[item.near] or _draws(situation, label, item.far):
        return UNBOUND
    stores = stores_on(situation, label, item.far)
    return inflow(situation, (item.far,), stores, item.branch)


def taken_a(situation: Situation, near: int, far: int, without: int = -1) -> float:
    """The most that flows for good from one node of a conductor through another, in ampere: what
    comes, and no more than loads, outlets and stores that are charged take there.

    ``without``: the branch between the two; a bar has none, and both nodes are the same.
    """
    comes = inflow(situation, (near,), situation.feeds(near), without)
    label = situation.labels_without(frozenset({without}), LINKS)
    if label[far] == label[near] and near != far:
        return comes.amps
    charging = inflow(situation, (near,), charging_on(situation, label, near), without)
    charged = inflow(situation, (far,), stores_on(situation, label, far), without)
    taken = outflow_a(situation, label, far, without)
    return min(comes.amps, taken + min(charging.amps, charged.amps))


def outflow_a(situation: Situation, label: Sequence[int], node: int, without: int) -> float:
    """What devices let through to loads and outlets, in ampere; the way back is the same."""
    ends = [n for n in drawing(situation) if label[n] == label[node]]
    if not ends:
        return 0.0
    graph = _between_regions(situation, (node,), without)
    for end in ends:
        _tie(graph, _START, graph.graph["region"](end), math.inf)
    return _least_cut(graph).amps


def _draws(situation: Situation, label: Sequence[int], node: int) -> bool:
    return any(label[n] == label[node] for n in drawing(situation))


def drawing(situation: Situation) -> Iterator[int]:
    """The nodes of loads in circuit and of outlets; the starter of an engine is none that draws
    for good."""
    loads = (load for _, load in situation.loads if load.data.lasts != "seconds")
    yield from (node for load in loads for node in (load.a, load.b))
    yield from (node for face in situation.circuit.faces for node in face.nodes.values())


def stores_on(situation: Situation, label: Sequence[int], node: int) -> list[System]:
    """The stores on one side."""
    return _here(situation, label, node, lambda group: group.stores)


def charging_on(situation: Situation, label: Sequence[int], node: int) -> list[System]:
    """What charges on one side."""
    return _here(situation, label, node, lambda group: group.limits_itself)


def _here(
    situation: Situation, label: Sequence[int], node: int, fact: Callable[[SourceGroup], bool]
) -> list[System]:
    sources = situation.circuit.sources
    return [
        system
        for system in situation.feeds(node)
        if fact((source := sources[system.source]).data.group) and label[source.plus] == label[node]
    ]
