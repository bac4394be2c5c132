"""Bars, boards and switches that the devices behind them hold to their rating."""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.design import Part
from tests.trial.judge.flaws import DANGER, WARNING, Fact, Flaw
from tests.trial.judge.flows import Flows
from tests.trial.judge.net import HOTS, Edge, Node

Said = Iterator[Flaw | Fact]
_AT = {"panel": "bus", "busbar": "feed"}


def bar(flows: Flows, part: Part, rated: float, most: float) -> Said:
    """A bar or board into which more may come than it is made for: that is right where the devices
    at it, without the largest that feeds it, add up to no more (NFPA 70 705.12(B)(3)). A board
    that one device feeds is to be protected by that (408.36)."""
    told = f"{part.id} is made for {rated:.0f} A and {most:.0f} A may come"
    level, near = WARNING, False
    for pole in HOTS:
        node = Node(part.id, _AT[part.kind], pole)
        feeding, taking = _devices_at(flows, node)
        if sum(taking) > rated + 1e-6:
            level = DANGER
        elif sum(feeding) + sum(taking) - max(feeding, default=0.0) > rated + 1e-6:
            near = True  # between batteries that are charged over it no more may flow
    alone = all(
        len(_devices_at(flows, Node(part.id, _AT[part.kind], pole))[0]) < 2 for pole in HOTS
    )
    if level == DANGER or near or alone:
        near = level != DANGER and (near or part.kind == "busbar")
        yield Flaw("fitting small", f"{part.id} {rated:.0f}", level, told, near)


def _devices_at(flows: Flows, node: Node) -> tuple[list[float], list[float]]:
    """Ratings in ampere of the devices at a bar that feed it, and of those that take from it; what
    takes without one is unbounded."""
    nodes = flows.region(node)
    feeding = [math.inf for n in nodes for _ in flows.at.get(n, ())]
    taking = [math.inf for use in flows.standing.uses if use.a in nodes or use.b in nodes]
    for edge in {e for n in nodes for _, e in flows.near.get(n, ()) if e.amps is not None}:
        far = edge.b if edge.a in nodes else edge.a
        fed = any(flows.at.get(n) for n in flows.behind(far, edge))
        (feeding if fed else taking).append(edge.amps or 0.0)
    return feeding, taking


def held(flows: Flows, part: Part, rated: float) -> bool:
    """Whether no contact of a switch passes more for good than it is made for: what comes to it,
    and no more than the devices behind it let on; a starter's seconds count nothing."""
    mine = [e for e in flows.edges if e.owner == part.id and e.sort == "contact"]
    ways = [(e, near, far) for e in mine for near, far in ((e.a, e.b), (e.b, e.a))]
    return all(
        min(flows.into(near, without=e), _taken(flows, far, e)) <= rated + 1e-6
        for e, near, far in ways
    )


def _taken(flows: Flows, far: Node, edge: Edge) -> float:
    """The most that one side of a contact takes for good, in ampere."""
    nodes = flows.region(far, edge)
    standing = flows.standing
    drawing = {n for use in standing.uses if not use.starter for n in (use.a, use.b)}
    drawing |= {n for face in standing.net.faces.values() for n in face.values()}
    drawing |= {s.plus for s in standing.sources if s.sort == "battery"}
    if nodes & drawing or {edge.a, edge.b} <= nodes:
        return math.inf
    ends = {e for n in nodes for _, e in flows.near.get(n, ()) if e.amps is not None}
    return sum(e.amps or 0.0 for e in ends)
