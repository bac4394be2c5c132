"""Resistance of the way there and back: faults, voltage lost, what a device must break."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import networkx as nx

from linework.design import Design
from tests.trial.judge.flaws import DANGER, WARNING, Flaw
from tests.trial.judge.flows import Flows
from tests.trial.judge.net import GROUNDS, HOTS, Edge, Emf, Node, Use
from tests.trial.judge.reading import Told
from tests.trial.judge.standing import Standing
from tests.trial.judge.tables import COLD, DC_BREAKS

_CONTACT_OHM = 2e-4
_TOUCH_V = 50.0
_GREEN = GROUNDS


class Ways:
    """Least resistance from a source, over hot conductors and back over the others."""

    def __init__(self, standing: Standing) -> None:
        self.standing = standing
        self.hot, self.back = nx.Graph(), nx.Graph()
        for edge in standing.edges:
            if edge.sort == "soil":
                continue
            live = edge.a.pole in HOTS and edge.b.pole in HOTS
            graph = self.hot if live else self.back
            _add(graph, edge.a, edge.b, edge.ohm + (_CONTACT_OHM if edge.sort == "contact" else 0))
        for source in standing.sources:
            if source.sort == "battery":  # a block of a string leads on to the next
                _add(self.back, source.plus, source.minus, source.volts / source.short[1])

    def out(self, source: Emf) -> dict[Node, float]:
        """Ohm from the hot end of a source to each hot node."""
        return _from(self.hot, source.plus)

    def home(self, source: Emf) -> dict[Node, float]:
        """Ohm from each other node to its return."""
        return _from(self.back, source.minus)


def _add(graph: nx.Graph, a: Node, b: Node, ohm: float) -> None:
    if not graph.has_edge(a, b) or graph.edges[a, b]["ohm"] > ohm:
        graph.add_edge(a, b, ohm=ohm)


def _from(graph: nx.Graph, start: Node) -> dict[Node, float]:
    if start not in graph:
        return {start: 0.0}
    return nx.single_source_dijkstra_path_length(graph, start, weight="ohm")


# faults to metal


def fault_flaws(flows: Flows) -> Iterator[Flaw]:
    """Metal where a fault of a hot conductor moves no device, or slowly."""
    standing, ways = flows.standing, Ways(flows.standing)
    for source in standing.sources:
        if source.sort not in ("supply", "generator") or source.short[0] <= (source.limit_a or 0):
            continue
        out, home = ways.out(source), ways.home(source)
        for owner, metal in standing.net.metals:
            hot = _beside(metal, out)
            if hot is not None and metal in home:
                way = _path(ways.back, metal, source.minus) or []
                green = sum(ohm for pair, ohm in way if all(n.pole in _GREEN for n in pair))
                for flaw in _fault(flows, source, owner, hot, (out[hot], home[metal], green)):
                    # no current is followed in soil: an electrode there lowers what is touched
                    rod = _has_rod(standing, metal)
                    yield replace(flaw, near=True) if rod and flaw.check == "fault slow" else flaw


def _has_rod(standing: Standing, metal: Node) -> bool:
    label = standing.green.get(metal)
    rods = (e.a for e in standing.edges if e.sort == "soil" and e.a.terminal == "ground")
    return any(standing.green.get(rod) == label for rod in rods)


def _beside(metal: Node, out: dict[Node, float]) -> Node | None:
    """The hot conductor at the same terminal as a piece of metal."""
    for pole in ("L", "L1", "L2"):
        node = Node(metal.part, metal.terminal, pole)
        if node in out:
            return node
    return None


def _fault(
    flows: Flows, source: Emf, owner: str, hot: Node, ohms: tuple[float, float, float]
) -> Iterator[Flaw]:
    """``ohms``: of the way there, of that back, and of the part of it up to the link, from which
    metal is touched."""
    there, back, green = ohms
    volts = abs(source.volts)
    amps = volts / (volts / source.short[0] + there + back)
    device = flows.into(hot)
    if not device or math.isinf(device):
        return
    # the weakest source moves the device least, the strongest puts most on the metal
    strong = volts / (volts / source.short[1] + there + back)
    times, touch = amps / device, strong * green
    told = f"a fault at {owner} drives {amps:.0f} A, {times:.1f} times its device, {touch:.0f} V"
    if times < 2.0 and touch > _TOUCH_V / 2:
        yield Flaw("fault stays", owner, DANGER, told, near=times > 1.7)
    elif times < 6.0 and touch > _TOUCH_V:  # slow below five times, by weaker sources as well
        yield Flaw("fault slow", owner, WARNING, told, near=times > 4.2 or touch < 1.1 * _TOUCH_V)


# voltage lost


def drop_flaws(standing: Standing, design: Design) -> Iterator[Flaw]:
    """Loads that lose more than 10 % on the way (3 % where safety afloat hangs on them)."""
    ways, inner = Ways(standing), _inner(design)
    amps: dict[frozenset[Node], float] = {}
    routes: list[tuple[Use, list[tuple[frozenset[Node], float]]]] = []
    for use in standing.uses:
        if abs(standing.fed(use)) < 0.5:
            continue
        route = _route(ways, standing, use)
        routes.append((use, route))
        for pair, _ in route if use.owner not in inner else ():
            amps[pair] = amps.get(pair, 0.0) + use.amps
    for use, route in routes:
        yield from _dips(standing, use, route)
        own = use.amps if use.owner in inner else 0.0
        lost = sum(ohm * (own or amps[pair]) for pair, ohm in route) / use.volts
        most = 0.03 if use.critical and design.settings.place == "boat" else 0.10
        told = f"{use.owner} loses {100 * lost:.1f} % on the way"
        if lost > most:
            near = lost < 1.25 * most or use.owner in inner
            yield Flaw("voltage lost", use.owner, WARNING, told, near=near)
        elif lost > max(0.5 * most, 0.05):
            yield Flaw("voltage lost a little", use.owner, WARNING, told, near=True)


def _dips(
    standing: Standing, use: Use, route: list[tuple[frozenset[Node], float]]
) -> Iterator[Flaw]:
    """Motors that take 20 % and more of their voltage while they start: where the last start fails
    is between 30 and 40 %, and what the source itself loses is known roughly (common practice, no
    source), so that the judge leaves it open."""
    sources = [s for s in standing.feeders(use.a) if s.sort != "charger"]
    if not use.start_a or not route or not sources:
        return
    inside = min(abs(s.volts) / max(s.short[0], 1.0) for s in sources)
    lost = use.start_a * (sum(ohm for _, ohm in route) + inside) / use.volts
    if lost > 0.2:
        told = f"{use.owner} takes {100 * lost:.0f} % of its voltage to start"
        yield Flaw("start weak", use.owner, WARNING, told, near=True)


def _inner(design: Design) -> set[str]:
    """Converters: what they take at their rating says nothing of the loads drawn."""
    kinds = {"inverter", "inverter_charger", "hybrid_inverter", "charger", "dc_charger"}
    return {part.id for part in design.parts if part.kind in kinds}


def _route(ways: Ways, standing: Standing, use: Use) -> list[tuple[frozenset[Node], float]]:
    """The conductors, with their ohm, by which a load is fed, there and back."""
    for source in sorted(standing.feeders(use.a), key=lambda s: s.sort == "charger"):
        there = _path(ways.hot, source.plus, use.a)
        graph = ways.hot if use.b.pole in HOTS else ways.back
        goal = source.minus
        if use.b.pole in HOTS:
            other = [s for s in standing.feeders(use.b) if s.owner == source.owner]
            if not other:
                continue
            goal = other[0].plus
        back = _path(graph, use.b, goal)
        if there is not None and back is not None:
            return there + back
    return []


def _path(graph: nx.Graph, a: Node, b: Node) -> list[tuple[frozenset[Node], float]] | None:
    if a not in graph or b not in graph or not nx.has_path(graph, a, b):
        return None
    nodes = nx.dijkstra_path(graph, a, b, weight="ohm")
    return [(frozenset(pair), graph.edges[pair]["ohm"]) for pair in pairwise(nodes)]


# what a device must break


def break_flaws(flows: Flows, design: Design) -> Iterator[Flaw]:
    """Devices that cannot break what the sources drive through them."""
    ways, standing = Ways(flows.standing), flows.standing
    outs = [(s, _string_v(standing, s), ways.out(s)) for s in standing.sources]
    for edge in flows.edges:
        if edge.amps is None:
            continue
        able, most = breaks(design, edge), _through(edge, outs, 2.0)
        by_chassis = _through(edge, outs, 1.0) if edge.a.pole == "+" else most
        # by a chassis as the way back only where one is: left open, and apart from what is certain
        for check, amps, certain in (
            ("breaks too little", most, 1.15 * able),
            ("breaks too little by chassis", by_chassis, math.inf),
        ):
            told = f"{edge.owner} breaks {able:.0f} A, up to {amps:.0f} A come to it"
            # where between the two the limit lies nobody tells: a tenth more is another question
            near = amps < certain
            name = f"{check}, {10 * amps / able:.0f} tenths" if near else check
            if amps > 0.9 * able:
                yield Flaw(name, edge.owner, DANGER, told, near)


def _string_v(standing: Standing, source: Emf) -> float:
    """The voltage of a source with the blocks in series below it."""
    known, _ = standing.potentials
    top = known.get(standing.wired[source.plus])
    if source.sort != "battery" or top is None:
        return abs(source.volts)
    feet = (known[standing.wired[s.minus]] for s in standing.sources if s.sort == "battery")
    return max((top[1] - volts for group, volts in feet if group == top[0]), default=0.0)


def _through(edge: Edge, outs: list[tuple[Emf, float, dict[Node, float]]], ways: float) -> float:
    """Ampere into a short just behind a device, from the side that drives more. ``ways``: 2 where
    the way back is as long as the way there, 1 where a chassis is the way back."""
    sides = [0.0, 0.0]
    for source, volts, out in outs:
        a, b = out.get(edge.a), out.get(edge.b)
        if a is None or b is None:
            continue
        sides[0 if a <= b else 1] += volts / (volts / source.short[1] + ways * COLD * min(a, b))
    return max(sides)


def breaks(design: Design, edge: Edge) -> float:
    """The interrupting rating of a device in ampere."""
    part = design.part(edge.owner)
    told = Told(part, part.kind)
    if part.kind == "fuse":
        if told.has("interrupting"):
            return told.figure("interrupting")
        marks = DC_BREAKS.get(told.word("type"), ((0.0, 0.0),))
        volts = told.figure("voltage", marks[0][0])
        return next((amps for limit, amps in marks if volts <= limit), 0.0)
    return told.figure("interrupting", 5000.0) if part.kind == "breaker" else 5000.0
