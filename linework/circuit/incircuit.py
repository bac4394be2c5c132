"""What of a circuit is in circuit in one state, worked out once for everybody who asks."""

from __future__ import annotations

from functools import cached_property

from linework.circuit.cuts import Cut, Ties, cut
from linework.circuit.model import Branch, Circuit, Leakage, LiveSource, Load, Sorts
from linework.circuit.states import State
from linework.circuit.unions import joined

NOTHING: Sorts = frozenset()
SOIL: Sorts = frozenset({"soil"})
LINKS: Sorts = frozenset({"bond", "soil"})

_FEW = 8
"""So many opened branches are walked round; for more all is joined anew."""


class InCircuit:
    """A circuit in one operating state. Indices are those of the circuit's tuples.

    ``parts``: only the sources of these are seen (None: of all), so that one live circuit is
    looked at by itself.
    """

    def __init__(self, circuit: Circuit, state: State, parts: frozenset[str] | None = None) -> None:
        self.circuit, self.state, self.parts = circuit, state, parts
        self._labels: dict[Sorts, list[int]] = {}
        self._cut: dict[tuple[frozenset[int], Sorts], Cut] = {}
        self._ties: dict[Sorts, Ties] = {}

    @cached_property
    def closed(self) -> frozenset[int]:
        """Indices of the branches in circuit."""
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
        holds, seen = self.state.holds, self.parts
        return [
            (i, s)
            for i, s in enumerate(self.circuit.sources)
            if (seen is None or s.owner in seen) and holds(s.when)
        ]

    @cached_property
    def loads(self) -> list[tuple[int, Load]]:
        """The loads in circuit."""
        holds = self.state.holds
        return [(i, x) for i, x in enumerate(self.circuit.loads) if holds(x.when)]

    @cached_property
    def leaks(self) -> list[Leakage]:
        """The leakage paths in circuit."""
        holds = self.state.holds
        return [leak for leak in self.circuit.leakages if leak.a != leak.b and holds(leak.when)]

    def labels(self, leaving: Sorts = NOTHING) -> list[int]:
        """For each node the label of what joins it, branches of some sorts left out."""
        if leaving not in self._labels:
            branches = self.circuit.branches
            sets = self.circuit.lasting_sets(leaving).copy()
            self._labels[leaving] = sets.join_all(
                (branches[i].a, branches[i].b)
                for i in self._switched_on
                if branches[i].sort not in leaving
            ).labels()
        return self._labels[leaving]

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
