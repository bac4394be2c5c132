"""What hangs behind a switch: only loads, or more."""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.choices import Choices
from linework.circuit.lasting import Lasting
from linework.circuit.model import Condition, Leakage, Load, NodeAt, SelectorKey
from linework.circuit.pockets import Pockets


def pockets_of(lasting: Lasting, choices: Choices) -> Pockets:
    """The switches of a circuit behind which only loads hang."""
    behind = Behind(lasting, choices)
    return Pockets({key: behind.side(key) for key in sorted(behind.pockets())})


class Behind:
    """What hangs behind each switch."""

    def __init__(self, lasting: Lasting, choices: Choices) -> None:
        self.lasting, self.circuit = lasting, lasting.circuit
        locked = {key for lock in choices.locks for key, _ in lock}
        self._free = {k for k, s in choices.free.items() if len(s.positions) == 2} - locked
        self._branches: dict[SelectorKey, list[int]] = {}
        for i, branch in enumerate(self.circuit.branches):
            for key, _ in branch.when:
                self._branches.setdefault(key, []).append(i)
        self._barred = self._of_sources_and_followers()

    def _of_sources_and_followers(self) -> set[NodeAt]:
        circuit = self.circuit
        loads = (circuit.loads[c.load] for c in circuit.conversions)
        sensed = (
            pair
            for selector in circuit.selectors.values()
            for _, pairs in (*selector.rule, *selector.passing)
            for pair in pairs
        )
        return {
            *circuit.anchors,
            *(node for s in circuit.sources for node in (s.plus, s.minus)),
            *(node for load in loads for node in (load.a, load.b)),
            *(node for pair in sensed for node in pair),
        }

    def pockets(self) -> Iterator[SelectorKey]:
        """The switches behind which only loads hang, none of them near to another."""
        inner = {key: self._inner(key) for key in self._free}
        quiet = {key: nodes for key, nodes in inner.items() if nodes and self._alone(key, nodes)}
        for key, nodes in quiet.items():
            near = self._near(nodes)
            if all(near.isdisjoint(other) for k, other in quiet.items() if k != key):
                yield key

    def side(self, key: SelectorKey) -> tuple[str, frozenset[int]]:
        """The position in circuit of a pocket's switch, and the joints on which it hangs."""
        inner, branches = self._inner(key), self._branches[key]
        ((_, among),) = self.circuit.branches[branches[0]].when
        (closed,) = among
        ends = {n for i in branches for n in self._ends(i) if n not in inner}
        return closed, frozenset(self.lasting.joint[n] for n in ends)

    def _ends(self, branch: int) -> tuple[NodeAt, NodeAt]:
        return self.circuit.branches[branch].a, self.circuit.branches[branch].b

    def _inner(self, key: SelectorKey) -> frozenset[NodeAt]:
        """The nodes behind a switch; none where more than loads may lie there."""
        branches = self._branches.get(key, [])
        conditions = {self.circuit.branches[i].when for i in branches}
        if len(conditions) != 1 or not self._by_one_position(*conditions):
            return frozenset()
        found: set[NodeAt] = set()
        for i in branches:
            sides = (self._joined(end, key) for end in self._ends(i))
            quiet = next((side for side in sides if side is not None), None)
            if quiet is None:
                return frozenset()
            found |= quiet
        return frozenset(found)

    def _by_one_position(self, when: Condition) -> bool:
        return len(when) == 1 and len(when[0][1]) == 1

    def _joined(self, start: NodeAt, key: SelectorKey) -> set[NodeAt] | None:
        """What is joined to a node without a switch; None where that is more than loads."""
        own = set(self._branches[key])
        found, queue = {start}, [start]
        for node in queue:
            if node in self._barred:
                return None
            for i, other in self.lasting.others_at.get(node, ()):
                if i in own:
                    continue
                if self.lasting.answer[i] is None:
                    return None
                if other not in found:
                    found.add(other)
                    queue.append(other)
        return found

    def _hanging(self, nodes: frozenset[NodeAt]) -> Iterator[tuple[Condition, tuple[NodeAt, ...]]]:
        """The condition and the nodes of each load, leak and pin on some nodes."""
        circuit = self.circuit
        drawing: tuple[Load | Leakage, ...] = (*circuit.loads, *circuit.leakages)
        for x in drawing:
            if x.a in nodes or x.b in nodes:
                yield x.when, (x.a, x.b)
        for pins in circuit.pins:
            if not nodes.isdisjoint(pins.nodes):
                yield pins.when, pins.nodes

    def _alone(self, key: SelectorKey, nodes: frozenset[NodeAt]) -> bool:
        """Whether what hangs behind a switch hangs on no other."""
        moving = {*self.lasting.free, *self.lasting.followers} - {key}
        stands = any(
            name == key[1] and other[0] == key[0]
            for other, selector in self.circuit.selectors.items()
            for line, _ in selector.rule
            for name, _ in line.stands
        )
        conditions = (when for when, _ in self._hanging(nodes))
        return not stands and all(k not in moving for when in conditions for k, _ in when)

    def _near(self, nodes: frozenset[NodeAt]) -> set[NodeAt]:
        """The nodes behind a switch, those of their loads, those of their terminals."""
        found = {*nodes, *(node for _, ends in self._hanging(nodes) for node in ends)}
        for mates in self.circuit.terminals.values():
            if not nodes.isdisjoint(mates.values()):
                found |= set(mates.values())
        return found
