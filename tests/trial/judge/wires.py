"""Wires and devices: is each conductor held by what can come into it, does it carry its loads."""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.design import Design, Run
from tests.trial.judge.expand import size_of
from tests.trial.judge.flaws import DANGER, WARNING, Flaw
from tests.trial.judge.flows import Flows
from tests.trial.judge.net import HOTS, Edge, Node, Use
from tests.trial.judge.reading import Told, amount
from tests.trial.judge.tables import (
    AFLOAT,
    CORD,
    LEAD_IN,
    STANDARD,
    THIN,
    ampacity,
    ground_wire,
    largest_device,
    thinner,
)

_INCH = 0.0254


def carries(told: Told, pole: str) -> float:
    """Ampacity of one conductor of a run."""
    size = size_of(told, pole)
    if told.word("installation") == "cord":
        return CORD[size]
    ambient = amount(told.word("ambient", "30 degC"))
    column, insulation = int(told.word("terminals", "60")), int(told.word("insulation", "75"))
    material = told.word("material", "copper")
    return ampacity(size, material, column, insulation, ambient)


def allowed_device(told: Told, pole: str) -> float:
    """The largest device that may guard one conductor of a run."""
    size, amps = size_of(told, pole), carries(told, pole)
    if told.word("installation") == "cord":
        return next((rated for rated in STANDARD if rated >= amps), amps)
    return largest_device(size, told.word("material", "copper"), amps)


def wire_flaws(design: Design, flows: Flows) -> Iterator[Flaw]:
    """What is wrong with each hot conductor of each run."""
    for edge in flows.edges:
        run = design.get(edge.owner)
        if edge.sort == "wire" and isinstance(run, Run):
            yield from _wire(design, flows, run, edge)


def _wire(design: Design, flows: Flows, run: Run, edge: Edge) -> Iterator[Flaw]:
    told, pole = Told(run), edge.a.pole
    name = run.designation
    if pole != "+" and told.word("installation") != "cord" and thinner(size_of(told, pole), "14"):
        yield Flaw("wire below 14", run.id, WARNING, f"{name} is thinner than 14 AWG (310.3(A))")
    amps, most = carries(told, pole), allowed_device(told, pole)
    lead_in = edge.a.pole == "+" and told.figure("length") <= LEAD_IN[_place(design)] * _INCH
    for near, far in ((edge.a, edge.b), (edge.b, edge.a)):
        flow = flows.into(near, without=edge)
        uses = flows.loads(far, edge)
        first = lead_in and math.isinf(flow)  # behind a device no lead is the first any more
        if flow > most + 1e-6 and not first and not _motors(uses, flow, amps, flows, far, edge):
            what = "nothing" if math.isinf(flow) else f"{flow:.0f} A"
            reason = f"{name} may be guarded by {most:.0f} A at most and {what} guards it"
            near_limit = flow <= _aboard(design, told, pole)
            yield Flaw("wire guarded", run.id, DANGER, reason, near=near_limit)
        drawn = sum(use.amps for use in uses) - flows.into(far, without=edge)
        if min(flow, drawn) > amps * 1.005:
            yield Flaw(
                "wire loaded",
                run.id,
                WARNING,
                f"{name} carries {amps:.0f} A, its loads draw {drawn:.0f} A",
                near=drawn < 1.05 * amps,
            )


def _aboard(design: Design, told: Told, pole: str) -> float:
    """What low-voltage tables aboard would allow; 0 where they do not hold."""
    size, place = size_of(told, pole), _place(design)
    if pole != "+" or place not in ("boat", "vehicle", "recreational"):
        return 0.0
    if size in THIN and place != "boat":  # vehicles have the small ones of 240.4(D)
        return 0.0
    return next(rated for rated in STANDARD if rated >= AFLOAT.get(size, 0.0))


def _place(design: Design) -> str:
    return design.settings.place


def _motors(uses: list[Use], flow: float, amps: float, flows: Flows, far: Node, edge: Edge) -> bool:
    """Whether nothing but one motor hangs behind, whose plate or table allows the device."""
    if len(uses) != 1 or flows.into(far, without=edge):
        return False
    (use,) = uses
    plate = max(use.allowed_device, 15.0 if use.allowed_device else 0.0)
    up = next((rated for rated in STANDARD if rated >= plate), plate)
    return flow <= up and amps >= max(1.25 * use.amps, use.heavy) - 0.05


def device_flaws(flows: Flows) -> Iterator[Flaw]:
    """Devices below the loads behind them."""
    for edge in flows.edges:
        if edge.amps is None:
            continue
        for near, far in ((edge.a, edge.b), (edge.b, edge.a)):
            if not flows.into(near, without=edge):
                continue
            heavy = sum(use.heavy for use in flows.loads(far, edge))
            heavy -= flows.into(far, without=edge)  # what its own side gives
            if heavy > edge.amps * 1.005:
                yield Flaw(
                    "device loaded",
                    edge.owner,
                    WARNING,
                    f"{edge.owner} of {edge.amps:g} A feeds {heavy:.0f} A of loads",
                    near=heavy < 1.05 * edge.amps,
                )


def controller_flaws(design: Design, flows: Flows) -> Iterator[Flaw]:
    """Devices at the output of a charge controller below 125 % of its current (690.9(B))."""
    for part in design.parts:
        if part.kind != "solar_controller":
            continue
        needed = 1.25 * Told(part, part.kind).figure("current")
        nodes = flows.region(Node(part.id, "dc", "+"))
        for edge in flows.edges:
            at = edge.a in nodes or edge.b in nodes
            if at and edge.amps is not None and edge.amps < needed - 1e-6 and len(nodes) < _ALONE:
                reason = (
                    f"{edge.owner} of {edge.amps:g} A at {part.id}, which asks for {needed:g} A"
                )
                yield Flaw("device loaded", edge.owner, WARNING, reason)


_ALONE = 12
"""Nodes between a controller and its own device; on a bar with others nothing is said of them."""


def ground_flaws(design: Design, flows: Flows) -> Iterator[Flaw]:
    """Ground wires thinner than the table for the device before them."""
    for edge in flows.edges:
        run = design.get(edge.owner)
        if edge.sort != "wire" or not isinstance(run, Run) or edge.a.pole not in HOTS - {"+"}:
            continue
        told = Told(run)
        device = max(flows.into(edge.a, without=edge), flows.into(edge.b, without=edge))
        if (
            not device
            or math.isinf(device)
            or not any(e.owner == run.id and e.a.pole == "PE" for e in _all(flows))
        ):
            continue
        least = ground_wire(device)
        if told.word("material", "copper") == "aluminium":
            least = _aluminium(least)
        hot, own = size_of(told, edge.a.pole), size_of(told, "PE")
        if thinner(own, least) and thinner(own, hot):
            reason = (
                f"{run.designation} has a ground wire of {own} AWG; {device:.0f} A ask for {least}"
            )
            yield Flaw("ground wire thin", run.id, WARNING, reason)


def _all(flows: Flows) -> list[Edge]:
    return flows.standing.edges


def _aluminium(size: str) -> str:
    """Two gauges thicker, as the aluminium column of table 250.122 is."""
    steps = {"14": "12", "12": "10", "10": "8", "8": "6", "6": "4", "4": "2"}
    return steps.get(size, "1/0")
