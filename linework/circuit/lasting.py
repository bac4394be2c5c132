"""A circuit with all that no position changes put together once, for searches over positions."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cached_property

from linework.circuit.model import Circuit, Condition, SelectorAt, SelectorKey
from linework.circuit.states import free_selectors
from linework.circuit.unions import joined

LINKS = frozenset({"bond", "soil"})

Edges = Mapping[int, tuple[tuple[int, int], ...]]
"""Label -> (branch, label at its other end), for the branches that only some positions close."""


class Lasting:
    """What lasts, by two sorts of labels for each node.

    ``cluster``: nodes that conductors join whatever the positions (no bonds, no soil).
    ``joint``: those that anything joins. ``at_cluster`` and ``at_joint``: what positions close
    between these.
    """

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self.free: dict[SelectorKey, SelectorAt] = {s.key: s for s in free_selectors(circuit)}
        self.followers = {key for key, s in circuit.selectors.items() if s.moves == "follows"}
        self.possible = {key: frozenset(s.positions) for key, s in circuit.selectors.items()}
        self.when: list[Condition] = [branch.when for branch in circuit.branches]
        self.answer = [self._for_good(when) for when in self.when]
        """For each branch whether it is closed whatever is chosen; None: that is open."""
        self.cluster = self._labels(LINKS)
        self.joint = self._labels(frozenset())
        self.at_cluster = self._edges(self.cluster, LINKS)
        self.at_joint = self._edges(self.joint, frozenset())

    def _for_good(self, when: Condition) -> bool | None:
        answer: bool | None = True
        for key, among in when:
            selector = self.circuit.selectors.get(key)
            if key in self.free or key in self.followers:
                answer = None
            elif selector is None or selector.rest not in among:
                return False
        return answer

    def _labels(self, leaving: frozenset[str]) -> list[int]:
        closed = (b for b, answer in zip(self.circuit.branches, self.answer, strict=True) if answer)
        pairs = ((b.a, b.b) for b in closed if b.sort not in leaving)
        return joined(len(self.circuit.spots), pairs)

    def _edges(self, label: list[int], leaving: frozenset[str]) -> Edges:
        found: dict[int, list[tuple[int, int]]] = {}
        for i, branch in enumerate(self.circuit.branches):
            a, b = label[branch.a], label[branch.b]
            if self.answer[i] is None and branch.sort not in leaving and a != b:
                found.setdefault(a, []).append((i, b))
                found.setdefault(b, []).append((i, a))
        return {key: tuple(edges) for key, edges in found.items()}

    def _by_cluster(self, ends: Iterable[tuple[int, Iterable[int]]]) -> dict[int, tuple[int, ...]]:
        found: dict[int, dict[int, None]] = {}
        for index, nodes in ends:
            for node in nodes:
                found.setdefault(self.cluster[node], {})[index] = None
        return {key: tuple(indices) for key, indices in found.items()}

    @cached_property
    def nodes_of(self) -> dict[int, frozenset[int]]:
        """Cluster -> its nodes."""
        found: dict[int, set[int]] = {}
        for node, label in enumerate(self.cluster):
            found.setdefault(label, set()).add(node)
        return {label: frozenset(nodes) for label, nodes in found.items()}

    @cached_property
    def beside(self) -> dict[int, frozenset[int]]:
        """Cluster -> the nodes that share a terminal with it."""
        found: dict[int, set[int]] = {}
        for nodes in self.circuit.terminals.values():
            for node in nodes.values():
                found.setdefault(self.cluster[node], set()).update(nodes.values())
        return {label: frozenset(nodes) for label, nodes in found.items()}

    @cached_property
    def hot_at(self) -> dict[int, tuple[int, ...]]:
        """Cluster -> the sources whose hot end is on it."""
        return self._by_cluster((i, (s.plus,)) for i, s in enumerate(self.circuit.sources))

    @cached_property
    def back_at(self) -> dict[int, tuple[int, ...]]:
        """Cluster -> the sources whose return is on it."""
        return self._by_cluster((i, (s.minus,)) for i, s in enumerate(self.circuit.sources))

    @cached_property
    def loads_at(self) -> dict[int, tuple[int, ...]]:
        """Cluster -> the loads with an end on it."""
        return self._by_cluster((i, (x.a, x.b)) for i, x in enumerate(self.circuit.loads))

    @cached_property
    def leaks_at(self) -> dict[int, tuple[int, ...]]:
        """Cluster -> the leaks with an end on it."""
        return self._by_cluster((i, (k.a, k.b)) for i, k in enumerate(self.circuit.leakages))

    @cached_property
    def pins_at(self) -> dict[int, tuple[int, ...]]:
        """Cluster -> the bare pins on it."""
        return self._by_cluster((i, p.nodes) for i, p in enumerate(self.circuit.pins))

    @cached_property
    def sources_of(self) -> dict[str, tuple[int, ...]]:
        """Part -> its sources."""
        found: dict[str, list[int]] = {}
        for i, source in enumerate(self.circuit.sources):
            found.setdefault(source.owner, []).append(i)
        return {owner: tuple(mine) for owner, mine in found.items()}

    @cached_property
    def hot_joint(self) -> dict[int, tuple[int, ...]]:
        """Joint -> the sources with an end there."""
        found: dict[int, list[int]] = {}
        for i, ends in enumerate(self.ends_of):
            for joint in ends:
                found.setdefault(joint, []).append(i)
        return {joint: tuple(sources) for joint, sources in found.items()}

    @cached_property
    def ends_of(self) -> tuple[tuple[int, ...], ...]:
        """The joints at the ends of each source."""
        return tuple(
            tuple(sorted({self.joint[s.plus], self.joint[s.minus]})) for s in self.circuit.sources
        )

    @cached_property
    def direct(self) -> frozenset[str]:
        """The parts with sources of direct current."""
        return frozenset(s.owner for s in self.circuit.sources if s.data.hertz == 0.0)

    @cached_property
    def others_at(self) -> dict[int, tuple[tuple[int, int], ...]]:
        """Node -> (branch, node at its other end), for every branch that may be closed."""
        found: dict[int, list[tuple[int, int]]] = {}
        for i, branch in enumerate(self.circuit.branches):
            if branch.a != branch.b and self.answer[i] is not False:
                found.setdefault(branch.a, []).append((i, branch.b))
                found.setdefault(branch.b, []).append((i, branch.a))
        return {node: tuple(ends) for node, ends in found.items()}
