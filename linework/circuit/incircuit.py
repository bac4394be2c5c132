"""What of a circuit is in circuit in one state, worked out once for everybody who asks."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from linework.circuit.cuts import Cut, Ties, cut
from linework.circuit.model import Branch, Circuit, Leakage, LiveSource, Load, PinsAt, Sorts
from linework.circuit.states import State
from linework.circuit.unions import IntUnions, joined

NOTHING: Sorts = frozenset()
SOIL: Sorts = frozenset({"soil"})
LINKS: Sorts = frozenset({"bond", "soil"})

_FEW = 8
"""So many opened branches are walked round; for more all is joined anew."""


@dataclass(frozen=True)
class Extent:
    """What of a circuit of conductors is one live circuit, by index; ``parts``: whose sources."""

    parts: frozenset[str]
    branches: frozenset[int]
    loads: frozenset[int]
    leaks: frozenset[int]
    pins: frozenset[int]


class InCircuit:
    """A circuit in one operating state. Indices are those of the circuit's tuples.

    ``extent``: only this is seen (None: all), so that one live circuit is looked at by itself.
    """

    def __init__(self, circuit: Circuit, state: State, extent: Extent | None = None) -> None:
        self.circuit, self.state, self.extent = circuit, state, extent
        self._labels: dict[Sorts, list[int]] = {}
        self._cut: dict[tuple[frozenset[int], Sorts], Cut] = {}
        self._ties: dict[Sorts, Ties] = {}

    @cached_property
    def closed(self) -> frozenset[int]:
        """Indices of the branches in circuit."""
        if self.extent is not None:
            return self.extent.branches
        return self.circuit.lasting.union(self._switched_on)

    @cached_property
    def _switched_on(self) -> list[int]:
        holds = self.state.holds
        return [i for i, when in self.circuit.switched if holds(when)]

    @cached_property
    def branches(self) -> list[Branch]:
        """The branches in circuit."""
        return [self.circuit.branches[i] for i in sorted(self.closed)]

    @cached_property
    def active(self) -> list[tuple[int, LiveSource]]:
        """The sources that are on and seen."""
        holds, extent = self.state.holds, self.extent
        return [
            (i, s)
            for i, s in enumerate(self.circuit.sources)
            if (extent is None or s.owner in extent.parts) and holds(s.when)
        ]

    @cached_property
    def loads(self) -> list[tuple[int, Load]]:
        """The loads in circuit."""
        loads = self.circuit.loads
        if self.extent is not None:
            return [(i, loads[i]) for i in sorted(self.extent.loads)]
        return [(i, x) for i, x in enumerate(loads) if self.state.holds(x.when)]

    @cached_property
    def drawing(self) -> frozenset[int]:
        """The indices of the loads in circuit."""
        return frozenset(i for i, _ in self.loads)

    @cached_property
    def pins(self) -> list[tuple[int, PinsAt]]:
        """The bare pins."""
        pins = self.circuit.pins
        if self.extent is not None:
            return [(i, pins[i]) for i in sorted(self.extent.pins)]
        return [(i, x) for i, x in enumerate(pins) if self.state.holds(x.when)]

    @cached_property
    def leaks(self) -> list[Leakage]:
        """The leakage paths in circuit."""
        return [leak for _, leak in self.leaking if leak.a != leak.b]

    @cached_property
    def leaking(self) -> list[tuple[int, Leakage]]:
        """The same with their indices, those from a node to itself included."""
        leaks = self.circuit.leakages
        if self.extent is not None:
            return [(i, leaks[i]) for i in sorted(self.extent.leaks)]
        return [(i, x) for i, x in enumerate(leaks) if self.state.holds(x.when)]

    def labels(self, leaving: Sorts = NOTHING) -> list[int]:
        """For each node the label of what joins it, branches of some sorts left out."""
        if leaving not in self._labels:
            self._labels[leaving] = self._joined(leaving)
        return self._labels[leaving]

    def _joined(self, leaving: Sorts) -> list[int]:
        branches = self.circuit.branches
        if self.extent is None:
            sets, more = self.circuit.lasting_sets(leaving).copy(), self._switched_on
        else:
            sets, more = IntUnions(len(self.circuit.spots)), sorted(self.closed)
        return sets.join_all(
            (branches[i].a, branches[i].b) for i in more if branches[i].sort not in leaving
        ).labels()

    def labels_without(self, opened: frozenset[int], leaving: Sorts = NOTHING) -> Cut:
        """As ``labels``, with some branches opened besides."""
        key = (opened, leaving)
        if key not in self._cut:
            self._cut[key] = self._labels_cut(opened & self.closed, leaving)
        return self._cut[key]

    def _labels_cut(self, opened: frozenset[int], leaving: Sorts) -> Cut:
        branches = self.circuit.branches
        if len(opened) <= _FEW:
            ends = [n for i in sorted(opened) for n in (branches[i].a, branches[i].b)]
            return cut(self.labels(leaving), self._ties_of(leaving), opened, ends)
        left = (
            (branches[i].a, branches[i].b)
            for i in self.closed
            if i not in opened and branches[i].sort not in leaving
        )
        return Cut(joined(len(self.circuit.spots), left), {}, whole=True)

    def _ties_of(self, leaving: Sorts) -> Ties:
        if leaving not in self._ties:
            found: list[list[tuple[int, int]]] = [[] for _ in self.circuit.spots]
            for i in sorted(self.closed):
                branch = self.circuit.branches[i]
                if branch.sort not in leaving:
                    found[branch.a].append((i, branch.b))
                    found[branch.b].append((i, branch.a))
            self._ties[leaving] = found
        return self._ties[leaving]

    @cached_property
    def conductive(self) -> list[int]:
        """For each node the label of what conductors, contacts and bonds join it to."""
        return self.labels()
