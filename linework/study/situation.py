"""One state of one case, with what every study asks of it worked out once."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass
from functools import cached_property

from linework.circuit.incircuit import InCircuit
from linework.circuit.model import Circuit
from linework.circuit.network import (
    IN_USE,
    STRONGEST,
    WEAKEST,
    Assumption,
    Network,
    frequencies,
)
from linework.circuit.states import State
from linework.circuit.unions import joined


@dataclass(frozen=True)
class System:
    """One live source winding: its conductors by the labels of :attr:`Situation.conductive`."""

    source: int
    owner: str
    hertz: float
    hot: int
    back: int

    @property
    def is_ac(self) -> bool:
        """Whether it is alternating current."""
        return self.hertz > 0.0


class Situation(InCircuit):
    """A circuit in one operating state, with its live windings and its networks."""

    def __init__(self, circuit: Circuit, state: State) -> None:
        super().__init__(circuit, state)
        self._networks: dict[tuple[float, Assumption], Network] = {}

    @cached_property
    def clusters(self) -> list[int]:
        """As ``conductive``, without the bonds and without soil: what is one conductor by itself."""
        return joined(
            len(self.circuit.spots),
            ((b.a, b.b) for b in self.branches if b.sort not in ("bond", "soil")),
        )

    @cached_property
    def metallic(self) -> list[int]:
        """As ``conductive``, without soil: what metal joins."""
        return joined(
            len(self.circuit.spots), ((b.a, b.b) for b in self.branches if b.sort != "soil")
        )

    def metallic_without(self, left_out: frozenset[int]) -> list[int]:
        """As ``metallic``, with some branches taken away."""
        return joined(
            len(self.circuit.spots),
            (
                (self.circuit.branches[i].a, self.circuit.branches[i].b)
                for i in self.closed
                if i not in left_out and self.circuit.branches[i].sort != "soil"
            ),
        )

    @cached_property
    def systems(self) -> list[System]:
        """The live windings."""
        label = self.clusters
        return [
            System(i, s.owner, s.data.hertz, label[s.plus], label[s.minus]) for i, s in self.active
        ]

    @cached_property
    def hot_of(self) -> dict[int, list[System]]:
        """Cluster label -> the windings whose hot conductor it is."""
        found: dict[int, list[System]] = {}
        for system in self.systems:
            found.setdefault(system.hot, []).append(system)
        return found

    @cached_property
    def back_of(self) -> dict[int, list[System]]:
        """Cluster label -> the windings whose return conductor it is."""
        found: dict[int, list[System]] = {}
        for system in self.systems:
            found.setdefault(system.back, []).append(system)
        return found

    def feeds(self, node: int) -> list[System]:
        """The windings whose hot conductor reaches a node."""
        return self.hot_of.get(self.clusters[node], [])

    def returns(self, node: int) -> list[System]:
        """The windings whose return conductor reaches a node."""
        return self.back_of.get(self.clusters[node], [])

    @cached_property
    def hertz(self) -> list[float]:
        """The frequencies present."""
        return frequencies(self)

    def network(self, hertz: float, assumption: Assumption) -> Network:
        """The factorised network of one frequency. NotSolved where it is singular."""
        key = (hertz, assumption)
        if key not in self._networks:
            self._networks[key] = Network(self, hertz, assumption)
        return self._networks[key]

    # what is electrically the same

    @cached_property
    def content(self) -> Hashable:
        """Everything in circuit, by value; equal contents have equal studies."""
        circuit = self.circuit
        return (
            circuit.layout,
            frozenset(circuit.marks[i] for i in self.closed),
            tuple(s for _, s in self.active),
            tuple(x for _, x in self.loads),
            tuple(self.leaks),
            circuit.devices,
            circuit.sensors,
            tuple(sorted(self.state.positions.items())),
        )

    @cached_property
    def owners(self) -> list[str]:
        """The parts with live windings."""
        return list(dict.fromkeys(s.owner for s in self.systems))

    def system_content(self, owner: str) -> Hashable:
        """All that decides what happens on the conductors of one source part.

        Its hot and return conductors with their loads and devices, and the bonds
        and ground wires that these reach; not the live conductors of others, which
        meet it in one point at the most.
        """
        circuit, cluster = self.circuit, self.clusters
        mine = {c for s in self.systems if s.owner == owner for c in (s.hot, s.back)}
        foreign = {c for s in self.systems for c in (s.hot, s.back)} - mine
        reach = {self.conductive[s.plus] for _, s in self.active if s.owner == owner}
        reach |= {self.conductive[s.minus] for _, s in self.active if s.owner == owner}
        wires = [
            i
            for i in self.closed
            if self.conductive[circuit.branches[i].a] in reach
            and cluster[circuit.branches[i].a] not in foreign
            and cluster[circuit.branches[i].b] not in foreign
        ]
        kept = self._without_dead_ends(wires, mine)
        return (
            circuit.layout,
            frozenset(circuit.marks[i] for i in kept),
            tuple(s for _, s in self.active if cluster[s.plus] in mine),
            tuple(x for _, x in self.loads if cluster[x.a] in mine or cluster[x.b] in mine),
            tuple(d for d in circuit.devices if kept & set(d.branches)),
            tuple(d for d in circuit.sensors if kept & set(d.senses)),
            self.state.passing,
        )

    def _without_dead_ends(self, wires: list[int], mine: set[int]) -> set[int]:
        """Wires without the ground wires that lead to nothing live: no current can flow there."""
        branches, cluster = self.circuit.branches, self.clusters
        fed = {
            node
            for nodes in self.circuit.terminals.values()
            if any(cluster[n] in mine for n in nodes.values())
            for node in nodes.values()
        }
        kept = set(wires)
        at: dict[int, set[int]] = {}
        for i in wires:
            at.setdefault(branches[i].a, set()).add(i)
            at.setdefault(branches[i].b, set()).add(i)
        leaves = [n for n, there in at.items() if len(there) == 1 and n not in fed]
        while leaves:
            node = leaves.pop()
            if len(at[node]) != 1:
                continue
            i = at[node].pop()
            kept.discard(i)
            other = branches[i].b if branches[i].a == node else branches[i].a
            at[other].discard(i)
            if len(at[other]) == 1 and other not in fed:
                leaves.append(other)
        return kept


__all__ = ["IN_USE", "STRONGEST", "WEAKEST", "Situation", "System"]
