"""One state of one case, with what every study asks of it worked out once."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from linework.circuit.content import Contents
from linework.circuit.cuts import Cut
from linework.circuit.incircuit import LINKS, SOIL, Extent, InCircuit
from linework.circuit.lasting import Lasting
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
from linework.study.walks import walk


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

    def __init__(
        self,
        circuit: Circuit,
        state: State,
        extent: Extent | None = None,
        contents: Contents | None = None,
    ) -> None:
        super().__init__(circuit, state, extent)
        self._given = contents
        self._networks: dict[tuple[float, Assumption], Network] = {}
        self._contents: dict[str, Hashable] = {}
        self._wires: dict[bool, dict[int, list[tuple[int, int]]]] = {}

    @cached_property
    def clusters(self) -> list[int]:
        """As ``conductive``, without bonds and soil: what is one conductor by itself."""
        return self.labels(LINKS)

    @cached_property
    def metallic(self) -> list[int]:
        """As ``conductive``, without soil: what metal joins."""
        return self.labels(SOIL)

    @cached_property
    def wired(self) -> list[int]:
        """As ``metallic``, without what runs through a chassis or hull: what wires join."""
        bodies = set(self.circuit.bodies)
        return joined(
            len(self.circuit.spots),
            ((b.a, b.b) for b in self.branches if b.sort != "soil" and not bodies & {b.a, b.b}),
        )

    def metallic_without(self, left_out: frozenset[int]) -> Cut:
        """As ``metallic``, with some branches taken away."""
        return self.labels_without(left_out, SOIL)

    def wires(self, bonds: bool = False) -> dict[int, list[tuple[int, int]]]:
        """For each node the conductors in circuit there: (branch, node at its other end).

        Soil never counts; bonds, bonded metal included, only where asked for.
        """
        if bonds not in self._wires:
            found = self._wires[bonds] = {}
            for i in sorted(self.closed):
                branch = self.circuit.branches[i]
                if branch.sort != "soil" and (bonds or branch.sort != "bond"):
                    found.setdefault(branch.a, []).append((i, branch.b))
                    found.setdefault(branch.b, []).append((i, branch.a))
        return self._wires[bonds]

    def away(self, branches: Iterable[int]) -> int:
        """How many conductors and contacts lie between the live windings and some branches, the
        contacts of a device; zero where none leads there."""
        ends = (self.circuit.branches[i] for i in branches)
        nodes = (node for branch in ends for node in (branch.a, branch.b))
        return min((self._steps_away[n] for n in nodes if n in self._steps_away), default=0)

    @cached_property
    def _steps_away(self) -> dict[int, int]:
        """How many conductors and contacts lie between a live winding and each node, bonds and
        soil apart."""
        wires = self.wires()
        starts = (node for _, source in self.active for node in (source.plus, source.minus))
        found: dict[int, int] = {}
        for node, last in walk(starts, lambda node: wires.get(node, ())).items():
            found[node] = 0 if last is None else found[last[1]] + 1
        return found

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

    @cached_property
    def parts_on(self) -> dict[int, set[str]]:
        """Cluster label -> the parts that have a terminal on it."""
        found: dict[int, set[str]] = {}
        for part, terminals in self.circuit.terminals_of.items():
            for nodes in terminals:
                for node in nodes.values():
                    found.setdefault(self.clusters[node], set()).add(part)
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
    def contents(self) -> Contents:
        """The marks by which elements of the circuit are compared."""
        return self._given or Contents(Lasting(self.circuit))

    @cached_property
    def owners(self) -> list[str]:
        """The parts with live windings that something outside can meet."""
        outside = (s for s in self.systems if s.source not in self.sealed_in)
        return list(dict.fromkeys(s.owner for s in outside))

    @cached_property
    def sealed_in(self) -> frozenset[int]:
        """The windings, by the index of their source, on the conductors of cells that are sealed
        into a part: these themselves, and what charges them."""
        sources = self.circuit.sources
        cells = {s.hot for s in self.systems if sources[s.source].data.group.sealed}
        return frozenset(s.source for s in self.systems if s.hot in cells)

    @cached_property
    def _together(self) -> dict[int, set[int]]:
        """Cluster label -> the nodes that share a terminal with it."""
        cluster = self.clusters
        found: dict[int, set[int]] = {}
        for nodes in self.circuit.terminals.values():
            for node in nodes.values():
                found.setdefault(cluster[node], set()).update(nodes.values())
        return found

    @cached_property
    def beside(self) -> dict[str, set[str]]:
        """Each part with live windings, and those that it can be shorted to at some terminal."""
        place = {owner: i for i, owner in enumerate(self.owners)}
        pairs: set[tuple[int, int]] = set()
        for label, systems in self.hot_of.items():
            ours = {s.owner for s in systems}
            for other in self._touched(label):
                hot = {s.owner for s in self.hot_of.get(other, ())}
                back = {s.owner for s in self.back_of.get(other, ())}
                theirs = hot if back & ours else hot | back
                pairs |= {(place[a], place[b]) for a in ours for b in theirs if a != b}
        label_of = joined(len(place), pairs)
        return {a: {b for b in place if label_of[place[b]] == label_of[place[a]]} for a in place}

    def _touched(self, label: int) -> set[int]:
        """The clusters that share a terminal with one, and those of windings that it drives, on
        whose faults all of it has a say."""
        cluster, sources = self.clusters, (s for _, s in self.active if s.primary)
        driven = {cluster[s.plus] for s in sources if label in {cluster[n] for n in s.primary}}
        return driven.union(cluster[n] for n in self._together.get(label, ()))

    def system_content(self, owner: str) -> Hashable:
        """All that decides what happens on the conductors of one source part.

        Its hot and return conductors, and those of sources with which it shares a
        terminal, with their loads, leaks and devices, and the bonds and ground wires
        that these reach; not the live conductors of others, which meet it in one point
        at the most. (What leaks from those, milliamperes at the most, is neglected
        beside a fault.)
        """
        if owner not in self._contents:
            self._contents[owner] = self._system_content(owner)
        return self._contents[owner]

    def _system_content(self, owner: str) -> Hashable:
        circuit, cluster, together = self.circuit, self.clusters, self.conductive
        ours = self.beside[owner]
        mine = {c for s in self.systems if s.owner in ours for c in (s.hot, s.back)}
        foreign = {c for s in self.systems for c in (s.hot, s.back)} - mine
        own = [s for _, s in self.active if s.owner in ours]
        reach = {together[node] for s in own for node in (s.plus, s.minus)}
        branches = circuit.branches
        wires = [
            i
            for i in self.closed
            if together[branches[i].a] in reach
            and cluster[branches[i].a] not in foreign
            and cluster[branches[i].b] not in foreign
        ]
        kept = self._without_dead_ends(wires, mine)
        told: tuple[tuple[str, Iterable[int]], ...] = (
            ("branches", kept),
            ("sources", (i for i, s in self.active if cluster[s.plus] in mine)),
            ("loads", (i for i, x in self.loads if cluster[x.a] in mine or cluster[x.b] in mine)),
            ("leakages", self._leaking(mine)),
            ("devices", (i for i, d in enumerate(circuit.devices) if kept & {*d.branches})),
            ("sensors", (i for i, d in enumerate(circuit.sensors) if kept & {*d.senses})),
        )
        mark = self.contents.mark
        marks = tuple(frozenset(mark(field, i) for i in indices) for field, indices in told)
        return (circuit.layout, circuit.hertz, self.state.passing, marks)

    def _leaking(self, clusters: set[int]) -> Iterator[int]:
        for i, leak in self.leaking:
            ends = {self.clusters[leak.a], self.clusters[leak.b]}
            if not clusters.isdisjoint(ends):
                yield i

    def _without_dead_ends(self, wires: list[int], mine: set[int]) -> set[int]:
        """Wires without the ground wires that lead to nothing live: no current can flow there.

        What leads to earth or to a body stays: potentials are told against these.
        """
        branches = self.circuit.branches
        fed = set(self.circuit.anchors).union(*(self._together.get(c, ()) for c in mine))
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
