"""What a live circuit is, by name and value: the one identity by which anything is remembered.

An element is told by all the fields of its class, so that a new field is never forgotten. A field
that holds the index of a node or of another element (by its type, :data:`NodeAt` and the like)
tells that one's name instead, so that circuits can be compared whatever else is drawn.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import fields, is_dataclass
from functools import cached_property
from hashlib import blake2b

from linework.circuit.growing import Grown
from linework.circuit.incircuit import Extent
from linework.circuit.lasting import LINKS, Lasting
from linework.circuit.model import Circuit
from linework.circuit.states import State
from linework.circuit.ways import shortest
from linework.wiring import Pole, is_protective

Mark = bytes
"""A digest; what has one mark is equal in name and value."""


PROTECTIVE = frozenset(str(pole) for pole in Pole if is_protective(pole))


class Contents:
    """The marks of the elements of one circuit of conductors."""

    def __init__(self, lasting: Lasting) -> None:
        self.lasting, self.circuit = lasting, lasting.circuit
        self._known: dict[tuple[str, int], Mark] = {}
        self._fields: dict[str, tuple[tuple[str, str], ...]] = {}
        self._of: dict[tuple[Grown, Hashable], Mark] = {}

    @cached_property
    def _nodes(self) -> list[str]:
        return [digest(spots).hex() for spots in self.circuit.spots]

    @cached_property
    def _namers(self) -> Mapping[str, Callable[[int], str]]:
        circuit = self.circuit
        return {
            "NodeAt": lambda i: self._nodes[i],
            "BranchAt": lambda i: f"{circuit.branches[i].owner}/{circuit.branches[i].name}",
            "SourceAt": lambda i: f"{circuit.sources[i].owner}/{circuit.sources[i].data.name}",
            "LoadAt": lambda i: f"{circuit.loads[i].owner}/{circuit.loads[i].data.name}",
        }

    def mark(self, field: str, index: int) -> Mark:
        """The mark of an element, by the field of the circuit in which it stands."""
        key = (field, index)
        if key not in self._known:
            self._known[key] = self._mark(getattr(self.circuit, field)[index])
        return self._known[key]

    def _mark(self, element: object) -> Mark:
        told = [
            plain(getattr(element, name))
            if not index
            else self._named(getattr(element, name), index)
            for name, index in self._told(element)
        ]
        return digest((type(element).__name__, *told))

    def _told(self, element: object) -> tuple[tuple[str, str], ...]:
        name = type(element).__name__
        if name not in self._fields:
            self._fields[name] = _fields_of(element)
        return self._fields[name]

    def _named(self, value: object, sort: str) -> str:
        name = self._namers[sort]
        if isinstance(value, int):
            return name(value)
        if isinstance(value, Mapping):
            return plain({key: name(index) for key, index in value.items()})
        assert isinstance(value, tuple)
        return plain(tuple(map(name, value)))

    def _marks(self, field: str, indices: Iterable[int]) -> tuple[Mark, ...]:
        return tuple(sorted(self.mark(field, index) for index in indices))

    # what is asked of a circuit

    def wires(self, grown: Grown) -> set[int]:
        """The branches of a live circuit: of its conductors, and those on which a current between
        two of its terminals can flow."""
        return {*grown.closed, *grown.ways}.union(
            *(self._lasting_in.get(cluster, ()) for cluster in grown.clusters)
        )

    @cached_property
    def _lasting_in(self) -> Mapping[int, tuple[int, ...]]:
        found: dict[int, list[int]] = {}
        for i, branch in enumerate(self.circuit.branches):
            if self.lasting.answer[i] and branch.sort not in LINKS:
                found.setdefault(self.lasting.cluster[branch.a], []).append(i)
        return {cluster: tuple(branches) for cluster, branches in found.items()}

    def extent(self, grown: Grown, state: State) -> Extent:
        """All of a live circuit that is looked at; ``state``: one in which it stands. It gives a
        way to each of earth and bodies that the circuit reaches: as no current flows there, any
        tells the same potentials."""
        branches = self.wires(grown) | self.hanging(grown)
        closed = self.circuit.lasting.union(
            i for i, when in self.circuit.switched if state.holds(when)
        )
        return Extent(
            grown.parts,
            frozenset(branches | self._to_anchors(grown, branches, closed)),
            frozenset(grown.loads),
            frozenset(grown.leaks),
            frozenset(grown.pins),
        )

    def hanging(self, grown: Grown) -> set[int]:
        """What hangs on a live circuit for good: ground wires, bonds, metal and soil, and the dead
        conductors behind its loads. None of its current flows there, but the voltage of what it
        reaches stands there. Conductors of other sources are circuits of their own."""
        wires, seen = self.wires(grown), self.nodes(grown)
        seen |= self._grounds(seen)
        queue = sorted(seen)
        found: set[int] = set()
        for node in queue:
            for i, other in self._hung_at.get(node, ()):
                if i not in wires:
                    found.add(i)
                if other not in seen:
                    seen.add(other)
                    queue.append(other)
        return found

    def _to_anchors(self, grown: Grown, own: set[int], closed: frozenset[int]) -> set[int]:
        branches, found = self.circuit.branches, set[int]()
        reached = self.nodes(grown).union(*((branches[i].a, branches[i].b) for i in own))
        for anchor in grown.anchors:
            way = shortest(self.lasting.others_at, anchor, reached, closed)
            found.update(way)
            reached.update(*((branches[i].a, branches[i].b) for i in way))
        return found

    def _grounds(self, nodes: set[int]) -> set[int]:
        """The ground terminals of the parts that have a terminal at some nodes."""
        parts = {spot.part for node in nodes for spot in self.circuit.spots[node]}
        return {
            node
            for part in parts
            for terminal in self.circuit.terminals_of.get(part, ())
            for pole, node in terminal.items()
            if pole in PROTECTIVE
        }

    @cached_property
    def _hung_at(self) -> Mapping[int, tuple[tuple[int, int], ...]]:
        """As :attr:`Lasting.others_at`, of what lasts and joins metal, bodies and earth, or what
        no source has an end on."""
        return {
            node: tuple((i, other) for i, other in ends if self._hangs(i))
            for node, ends in self.lasting.others_at.items()
        }

    def _hangs(self, i: int) -> bool:
        branch, lasting = self.circuit.branches[i], self.lasting
        if not lasting.answer[i]:
            return False
        if branch.sort in LINKS or self._protective[branch.a] or self._protective[branch.b]:
            return True
        label = lasting.cluster[branch.a]
        return label not in lasting.hot_at and label not in lasting.back_at

    @cached_property
    def _protective(self) -> list[bool]:
        return [any(spot.pole in PROTECTIVE for spot in spots) for spots in self.circuit.spots]

    def nodes(self, grown: Grown) -> set[int]:
        """The nodes of a live circuit: those of its conductors, what shares a terminal with
        these, and the ends of its ground ways."""
        lasting = self.lasting
        found = {node for cluster in grown.clusters for node in lasting.nodes_of[cluster]}
        for cluster in grown.clusters:
            found |= lasting.beside.get(cluster, frozenset())
        for i in grown.ways:
            found |= {self.circuit.branches[i].a, self.circuit.branches[i].b}
        return found

    def of(self, grown: Grown, passing: Hashable = None) -> Mark:
        """The mark of a live circuit; ``passing``: the follower that moves."""
        key = (grown, passing)
        if key not in self._of:
            self._of[key] = self._made(grown, passing)
        return self._of[key]

    def _made(self, grown: Grown, passing: Hashable) -> Mark:
        circuit, wires, nodes = self.circuit, self.wires(grown), self.nodes(grown)
        on = set(grown.sources)
        return digest(
            (
                circuit.hertz,
                passing,
                self._marks("branches", wires),
                self._names(self.hanging(grown)),
                self._marks("sources", grown.sources),
                self._marks("loads", grown.loads),
                self._marks("leakages", grown.leaks),
                self._marks("pins", grown.pins),
                self._marks("devices", _at(circuit.devices, "branches", wires)),
                self._marks("sensors", _at(circuit.sensors, "senses", wires)),
                self._marks("metals", (i for i, m in enumerate(circuit.metals) if m.node in nodes)),
                self._marks("faces", _at(circuit.faces, "nodes", nodes)),
                self._marks(
                    "conversions", (i for i, c in enumerate(circuit.conversions) if c.source in on)
                ),
                sorted(self._nodes[node] for node in (*nodes, *grown.anchors)),
            )
        )

    def _names(self, branches: Iterable[int]) -> tuple[tuple[str, ...], ...]:
        """What is told of branches without current: all but their resistance."""
        told = (self.circuit.branches[i] for i in branches)
        return tuple(
            sorted(
                (b.owner, b.name, b.sort, b.pole, self._nodes[b.a], self._nodes[b.b]) for b in told
            )
        )

    @cached_property
    def places(self) -> Mark:
        """The mark of what indices mean: the names of all elements, whatever their values, and all
        of the faces of outlets, of which each circuit reports."""
        circuit = self.circuit
        return digest(
            (
                circuit.layout,
                tuple((s.owner, s.data.name, s.plus, s.minus) for s in circuit.sources),
                tuple((x.owner, x.data.name, x.a, x.b) for x in circuit.loads),
                tuple((k.owner, k.a, k.b) for k in circuit.leakages),
                tuple((p.owner, p.nodes) for p in circuit.pins),
                tuple((c.owner, c.source, c.load) for c in circuit.conversions),
                tuple((b.a, b.b, b.sort) for b in circuit.branches),
                circuit.faces,
            )
        )

    @cached_property
    def whole(self) -> Mark:
        """The mark of all of the circuit, its indices included."""
        told = (f for f in fields(Circuit) if f.compare)
        return digest(tuple(getattr(self.circuit, f.name) for f in told))


def _at(elements: Iterable[object], name: str, among: set[int]) -> Iterable[int]:
    """The indices of the elements some of whose branches or nodes are among these."""
    for index, element in enumerate(elements):
        here = getattr(element, name)
        if not among.isdisjoint(here.values() if isinstance(here, Mapping) else here):
            yield index


def _fields_of(element: object) -> tuple[tuple[str, str], ...]:
    """The fields of an element, each with the type of index that it holds, "" for none."""
    assert is_dataclass(element)
    indices = ("NodeAt", "BranchAt", "SourceAt", "LoadAt")
    return tuple(
        (f.name, next((index for index in indices if index in str(f.type)), ""))
        for f in fields(element)
    )


def digest(value: object) -> Mark:
    """A digest of a value by all that is in it."""
    return blake2b(plain(value).encode(), digest_size=16).digest()


def plain(value: object) -> str:
    """A value in words that are equal only for equal values, whatever the order of sets."""
    if isinstance(value, str | int | float | bytes | None):
        return repr(value)
    if isinstance(value, frozenset | set):
        return "{" + ",".join(sorted(map(plain, value))) + "}"
    if isinstance(value, Mapping):
        return "{" + ",".join(f"{plain(k)}:{plain(v)}" for k, v in value.items()) + "}"
    if isinstance(value, tuple | list):
        return "(" + ",".join(map(plain, value)) + ")"
    if is_dataclass(value):
        told = (plain(getattr(value, f.name)) for f in fields(value) if f.compare)
        return f"{type(value).__name__}({','.join(told)})"
    raise TypeError(f"nobody knows how to tell {type(value).__name__}")
