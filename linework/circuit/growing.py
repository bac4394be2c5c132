"""A live circuit grows from one source part, as far as conductors, converters and terminals
join it to others, in a world of which only some positions are known."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from linework.circuit.knowledge import Knowledge
from linework.circuit.lasting import LINKS, Lasting
from linework.circuit.model import Condition
from linework.circuit.ways import Edge, on_the_way


@dataclass(frozen=True)
class Grown:
    """What decides a live circuit, by index.

    ``parts``: those with live windings in it; ``clusters``: its conductors, by the labels of
    what lasts; ``closed``: what positions close in these; ``ways``: the branches beside them on
    which a current between two of its terminals can flow; ``anchors``: which of earth and
    bodies it reaches.
    """

    parts: frozenset[str]
    sources: tuple[int, ...]
    clusters: frozenset[int]
    closed: frozenset[int]
    ways: frozenset[int]
    anchors: tuple[int, ...]
    loads: tuple[int, ...]
    leaks: tuple[int, ...]
    pins: tuple[int, ...]


@dataclass
class _Conductors:
    """The conductors of some windings: cluster -> its number, the branches closed in them."""

    number: dict[int, int] = field(default_factory=dict)
    closed: set[int] = field(default_factory=set)


class Growth:
    """One try to grow a circuit. ``world``: see :mod:`linework.circuit.knowledge`."""

    def __init__(self, lasting: Lasting, known: Knowledge, world: int) -> None:
        self.lasting, self.circuit = lasting, lasting.circuit
        self.known, self.world = known, world
        self._on_of: dict[str, list[int]] = {}

    def grow(self, part: str, before: Collection[str] = ()) -> Grown | None:
        """The circuit of a part; None where it is off, or where a part of it is among those that
        were searched ``before``. Ask where it hangs on what is not known."""
        parts = [part]
        if not self._on(part):
            return None
        while True:
            wires = self._conductors(parts)
            more = next(self._joining(parts, wires), None)
            if more is None:
                break
            if more in before:
                return None
            parts.append(more)
        return self._done(parts, wires)

    # sources

    def _is_on(self, source: int) -> bool:
        return self.known.asked(self.circuit.sources[source].when, self.world)

    def _may_be_on(self, source: int) -> bool:
        return self.known.holds(self.circuit.sources[source].when, self.world) is not False

    def _on(self, part: str) -> list[int]:
        if part not in self._on_of:
            self._on_of[part] = [i for i in self.lasting.sources_of[part] if self._is_on(i)]
        return self._on_of[part]

    # conductors

    def _conductors(self, parts: list[str]) -> _Conductors:
        wires = _Conductors()
        cluster = self.lasting.cluster
        for part in parts:
            for i in self._on(part):
                source = self.circuit.sources[i]
                for node in (source.plus, source.minus):
                    self._spread(cluster[node], wires)
        return wires

    def _spread(self, start: int, wires: _Conductors) -> None:
        if start in wires.number:
            return
        number = len(wires.number)
        wires.number[start] = number
        queue = [start]
        when = self.lasting.when
        for label in queue:
            for i, other in self.lasting.at_cluster.get(label, ()):
                if i not in wires.closed and self.known.asked(when[i], self.world):
                    wires.closed.add(i)
                    if other not in wires.number:
                        wires.number[other] = number
                        queue.append(other)

    # what joins

    def _joining(self, parts: list[str], wires: _Conductors) -> Iterator[str]:
        yield from self._by_converters(parts, wires)
        yield from self._at_terminals(parts, wires)
        yield from self._in_series(parts)

    def _at_terminals(self, parts: list[str], wires: _Conductors) -> Iterator[str]:
        """Parts whose hot conductor is one with ours or may be shorted to ours at a terminal."""
        sources, cluster = self.circuit.sources, self.lasting.cluster
        for part in parts:
            for i in self._on(part):
                hot = wires.number[cluster[sources[i].plus]]
                back = wires.number[cluster[sources[i].minus]]
                mine = self._returns(part, wires)
                for number, label in self._beside(hot, wires):
                    returning = number not in mine or number is None
                    yield from self._ends_at(label, number, wires, parts, returning)
                for number, label in self._beside(back, wires):
                    yield from self._hot_beside_back(label, number, back, wires, parts)

    def _returns(self, part: str, wires: _Conductors) -> set[int | None]:
        """The conductors of ours by which a part's current comes back."""
        return {self._return(i, wires) for i in self._on(part)} - {None}

    def _return(self, source: int, wires: _Conductors) -> int | None:
        return wires.number.get(self.lasting.cluster[self.circuit.sources[source].minus])

    def _beside(self, number: int, wires: _Conductors) -> Iterator[tuple[int | None, int]]:
        """The clusters that share a terminal with a conductor, itself among them, each with the
        number of our conductor that it is."""
        cluster, seen = self.lasting.cluster, set()
        for label, mine in wires.number.items():
            if mine == number:
                labels = {cluster[n] for n in self.lasting.beside.get(label, ())} | {label}
                seen |= labels
        for label in sorted(seen):
            yield wires.number.get(label), label

    def _ends_at(
        self,
        label: int,
        number: int | None,
        wires: _Conductors,
        parts: list[str],
        returning: bool,
    ) -> Iterator[str]:
        """Parts with a hot end, or where wanted a return, on a cluster beside our hot one."""
        for other, from_label in self._candidates(label, number, wires, hot=True):
            if self.circuit.sources[other].owner not in parts and self._there(other, from_label):
                yield self.circuit.sources[other].owner
        if not returning:
            return
        for other, from_label in self._candidates(label, number, wires, hot=False):
            if self.circuit.sources[other].owner not in parts and self._there(other, from_label):
                yield self.circuit.sources[other].owner

    def _hot_beside_back(
        self, label: int, number: int | None, back: int, wires: _Conductors, parts: list[str]
    ) -> Iterator[str]:
        """Parts with a hot end beside our return that do not share this return."""
        for other, from_label in self._candidates(label, number, wires, hot=True):
            owner = self.circuit.sources[other].owner
            if owner in parts or self._return(other, wires) == back:
                continue
            if self._there(other, from_label) and back not in self._returns(owner, wires):
                yield owner

    def _candidates(
        self, label: int, number: int | None, wires: _Conductors, hot: bool
    ) -> list[tuple[int, tuple[int, int] | None]]:
        """Sources that may have an end on a cluster; with the labels to be joined for it."""
        at = self.lasting.hot_at if hot else self.lasting.back_at
        if number is not None:
            mine = sorted(other for other, n in wires.number.items() if n == number)
            return [(i, None) for end in mine for i in at.get(end, ()) if self._may_be_on(i)]
        reach = self.known.reach(self.lasting.at_cluster, label, self.world)
        return [
            (i, (label, end))
            for end in (*sorted(reach.sure), *reach.perhaps)
            for i in at.get(end, ())
            if self._may_be_on(i)
        ]

    def _there(self, source: int, ends: tuple[int, int] | None) -> bool:
        if not self._is_on(source):
            return False
        edges = self.lasting.at_cluster
        return ends is None or self.known.joined(edges, *ends, self.world)

    def _in_series(self, parts: list[str]) -> Iterator[str]:
        """Direct sources whose plus is the minus of one of ours, or the other way round."""
        sources, joint = self.circuit.sources, self.lasting.joint
        for part in parts:
            for i in self._on(part):
                if sources[i].data.hertz != 0.0:
                    continue
                yield from self._next_in_series(joint[sources[i].minus], True, parts)
                yield from self._next_in_series(joint[sources[i].plus], False, parts)

    def _next_in_series(self, start: int, plus: bool, parts: list[str]) -> Iterator[str]:
        sources, joint = self.circuit.sources, self.lasting.joint
        direct = [
            (i, joint[s.plus if plus else s.minus])
            for i, s in enumerate(sources)
            if s.data.hertz == 0.0 and s.owner not in parts and self._may_be_on(i)
        ]
        if not direct:
            return
        reach = self.known.reach(self.lasting.at_joint, start, self.world)
        for i, end in direct:
            near = reach.may(end) and self._is_on(i)
            if near and self.known.joined(self.lasting.at_joint, start, end, self.world):
                yield sources[i].owner

    def _by_converters(self, parts: list[str], wires: _Conductors) -> Iterator[str]:
        """Parts that feed our converters, and converters that take their power from us."""
        circuit, cluster = self.circuit, self.lasting.cluster
        on = {i for part in parts for i in self._on(part)}
        hot: set[int | None] = {wires.number[cluster[circuit.sources[i].plus]] for i in on}
        for index, conversion in enumerate(circuit.conversions):
            load = circuit.loads[conversion.load]
            if conversion.source in on and self.known.asked(load.when, self.world):
                for node in (load.a, load.b):
                    label = cluster[node]
                    number = wires.number.get(label)
                    yield from self._feeding(label, number, wires, parts)
            ends = (wires.number.get(cluster[node]) for node in (load.a, load.b))
            ours = conversion.owner in parts or hot.isdisjoint(ends)
            if not ours and self._may_be_on(conversion.source) and self._taking(index):
                yield conversion.owner

    def _taking(self, conversion: int) -> bool:
        found = self.circuit.conversions[conversion]
        load = self.circuit.loads[found.load]
        return self._is_on(found.source) and self.known.asked(load.when, self.world)

    def _feeding(
        self, label: int, number: int | None, wires: _Conductors, parts: list[str]
    ) -> Iterator[str]:
        for other, ends in self._candidates(label, number, wires, hot=True):
            owner = self.circuit.sources[other].owner
            if owner not in parts and self._there(other, ends):
                yield owner

    # what hangs on it

    def _done(self, parts: list[str], wires: _Conductors) -> Grown:
        lasting, circuit = self.lasting, self.circuit
        sources = tuple(sorted(i for part in parts for i in self._on(part)))
        hot = {wires.number[lasting.cluster[circuit.sources[i].plus]] for i in sources}
        loads = self._hanging(lasting.loads_at, wires, [x.when for x in circuit.loads])
        leaks = self._hanging(lasting.leaks_at, wires, [k.when for k in circuit.leakages])
        live = _Conductors({c: n for c, n in wires.number.items() if n in hot})
        pins = self._hanging(lasting.pins_at, live, [p.when for p in circuit.pins])
        ends = self._ends(wires)
        anchors = self._anchors(wires, ends)
        ways = self._ways(wires, ends)
        return Grown(
            frozenset(parts),
            sources,
            frozenset(wires.number),
            frozenset(wires.closed),
            frozenset(ways),
            anchors,
            loads,
            leaks,
            pins,
        )

    def _hanging(
        self, at: Mapping[int, tuple[int, ...]], wires: _Conductors, when: Sequence[Condition]
    ) -> tuple[int, ...]:
        near = {i for label in wires.number for i in at.get(label, ())}
        return tuple(i for i in sorted(near) if self.known.asked(when[i], self.world))

    def _ends(self, wires: _Conductors) -> set[int]:
        """The nodes of its conductors and those that share a terminal with them."""
        found: set[int] = set()
        for label in wires.number:
            found |= self.lasting.nodes_of[label]
            found |= self.lasting.beside.get(label, frozenset())
        return found

    def _anchors(self, wires: _Conductors, ends: set[int]) -> tuple[int, ...]:
        joint = self.lasting.joint
        labels = sorted({joint[node] for node in ends})
        return tuple(
            anchor
            for anchor in self.circuit.anchors
            if any(
                self.known.joined(self.lasting.at_joint, joint[anchor], label, self.world)
                for label in self._perhaps(joint[anchor], labels)
            )
        )

    def _perhaps(self, start: int, labels: list[int]) -> list[int]:
        """Of some labels those that may be joined to one, the sure ones first."""
        reach = self.known.reach(self.lasting.at_joint, start, self.world)
        sure = [label for label in labels if label in reach.sure]
        return sure[:1] or [label for label in labels if label in reach.perhaps]

    def _ways(self, wires: _Conductors, ends: set[int]) -> set[int]:
        """The branches beside its conductors on a way between two of its ends."""
        while True:
            edges = self._outside(wires, ends)
            found = on_the_way(edges, ends)
            when = self.lasting.when
            open_ones = [i for i in found if self.lasting.answer[i] is None and self._undecided(i)]
            if not open_ones:
                return found
            self.known.asked(when[self._nearest(open_ones, edges)], self.world)

    def _undecided(self, branch: int) -> bool:
        return self.known.holds(self.lasting.when[branch], self.world) is None

    def _outside(self, wires: _Conductors, ends: set[int]) -> list[Edge]:
        """The branches, closed or perhaps, joined to the ends, without those of its conductors;
        nearest first."""
        lasting, branches = self.lasting, self.circuit.branches
        seen, queue = set(ends), sorted(ends)
        taken: set[int] = set()
        edges: list[Edge] = []
        for node in queue:
            for i, other in lasting.others_at.get(node, ()):
                if i in taken or i in wires.closed:
                    continue
                taken.add(i)
                if self._own(i, wires) or not self._may_be_closed(i):
                    continue
                edges.append((i, branches[i].a, branches[i].b))
                if other not in seen:
                    seen.add(other)
                    queue.append(other)
        return edges

    def _own(self, i: int, wires: _Conductors) -> bool:
        """Whether a branch that lasts lies in its conductors."""
        branch = self.circuit.branches[i]
        lasts = branch.sort not in LINKS and self.lasting.answer[i]
        return bool(lasts) and self.lasting.cluster[branch.a] in wires.number

    def _may_be_closed(self, i: int) -> bool:
        if self.lasting.answer[i]:
            return True
        return self.known.holds(self.lasting.when[i], self.world) is not False

    def _nearest(self, branches: list[int], edges: list[Edge]) -> int:
        order = {branch: k for k, (branch, _, _) in enumerate(edges)}
        return min(branches, key=lambda i: order[i])
