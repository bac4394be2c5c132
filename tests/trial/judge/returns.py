"""Minus wires: what they bring home is held by devices in the plus."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

import networkx as nx

from linework.design import Design, Run
from tests.trial.judge.flaws import DANGER, Flaw
from tests.trial.judge.flows import Flows, capacity
from tests.trial.judge.net import Edge, Node
from tests.trial.judge.reading import Told
from tests.trial.judge.wires import allowed_device, on_wheels

_BARS = ("busbar", "panel")
_PASSIVE = ("fuse", "breaker", "battery_disconnect", "busbar")


def return_flaws(design: Design, flows: Flows) -> Iterator[Flaw]:
    """What is wrong with each minus conductor of each run."""
    for edge in flows.standing.edges:
        run = design.get(edge.owner)
        if edge.sort == "wire" and edge.a.pole == edge.b.pole == "-" and isinstance(run, Run):
            yield from _returning(design, flows, run, edge)
            for end in (edge.a, edge.b):
                if design.part(end.part).kind == "battery":
                    yield from _from_battery(design, flows, run, edge, end)


def _returning(design: Design, flows: Flows, run: Run, edge: Edge) -> Iterator[Flaw]:
    """A minus wire of its own at a load or board, by what can come into the plus there; not at what
    gives current itself, nor at a starter."""
    told = Told(run)
    most = allowed_device(design, told, "-")
    for end in (edge.a, edge.b):
        plus, given = Node(end.part, end.terminal, "+"), _given(flows, end)
        if most + 1e-6 < given < math.inf:  # what charges is held by itself: left open
            reason = f"{run.designation} brings {given:.0f} A back to {end.part}"
            yield Flaw("return of a charger", f"{run.id} {most:.0f}", DANGER, reason, near=True)
        gives = given or Told(design.part(end.part)).word("duty") == "starter"
        flow = flows.into(plus) if plus in flows.near and not gives else 0.0
        if most + 1e-6 < flow < math.inf:
            reason = f"{run.designation} may carry {flow:.0f} A home and allows {most:.0f} A"
            # what the devices behind a board let on is less, vehicles have no table for returns,
            # and where another minus joins the same ends the judge follows no shares
            board = design.part(end.part).kind == "panel"
            near = board or flow <= on_wheels(design, told, "+") or _ringed(flows, edge)
            yield Flaw("wire guarded", run.id, DANGER, reason, near=near)


def _given(flows: Flows, end: Node) -> float:
    """What a part gives into its own plus, in ampere."""
    return sum(capacity(s) for s in flows.at.get(Node(end.part, end.terminal, "+"), ()))


def _ringed(flows: Flows, edge: Edge) -> bool:
    """Whether the ends of a conductor are joined by others too."""
    rest = flows.standing.graph("join", "wire", "contact", without=edge)
    return edge.a in rest and edge.b in rest and nx.has_path(rest, edge.a, edge.b)


def _from_battery(design: Design, flows: Flows, run: Run, edge: Edge, end: Node) -> Iterator[Flaw]:
    """The only minus lead of a battery or string that stands alone: in a short it brings back what
    the devices at the plus let out, as the plus leads behind them carry it."""
    string = _string(flows)
    leads = [e for e in flows.standing.edges if e.sort == "wire" and end in (e.a, e.b)]
    if string is None or string.bottom != end.part or len(leads) > 1:
        return
    far = edge.b if end == edge.a else edge.a
    amps, alone = _let_out(design, flows, string.top, far), design.part(far.part).kind not in _BARS
    yield from _too_thin(design, run, "-", amps, alone)


def link_currents(design: Design, flows: Flows) -> Iterator[Flaw]:
    """The links inside a string that stands alone: the same current is in all of it."""
    string = _string(flows)
    for edge in string.links if string is not None else ():
        run = design.get(edge.owner)
        if string is not None and isinstance(run, Run):
            yield from _too_thin(design, run, "+", _at_plus(design, flows, string.top))


def _too_thin(
    design: Design, run: Run, pole: str, amps: list[float], sure: bool = False
) -> Iterator[Flaw]:
    """``sure``: a single part hangs there; behind a bar the devices of its circuits hold for good
    what comes home, and a short between the bars alone is left to the larger: left open."""
    most = allowed_device(design, Told(run), pole)
    if most + 1e-6 < sum(amps) < math.inf:
        reason = f"{run.designation} brings {sum(amps):.0f} A back and allows {most:.0f} A"
        near = not sure or max(amps) <= max(most, on_wheels(design, Told(run), "+"))
        yield Flaw("wire guarded", run.id, DANGER, reason, near=near)


class _String(NamedTuple):
    """The only string of batteries: the first and last of it, and what joins them."""

    top: str
    bottom: str
    links: list[Edge]


def _string(flows: Flows) -> _String | None:
    cells = {s.owner for s in flows.standing.sources if s.sort == "battery"}
    links = [
        e
        for e in flows.standing.edges
        if e.sort == "wire" and {e.a.pole, e.b.pole} == {"+", "-"} and {e.a.part, e.b.part} <= cells
    ]
    ends = [n for e in links for n in (e.a, e.b)]
    tops = cells - {n.part for n in ends if n.pole == "+"}
    bottoms = cells - {n.part for n in ends if n.pole == "-"}
    if len(links) != len(cells) - 1 or len(tops) != 1 or len(bottoms) != 1:
        return None
    return _String(*tops, *bottoms, links)


def _let_out(design: Design, flows: Flows, top: str, far: Node) -> list[float]:
    """In ampere what comes to a single part that the minus leads to, or what each device lets out
    at the plus where that is a bar."""
    if design.part(far.part).kind in _BARS:
        return _at_plus(design, flows, top)
    plus = Node(far.part, far.terminal, "+")
    given = _given(flows, far)
    return [flows.into(plus) - given] if plus in flows.near and given < math.inf else [0.0]


def _at_plus(design: Design, flows: Flows, top: str) -> list[float]:
    """Ratings of the devices next to the plus of a battery; none where something else hangs there
    before any device."""
    region = flows.region(Node(top, "dc", "+"))
    behind = {n.part for n in region} - {top}
    if any(name in design and design.part(name).kind not in _PASSIVE for name in behind):
        return [0.0]
    ends = {e for n in region for _, e in flows.near.get(n, ()) if e.amps is not None}
    return [e.amps or 0.0 for e in ends] or [0.0]
