"""Neutrals that several hot conductors share, devices in neutrals, wires that run alone."""

from __future__ import annotations

import math
from collections.abc import Iterator

import networkx as nx

from linework.design import Design, Run
from tests.trial.judge.expand import pairs
from tests.trial.judge.fittings import behind_class_a, is_class_a
from tests.trial.judge.flaws import DANGER, NEAR, WARNING, Fact, Flaw
from tests.trial.judge.flows import Flows
from tests.trial.judge.net import HOTS, Edge, Node
from tests.trial.judge.reading import Told
from tests.trial.judge.standing import Standing
from tests.trial.judge.wires import allowed_device

Said = Iterator[Flaw | Fact]
_DEEP = 8
"""More boards behind one another than this are not followed."""


def shared_neutrals(design: Design, flows: Flows) -> Said:
    """Each neutral wire: can the hots that return by it overload it, do they trip together?"""
    standing = flows.standing
    neutral = [e for e in standing.edges if e.a.pole == "N" and e.b.pole == "N"]
    graph = nx.Graph((e.a, e.b) for e in neutral)
    graph.add_nodes_from(s.minus for s in standing.sources if s.alternating)
    homes = {s.minus for s in standing.sources if s.alternating}
    for edge in neutral:
        run = design.get(edge.owner)
        if edge.sort == "wire" and isinstance(run, Run):
            far = _far(graph, edge, homes)
            # what a surge device leads home lasts some millionths of a second
            surges = {design.part(name).kind for name, _ in far} == {"surge_device"}
            crossing = [] if surges else _crossing(flows, far)
            rough = {design.part(name).kind for name, _ in far} <= {"junction_box"}
            yield from _summed(design, flows, run, crossing, rough)
            yield from _untied(flows, run, crossing)


def _far(graph: nx.Graph, edge: Edge, homes: set[Node]) -> set[tuple[str, str]]:
    """The terminals behind a neutral wire, seen from the sources; none where it is in a ring."""
    graph.remove_edge(edge.a, edge.b)
    sides = [nx.node_connected_component(graph, end) for end in (edge.a, edge.b)]
    graph.add_edge(edge.a, edge.b)
    away = [side for side in sides if not side & homes]
    return {(n.part, n.terminal) for n in away[0]} if len(away) == 1 else set()


def _crossing(flows: Flows, far: set[tuple[str, str]]) -> list[tuple[Edge, Node]]:
    """The hot wires that lead to those terminals, with their near ends."""
    found = []
    for edge in flows.edges:
        if edge.sort != "wire":
            continue
        inside = [(n.part, n.terminal) in far for n in (edge.a, edge.b)]
        near = edge.b if inside[0] else edge.a
        if inside[0] != inside[1] and flows.into(near, without=edge):
            found.append((edge, near))
    return found


def _summed(
    design: Design, flows: Flows, run: Run, crossing: list[tuple[Edge, Node]], rough: bool
) -> Said:
    """Hots in phase that return by one neutral. What the devices behind them let on may be less
    than what the devices before them do: then the judge leaves it open, places may be taken.
    ``rough``: nothing is drawn behind yet but boxes."""
    by_phase: dict[tuple[str, bool], dict[int, tuple[float, float]]] = {}
    most = 0.0
    for edge, near in crossing:
        sources = [s for s in flows.standing.feeders(near) if s.alternating]
        if sources:
            phase = by_phase.setdefault((sources[0].owner, sources[0].volts > 0), {})
            comes, far = flows.into(near, without=edge), edge.b if edge.a == near else edge.a
            phase[flows.regions[near]] = comes, min(comes, _home(flows, far, edge))
            most = max(most, sum(s.limit_a or math.inf for s in sources))
    allowed = allowed_device(design, Told(run), "N")
    for amps in by_phase.values():
        comes, goes = (min(sum(each), 1.15 * most) for each in zip(*amps.values(), strict=True))
        if len(amps) > 1 and comes > 1.1 * allowed:
            told = f"{len(amps)} hots in phase return by the neutral of {run.designation}"
            yield Flaw(
                "neutral summed", run.id, DANGER, told, near=not rough and goes <= 1.1 * allowed
            )


def _home(flows: Flows, start: Node, edge: Edge, left: int = _DEEP) -> float:
    """The most that may return by a neutral of what lies behind a conductor, in ampere, by the
    devices there; what lies between two hots in phase draws nothing at all."""
    nodes, standing = flows.region(start, edge), flows.standing
    ends = [n for use in standing.uses if use.b.pole not in HOTS for n in (use.a, use.b)]
    ends += [n for face in standing.net.faces.values() if "N" in face for n in face.values()]
    if not left or {edge.a, edge.b} <= nodes or not nodes.isdisjoint(ends):
        return math.inf
    ways = [way for n in nodes for way in flows.near.get(n, ()) if way[1] is not edge]
    beyond = {(far, e) for far, e in ways if e.amps is not None}
    return sum(min(e.amps or 0.0, _home(flows, far, e, left - 1)) for far, e in beyond)


def _untied(flows: Flows, run: Run, crossing: list[tuple[Edge, Node]]) -> Said:
    """Two hots with one neutral behind devices that do not open together."""
    guards = {frozenset(_guards(flows, near)) for _, near in crossing if _live(flows, near)}
    apart = [one for one in guards for other in guards if not one & other and one and other]
    if apart:
        told = f"the hots that share the neutral of {run.designation} have no common trip"
        yield Flaw("no common trip", run.id, WARNING, told)


