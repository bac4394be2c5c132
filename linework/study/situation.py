"""One state of one case, with what every study asks of it worked out once."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass
from functools import cached_property

from linework.circuit.model import Branch, Circuit, LiveSource
from linework.circuit.network import (
    IN_USE,
    STRONGEST,
    WEAKEST,
    Assumption,
    Network,
    frequencies,
)
from linework.circuit.states import State, conductive_labels
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


class Situation:
    """A circuit in one operating state."""

    def __init__(self, circuit: Circuit, state: State) -> None:
        self.circuit, self.state = circuit, state
        self._networks: dict[tuple[float, Assumption], Network] = {}

    @cached_property
    def closed(self) -> frozenset[int]:
        """Indices of the branches in circuit."""
        return frozenset(
            i for i, b in enumerate(self.circuit.branches) if self.state.holds(b.when)
        )

    @cached_property
    def conductive(self) -> list[int]:
        """For each node the label of what conductors, contacts and bonds join it to."""
        return conductive_labels(self.circuit, self.state)

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

    @property
    def branches(self) -> list[Branch]:
        """The branches in circuit."""
        return [self.circuit.branches[i] for i in sorted(self.closed)]

    @cached_property
    def active(self) -> list[tuple[int, LiveSource]]:
        """The sources that are on, with their indices."""
        return [(i, s) for i, s in enumerate(self.circuit.sources) if self.state.holds(s.when)]

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
        return frequencies(self.circuit, self.state)

    def network(self, hertz: float, assumption: Assumption) -> Network:
        """The factorised network of one frequency. NotSolved where it is singular."""
        key = (hertz, assumption)
        if key not in self._networks:
            self._networks[key] = Network(self.circuit, self.state, hertz, assumption)
        return self._networks[key]

    @cached_property
    def signature(self) -> Hashable:
        """What is energised and how: states of equal signature are electrically the same."""
        label = self.conductive
        live = {label[n] for _, s in self.active for n in (s.plus, s.minus)}
        circuit = self.circuit
        wires = frozenset(
            (b.owner, b.name, b.a, b.b, b.r_cold, b.r_hot, b.x)
            for b in self.branches
            if label[b.a] in live
        )
        bare = frozenset(
            n
            for n, pins in enumerate(circuit.pins)
            if self.state.holds(pins.when) and any(label[x] in live for x in pins.nodes)
        )
        sources = frozenset(s for _, s in self.active if self._reaches_something(s))
        loads = frozenset(
            x for x in circuit.loads if label[x.a] in live and self.state.holds(x.when)
        )
        return (wires, bare, sources, loads, self.state.passing)

    def _reaches_something(self, source: LiveSource) -> bool:
        """Whether a source feeds more than its own part."""
        label = self.conductive[source.plus]
        return any(
            self.conductive[b.a] == label and b.owner != source.owner for b in self.branches
        )


__all__ = ["IN_USE", "STRONGEST", "WEAKEST", "Situation", "System"]
