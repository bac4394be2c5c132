"""The expanded circuit of one case: nodes, branches, sources, loads, devices.

A node is an integer; ``Circuit.spots`` tells which (part, terminal, pole) it is.
An element is in circuit when its ``when`` holds: pairs of a selector key
(part id, selector name) and the positions that close it.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

from linework.circuit.unions import IntUnions
from linework.wiring import (
    Convert,
    Draw,
    Face,
    Follow,
    GroundFault,
    Metal,
    Overcurrent,
    Passing,
    Pins,
    Source,
)

SelectorKey = tuple[str, str]
Condition = tuple[tuple[SelectorKey, frozenset[str]], ...]
Sort = Literal["run", "cord", "contact", "link", "bond", "seat", "soil"]
Sorts = frozenset[str]

NodeAt = int
"""Index of a node. By these names :mod:`linework.circuit.content` knows an index from a figure."""
BranchAt = int
SourceAt = int
LoadAt = int


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a node is: pole of a terminal of a part; part "@" is what the whole sheet shares."""

    part: str
    terminal: str
    pole: str


@dataclass(frozen=True, slots=True)
class Branch:
    """One conductor, contact, link or seat joint between two nodes.

    ``r_cold`` and ``r_hot``: resistance in ohm for maximum and minimum faults
    (20 and 75 degrees C for wires), ``x`` reactance in ohm at the design's
    frequency. ``owner`` is the id of the part or run; ``pole`` its conductor.
    """

    owner: str
    name: str
    a: NodeAt
    b: NodeAt
    r_cold: float
    r_hot: float
    x: float
    sort: Sort
    pole: str = ""
    when: Condition = ()
    known: bool = True
    """False: size or length is not given, the figures only keep the drawing connected."""


@dataclass(frozen=True, slots=True)
class LiveSource:
    """A source between two nodes. ``primary``: the ends of the winding that drives it, if one
    does."""

    owner: str
    data: Source
    plus: NodeAt
    minus: NodeAt
    when: Condition
    primary: tuple[NodeAt, ...] = ()


@dataclass(frozen=True, slots=True)
class Load:
    """A draw between two nodes."""

    owner: str
    data: Draw
    a: NodeAt
    b: NodeAt
    when: Condition


@dataclass(frozen=True, slots=True)
class Leakage:
    """A leakage path between two nodes: farad and siemens."""

    owner: str
    a: NodeAt
    b: NodeAt
    farad: float
    siemens: float
    when: Condition


@dataclass(frozen=True, slots=True)
class Device:
    """An overcurrent device with the branches it watches and opens, by index."""

    owner: str
    data: Overcurrent
    branches: tuple[BranchAt, ...]


@dataclass(frozen=True, slots=True)
class Sensor:
    """A ground-fault device: branches through its sensor with +1 towards the load side.

    ``guards`` are the load-side nodes, in the order of ``senses``.
    """

    owner: str
    data: GroundFault
    senses: tuple[BranchAt, ...]
    opens: tuple[BranchAt, ...]
    guards: tuple[NodeAt, ...]


@dataclass(frozen=True, slots=True)
class MetalAt:
    """Touchable metal at a node."""

    owner: str
    data: Metal
    node: NodeAt


@dataclass(frozen=True, slots=True)
class PinsAt:
    """Pins at nodes that are bare while ``when`` holds."""

    owner: str
    data: Pins
    nodes: tuple[NodeAt, ...]
    when: Condition


@dataclass(frozen=True, slots=True)
class FaceAt:
    """The contacts of an outlet: node by pole."""

    owner: str
    data: Face
    nodes: Mapping[str, NodeAt]


@dataclass(frozen=True, slots=True)
class Conversion:
    """Which source takes its power from which load."""

    owner: str
    data: Convert
    source: SourceAt
    load: LoadAt


@dataclass(frozen=True, slots=True)
class SelectorAt:
    """A selector of a part, its points resolved to nodes."""

    key: SelectorKey
    positions: tuple[str, ...]
    rest: str
    moves: str
    rule: tuple[tuple[Follow, tuple[tuple[int, int], ...]], ...] = ()
    """Each line of the rule with the node pairs (point, its partner) that must be live."""
    passing: tuple[tuple[Passing, tuple[tuple[int, int], ...]], ...] = ()
    """Each passage with the node pairs that must be live for it."""