def _live(flows: Flows, node: Node) -> bool:
    return bool(flows.standing.feeders(node))


def _guards(flows: Flows, node: Node) -> set[str]:
    """The devices at the edge of a hot node's region."""
    nodes = flows.region(node)
    return {e.owner for n in nodes for _, e in flows.near.get(n, ()) if e.amps is not None}


def blind_devices(design: Design, standing: Standing) -> Said:
    """Outlets that stay hot behind a device of class A whose neutral is open: it is fed by the
    voltage between hot and neutral, so that it trips no more, and nothing at the outlet, which
    seems dead, tells of it. Only portable devices must open then (UL 943, from memory)."""
    guarded = behind_class_a(design, standing)
    for edge in standing.edges:
        back = Node(edge.a.part, edge.a.terminal, "N")
        if not edge.senses or edge.a.pole not in HOTS or back not in standing.wired:
            continue
        fed = any(source.alternating for source in standing.feeders(edge.a))
        if not fed or not is_class_a(design, edge.owner):
            continue
        for key, face in standing.net.faces.items():
            hot, owner = face.get(edge.a.pole, back), key.partition(" ")[0]
            behind = hot in guarded and standing.wired[hot] == standing.wired[edge.b]
            if behind and all(standing.volts(e, back) is None for e in (edge.a, hot)):
                told = f"{owner} stays hot while {edge.owner} has no neutral and cannot trip"
                yield Flaw("class A blind", owner, DANGER, told)


def placed_wrong(design: Design) -> Said:
    """Devices that open only the neutral; boards with a main; boats' inlets."""
    for part in design.parts:
        told = Told(part, part.kind)
        if part.kind == "breaker" and told.word("poles") == "neutral":
            yield Flaw(
                "only neutral", part.id, DANGER, f"{part.id} leaves the hot conductor joined"
            )
        if part.kind == "panel" and told.has("main"):
            yield Fact("has main", part.id, part.id, NEAR, f"{part.id} has no main breaker now")


def own_grounds(design: Design) -> Said:
    """Circuits with a ground wire of their own, and boards with both legs."""
    for run in design.runs:
        poles = {p for p, _ in pairs(design, run)}
        whole = Told(run).word("broken", "none") != "PE"
        if poles & (HOTS - {"+"}) and "PE" in poles and whole:
            lost = f"{run.designation} has no ground wire of its own now"
            yield Fact("own ground", run.id, run.id, NEAR, lost)


def both_legs(design: Design, standing: Standing) -> Said:
    """Boards of two legs that get 240 V."""
    for part in design.parts:
        if part.kind == "panel" and Told(part).word("circuit") == "split":
            ends = [Node(part.id, "feed", leg) for leg in ("L1", "L2")]
            volts = standing.volts(*ends)
            for source in standing.feeders(ends[0]) if volts and abs(volts) > 200.0 else ():
                lost = f"{part.id} gets one leg of {source.owner} only"
                yield Fact("both legs", part.id, source.owner, NEAR, lost)


def inlets(design: Design, standing: Standing) -> Said:
    """On boats: what is behind an inlet without a leakage breaker between."""
    if design.settings.place != "boat":
        return
    near: dict[Node, list[Node]] = {}
    for edge in standing.edges:
        if not edge.senses and edge.a.pole in HOTS and edge.b.pole in HOTS:
            near.setdefault(edge.a, []).append(edge.b)
            near.setdefault(edge.b, []).append(edge.a)
    for part in design.parts:
        if part.kind != "inlet":
            continue
        reached, waiting = set(), [Node(part.id, "inside", pole) for pole in ("L", "L1")]
        while waiting:
            node = waiting.pop()
            if node not in reached:
                reached.add(node)
                waiting += near.get(node, ())
        if any(node.terminal == "bus" for node in reached):
            told = f"no leakage breaker behind the inlet {part.id}"
            yield Flaw("inlet unguarded", part.id, WARNING, told)
        far = _bare_length(design, Flows(standing), part.id)
        if far > 0.9 * _FAR_M:
            told = f"{far:.1f} m of wire behind the inlet {part.id} before the first device"
            yield Flaw("inlet far", part.id, WARNING, told, near=far < 1.1 * _FAR_M)


_FAR_M = 3.05
"""A main breaker is within 10 ft of a boat's inlet, along the conductors (ABYC E-11)."""


def _bare_length(design: Design, flows: Flows, inlet: str) -> float:
    """Metres of wire behind an inlet up to the first devices, along the first hot conductor."""
    starts = [Node(inlet, "inside", pole) for pole in ("L", "L1")]
    nodes = {n for start in starts if start in flows.near for n in flows.region(start)}
    owners = {e.owner for n in nodes for _, e in flows.near.get(n, ()) if e.sort == "wire"}
    runs = [run for run in design.runs if run.id in owners]
    aboard = (r for r in runs if "outside" not in (r.a.terminal, r.b.terminal))
    inside = (run for run in aboard if Told(run).word("installation") != "cord")
    return sum(Told(run).figure("length", 0.0) for run in inside)
