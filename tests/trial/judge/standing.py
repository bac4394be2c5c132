"""One operating state of a net: what is joined, what is live, at which voltage."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cached_property
from itertools import product

import networkx as nx

from linework.design import Design
from tests.trial.judge.net import GROUNDS, Edge, Emf, Net, Node, Use, When
from tests.trial.judge.reading import Told

Positions = Mapping[tuple[str, str], str]

MOST_STATES = 96
_ROUNDS = 8


class Standing:
    """A net with every selector in a position."""

    def __init__(self, net: Net, positions: Positions) -> None:
        self.net = net
        self.positions = positions
        self.edges = [e for e in net.edges if self.holds(e.when)]
        self.sources = [s for s in net.sources if self.holds(s.when)]
        self.uses = [u for u in net.uses if self.holds(u.when)]

    def holds(self, when: When) -> bool:
        """Whether a condition is met; a selector that nobody moves stands as it should."""
        if when is None:
            return True
        part, selector, allowed = when
        usual = {"breaker": "closed", "main": "closed"}.get(selector, "off")
        return self.positions.get((part, selector), usual) in allowed

    def graph(self, *sorts: str, without: Edge | None = None) -> nx.MultiGraph:
        """The graph of edges of some sorts."""
        made = nx.MultiGraph()
        for edge in self.edges:
            if edge.sort in sorts and edge is not without:
                made.add_edge(edge.a, edge.b, edge=edge, ohm=edge.ohm)
        return made

    @cached_property
    def wired(self) -> dict[Node, int]:
        """What is joined for load current: everything but links of AC neutrals and the soil; links
        of direct current are conductors (a return by the chassis)."""
        return self._labels(lambda e: e.sort != "soil" and not _ac_link(e))

    @cached_property
    def unlinked(self) -> dict[Node, int]:
        """What is joined without any link or soil."""
        return self._labels(lambda e: e.sort not in ("soil", "bond"))

    @cached_property
    def metal(self) -> dict[Node, int]:
        """What is joined by metal, links counted."""
        return self._labels(lambda e: e.sort != "soil")

    @cached_property
    def green(self) -> dict[Node, int]:
        """What is joined by ground wires, bodies and bonding jumpers alone."""
        return self._labels(lambda e: e.sort != "soil" and _green(e.a) and _green(e.b))

    def _labels(self, wanted: Callable[[Edge], bool]) -> dict[Node, int]:
        graph = nx.Graph()
        graph.add_nodes_from(n for e in self.net.edges for n in (e.a, e.b))
        graph.add_nodes_from(n for s in self.net.sources for n in (s.plus, s.minus))
        graph.add_nodes_from(n for u in self.net.uses for n in (u.a, u.b))
        graph.add_nodes_from(n for _, n in self.net.metals)
        graph.add_nodes_from(n for _, n, _ in self.net.pins)
        graph.add_edges_from((e.a, e.b) for e in self.edges if wanted(e))
        found: dict[Node, int] = {}
        for number, group in enumerate(nx.connected_components(graph)):
            found.update(dict.fromkeys(group, number))
        return found

    @cached_property
    def potentials(self) -> tuple[dict[int, tuple[int, float]], list[tuple[Emf, float]]]:
        """For each label of ``wired`` its cluster and voltage; and sources that do not agree with
        what stands already, with the difference in volt."""
        known: dict[int, tuple[int, float]] = {}
        clash: list[tuple[Emf, float]] = []
        waiting = list(self.sources)
        while waiting:
            first = waiting.pop(0)
            known.setdefault(self.wired[first.minus], (len(known), 0.0))
            self._spread(first, known, clash)
            self._drain(waiting, known, clash)
        return known, clash

    def _drain(
        self,
        waiting: list[Emf],
        known: dict[int, tuple[int, float]],
        clash: list[tuple[Emf, float]],
    ) -> None:
        """Take every waiting source of which one end is known."""
        moved = True
        while moved:
            moved = False
            for source in list(waiting):
                if self.wired[source.minus] in known or self.wired[source.plus] in known:
                    waiting.remove(source)
                    self._spread(source, known, clash)
                    moved = True

    def _spread(
        self,
        source: Emf,
        known: dict[int, tuple[int, float]],
        clash: list[tuple[Emf, float]],
    ) -> None:
        plus, minus = self.wired[source.plus], self.wired[source.minus]
        if plus in known and minus in known:
            if known[plus][0] == known[minus][0]:
                clash.append((source, known[plus][1] - known[minus][1] - source.volts))
        elif minus in known:
            group, volts = known[minus]
            known[plus] = (group, volts + source.volts)
        else:
            group, volts = known[plus]
            known[minus] = (group, volts - source.volts)

    def volts(self, a: Node, b: Node) -> float | None:
        """The voltage from a to b, None where nothing defines it."""
        known, _ = self.potentials
        one, other = known.get(self.wired[a]), known.get(self.wired[b])
        if one is None or other is None or one[0] != other[0]:
            return None
        return one[1] - other[1]

    def feeders(self, node: Node) -> list[Emf]:
        """The sources whose hot end is joined to a node."""
        label = self.wired.get(node)
        return [s for s in self.sources if self.wired[s.plus] == label]

    def fed(self, use: Use) -> float:
        """The voltage of a load over its own; 0 where nothing defines it, and below 0 where plus
        and minus are exchanged."""
        volts = self.volts(use.a, use.b)
        if volts is None:
            return 0.0
        return (volts if use.a.pole == "+" else abs(volts)) / use.volts


def _green(node: Node) -> bool:
    return node.pole in GROUNDS or node.pole.startswith("body")


def _ac_link(edge: Edge) -> bool:
    return edge.sort == "bond" and "-" not in (edge.a.pole, edge.b.pole)


# states


def standings(design: Design, net: Net) -> Iterator[Standing]:
    """Every allowed combination of what a person moves, with what follows by itself."""
    free = dict(net.selectors)
    banned = [
        {(part, selector): position for part, selector, position in lock.excludes}
        for lock in design.interlocks
    ]
    seen = 0
    for chosen in product(*free.values()):
        positions = dict(zip(free, chosen, strict=True))
        if not _allowed(positions, banned) or not _worth(positions, banned):
            continue
        seen += 1
        if seen > MOST_STATES:
            return
        yield settled(design, net, positions)


def _allowed(positions: Positions, banned: list[dict[tuple[str, str], str]]) -> bool:
    return all(sum(positions.get(k) == v for k, v in lock.items()) <= 1 for lock in banned)


def _worth(positions: Positions, banned: list[dict[tuple[str, str], str]]) -> bool:
    """Where an interlock lets one of its parts stand closed, one does."""
    return all(any(positions.get(k) == v for k, v in lock.items()) for lock in banned)


def settled(design: Design, net: Net, chosen: Positions) -> Standing:
    """Followers set by what is live, again and again until nothing moves."""
    positions = dict(chosen)
    for _ in range(_ROUNDS):
        standing = Standing(net, positions)
        after = dict(positions)
        for part, kind in net.followers:
            selector, position = _follow(design, standing, part, kind)
            after[part, selector] = position
        if after == positions:
            break
        positions = after
    return Standing(net, positions)


def _follow(design: Design, standing: Standing, part: str, kind: str) -> tuple[str, str]:
    if kind == "transfer_automatic":
        told = Told(design.part(part))
        prefers = told.word("prefers", "1")
        pairs = _TO_NEUTRAL if told.word("senses", "hots") == "neutral" else _ANY
        for n in (prefers, "2" if prefers == "1" else "1"):
            if _live(standing, part, f"in{n}", pairs):
                return "lever", n
        return "lever", told.word("rests", "1")
    if kind == "inverter":
        return "bridge", "inverting" if _live(standing, part, "dc") else "off"
    if kind == "transformer":
        return "core", "forward" if _live(standing, part, "primary", _ACROSS) else "off"
    if kind == "sun":
        return "sun", "charging" if _live(standing, part, "pv") else "off"
    if kind == "inverter_charger":
        # one of two legs takes what stands between them: an input of 0 V there it refuses
        if _live(standing, part, "ac_in", _ACROSS):
            return "relay", "passing"
        return "relay", "inverting" if _live(standing, part, "dc") else "off"
    terminal = {"solar_controller": "pv", "dc_charger": "dc_in"}.get(kind, "ac_in")
    return "output", "charging" if _live(standing, part, terminal) else "off"


_ACROSS = (("L1", "L2"), ("L", "N"))
_TO_NEUTRAL = (("+", "-"), ("L2", "N"), ("L", "N"))
_ANY = (("L1", "L2"), *_TO_NEUTRAL)
"""Between what conductors voltage is looked for, the first pair that is there."""


def _live(
    standing: Standing,
    part: str,
    terminal: str,
    pairs: tuple[tuple[str, str], ...] = _TO_NEUTRAL,
) -> bool:
    """Whether a source other than the part's own stands between two poles of a terminal.

    Alternating current works a winding, a relay or a charger with hot and neutral exchanged as
    well, so that either pole may be the one that is fed; direct current works nothing backwards.
    """
    for hot, back in pairs:
        one, other = Node(part, terminal, hot), Node(part, terminal, back)
        if one in standing.wired and other in standing.wired:
            ends = (one, other) if back == "N" else (one,)
            if any(s.owner != part for end in ends for s in standing.feeders(end)):
                volts = standing.volts(one, other)
                return volts is not None and (volts if hot == "+" else abs(volts)) > 1.0
    return False
