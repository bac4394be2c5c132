"""What lies behind some parts or runs, seen from the sources: it hangs on what is wrong there."""

from __future__ import annotations

from collections.abc import Collection

from linework.circuit.cuts import Cut
from linework.circuit.incircuit import LINKS
from linework.study.neutral.metal import ground_nodes
from linework.study.situation import Situation


def downstream(situation: Situation, owners: Collection[str]) -> frozenset[str]:
    """The ids of the parts and runs that no source reaches any more once all conductors of some
    parts or runs are opened, and these themselves."""
    circuit = situation.circuit
    ends = {n for _, source in situation.active for n in (source.plus, source.minus)}
    lost = _lost(situation, _without(situation, owners), ends)
    parts = {spot.part for node in lost for spot in circuit.spots[node] if spot.part != "@"}
    runs = {branch.owner for branch in situation.branches if {branch.a, branch.b} & lost}
    return frozenset({*owners, *parts, *runs})


def on_conductors(situation: Situation, owner: str) -> frozenset[str]:
    """The ids of all parts and runs on the conductors of a source."""
    mine = {s.hot for s in situation.systems if s.owner == owner}
    mine |= {s.back for s in situation.systems if s.owner == owner}
    parts = {part for label in mine for part in situation.parts_on.get(label, ())}
    runs = {b.owner for b in situation.branches if situation.clusters[b.a] in mine}
    return frozenset({*parts, *runs})


def parts_links(situation: Situation, owners: Collection[str]) -> bool:
    """Whether a bond of a neutral or minus hangs on what lies behind some parts or runs: opened
    there, the sources lose it."""
    ends = {n for _, source in situation.active for n in (source.plus, source.minus)}
    lost = _lost(situation, _without(situation, owners), ends)
    bonds = (branch for branch in situation.branches if branch.sort == "bond")
    return any({branch.a, branch.b} & lost for branch in bonds)


def ungrounded(situation: Situation, owners: Collection[str]) -> frozenset[str]:
    """The ids of the parts on metal or ground wires that no source's ground reaches any more once
    all conductors of some parts or runs are opened."""
    circuit = situation.circuit
    label = situation.metallic_without(_opened(situation, owners))
    still = {label[n] for owner in situation.owners for n in ground_nodes(circuit, owner)}
    metal = {m.node for m in circuit.metals}
    metal |= {n for part in circuit.terminals_of for n in ground_nodes(circuit, part)}
    lost = {label[n] for n in metal} - still
    return frozenset(
        part
        for part, terminals in circuit.terminals_of.items()
        if any(label[node] in lost for nodes in terminals for node in nodes.values())
    )


def watching(situation: Situation, owners: Collection[str]) -> frozenset[str]:
    """The ids of the parts whose ground-fault device has some parts or runs on its load side."""
    sensors = (sensor.owner for sensor in situation.circuit.sensors)
    return frozenset(s for s in sensors if not downstream(situation, (s,)).isdisjoint(owners))


def _opened(situation: Situation, owners: Collection[str]) -> frozenset[int]:
    found = {i for owner in owners for i in situation.circuit.branches_of.get(owner, ())}
    return frozenset(found) & situation.closed


def _without(situation: Situation, owners: Collection[str]) -> Cut:
    return situation.labels_without(_opened(situation, owners), LINKS)


def _lost(situation: Situation, label: Cut, ends: Collection[int]) -> set[int]:
    """The nodes on the conductors of some ends that are cut off from all of these."""
    live, still = {situation.clusters[n] for n in ends}, {label[n] for n in ends}
    return {
        node
        for node, cluster in enumerate(situation.clusters)
        if cluster in live and label[node] not in still
    }
