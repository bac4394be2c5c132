"""Every conductor of a design as a graph, by the judge's own reading of what is inside a part."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple


class Node(NamedTuple):
    """One pole of one terminal; what the whole sheet shares belongs to the part "@"."""

    part: str
    terminal: str
    pole: str


EARTH = Node("@", "", "earth")
GROUNDS = frozenset({"PE", "body", "earth"})
HOTS = frozenset({"L", "L1", "L2", "+"})

When = tuple[str, str, frozenset[str]] | None
"""(part, selector, positions) in which something is in circuit; None: always."""


@dataclass(frozen=True, slots=True)
class Edge:
    """A conductor, contact or link.

    ``sort``: "join" inside a part, "wire" of a run, "contact", "bond" from a current-carrying
    conductor to ground, "soil". ``amps``: the rating of the overcurrent device in it.
    """

    a: Node
    b: Node
    sort: str
    owner: str
    ohm: float = 0.0
    amps: float | None = None
    when: When = None
    senses: bool = False


@dataclass(frozen=True, slots=True)
class Emf:
    """A source between two nodes. ``limit_a``: the most it gives for good (None: no limit);
    ``short``: least and greatest current in ampere into a dead short."""

    owner: str
    plus: Node
    minus: Node
    volts: float
    sort: str
    short: tuple[float, float]
    limit_a: float | None = None
    when: When = None

    @property
    def alternating(self) -> bool:
        """Whether it is a source of alternating current."""
        return self.sort in ("supply", "generator", "inverter", "winding")


@dataclass(frozen=True, slots=True)
class Use:
    """A load. ``amps`` at its voltage; ``heavy``: what its circuit must be rated for."""

    owner: str
    a: Node
    b: Node
    volts: float
    amps: float
    heavy: float
    when: When = None
    allowed_device: float = 0.0
    critical: bool = False
    starter: bool = False
    start_a: float = 0.0
    """What it draws while it starts, in ampere."""


@dataclass
class Net:
    """The conductors of a design."""

    edges: list[Edge] = field(default_factory=list)
    sources: list[Emf] = field(default_factory=list)
    uses: list[Use] = field(default_factory=list)
    faces: dict[str, dict[str, Node]] = field(default_factory=dict)
    metals: list[tuple[str, Node]] = field(default_factory=list)
    pins: list[tuple[str, Node, When]] = field(default_factory=list)
    selectors: dict[tuple[str, str], tuple[str, ...]] = field(default_factory=dict)
    followers: list[tuple[str, str]] = field(default_factory=list)
    """(part, kind) of what moves by itself."""
    beside: dict[Node, tuple[str, ...]] = field(default_factory=dict)
    """Metal -> the terminals beside which it lies, where these are not all of its part."""
    apart: dict[str, tuple[str, str]] = field(default_factory=dict)
    """Part -> its two sides that it keeps apart."""

    def join(self, owner: str, one: Node, other: Node) -> None:
        """A plain connection inside a part."""
        self.edges.append(Edge(one, other, "join", owner))

    def contact(
        self,
        owner: str,
        one: Node,
        other: Node,
        amps: float | None = None,
        when: When = None,
        senses: bool = False,
    ) -> None:
        """A contact, with or without a device in it."""
        self.edges.append(Edge(one, other, "contact", owner, 0.0, amps, when, senses))