@dataclass(frozen=True)
class Circuit:
    """Every conductor of a design, for one choice of its unknowns (``settled``)."""

    node_of: Mapping[Spot, int]
    spots: tuple[tuple[Spot, ...], ...]
    branches: tuple[Branch, ...]
    sources: tuple[LiveSource, ...]
    loads: tuple[Load, ...]
    leakages: tuple[Leakage, ...]
    devices: tuple[Device, ...]
    sensors: tuple[Sensor, ...]
    metals: tuple[MetalAt, ...]
    pins: tuple[PinsAt, ...]
    faces: tuple[FaceAt, ...]
    conversions: tuple[Conversion, ...]
    selectors: Mapping[SelectorKey, SelectorAt]
    terminals: Mapping[tuple[str, str], Mapping[str, int]]
    """(part, terminal) -> pole -> node, for every terminal of every part."""
    excluded: tuple[frozenset[tuple[SelectorKey, str]], ...] = ()
    """Interlocks: sets of (selector, position) of which at most one may hold."""
    settled: Mapping[tuple[str, str], str] = field(default_factory=dict)
    hertz: float = 60.0
    _sets: dict[Sorts, IntUnions] = field(default_factory=dict, compare=False, repr=False)

    @cached_property
    def layout(self) -> Hashable:
        """What makes indices comparable: the names of nodes and branches, without any value."""
        names = tuple((b.owner, b.name) for b in self.branches)
        metal = tuple((m.owner, m.node) for m in self.metals)
        watched = tuple(d.branches for d in self.devices), tuple(s.senses for s in self.sensors)
        return hash((self.spots, names, metal, watched, tuple(self.selectors)))

    @cached_property
    def terminals_of(self) -> Mapping[str, tuple[Mapping[str, int], ...]]:
        """For each part its terminals: pole -> node."""
        found: dict[str, list[Mapping[str, int]]] = {}
        for (part, _), nodes in self.terminals.items():
            found.setdefault(part, []).append(nodes)
        return {part: tuple(terminals) for part, terminals in found.items()}

    @cached_property
    def device_of(self) -> Mapping[int, int]:
        """The device that watches each contact, by branch index."""
        return {i: index for index, device in enumerate(self.devices) for i in device.branches}

    @cached_property
    def branches_of(self) -> Mapping[str, tuple[int, ...]]:
        """The branches of each part and run, by index."""
        found: dict[str, list[int]] = {}
        for i, branch in enumerate(self.branches):
            found.setdefault(branch.owner, []).append(i)
        return {owner: tuple(mine) for owner, mine in found.items()}

    @cached_property
    def unknown(self) -> tuple[int, ...]:
        """The branches whose size or length is not given."""
        return tuple(i for i, b in enumerate(self.branches) if not b.known)

    @cached_property
    def switched(self) -> tuple[tuple[int, Condition], ...]:
        """The branches that only some positions close."""
        return tuple((i, b.when) for i, b in enumerate(self.branches) if b.when)

    @cached_property
    def lasting(self) -> frozenset[int]:
        """The branches in circuit whatever the positions."""
        return frozenset(range(len(self.branches))) - {i for i, _ in self.switched}

    def lasting_sets(self, leaving: Sorts) -> IntUnions:
        """What the lasting branches join, those of some sorts left out. Copy before joining."""
        if leaving not in self._sets:
            self._sets[leaving] = IntUnions(len(self.spots)).join_all(
                (self.branches[i].a, self.branches[i].b)
                for i in self.lasting
                if self.branches[i].sort not in leaving
            )
        return self._sets[leaving]

    @cached_property
    def earth(self) -> int | None:
        """The node of earth, None where nothing reaches it."""
        return self.node_of.get(Spot("@", "", "earth"))

    @cached_property
    def bodies(self) -> tuple[int, ...]:
        """The nodes of all bodies, by their names."""
        named = sorted(
            (spot.pole, node)
            for spot, node in self.node_of.items()
            if spot.part == "@" and spot.pole.startswith("body:")
        )
        return tuple(node for _, node in named)

    @cached_property
    def anchors(self) -> tuple[int, ...]:
        """What potentials are told against: earth, then the bodies."""
        return self.bodies if self.earth is None else (self.earth, *self.bodies)
