"""Wires and devices: is each conductor held by what can come into it, does it carry its loads."""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.design import Design, Run
from tests.trial.judge.expand import pairs, size_of
from tests.trial.judge.flaws import DANGER, WARNING, Flaw
from tests.trial.judge.flows import Flows
from tests.trial.judge.net import HOTS, Edge, Node, Use
from tests.trial.judge.reading import Told, amount
from tests.trial.judge.tables import (
    CORD,
    LEAD_IN,
    LOW_VOLTAGE,
    TAPS,
    THIN,
    afloat,
    ampacity,
    ground_wire,
    largest_afloat,
    largest_before_cord,
    largest_device,
    next_standard,
    thinner,
)

_INCH, _FOOT = 0.0254, 0.3048
_SHORT_TIMES = 3.0
"""A tap of less than a third of the device before it may burn before that opens (240.21(B))."""


def carries(design: Design, told: Told, pole: str) -> float:
    """Ampacity of one conductor of a run; direct current afloat is taken to be of low voltage."""
    size, insulation = size_of(told, pole), int(told.word("insulation", "75"))
    if told.word("installation") == "cord":
        return CORD[size]
    ambient = amount(told.word("ambient", "30 degC"))
    if _is_afloat(design, pole):
        return afloat(size, insulation, ambient)
    column, material = int(told.word("terminals", "60")), told.word("material", "copper")
    return ampacity(size, material, column, insulation, ambient)


def allowed_device(design: Design, told: Told, pole: str) -> float:
    """The largest device that may guard one conductor of a run."""
    size, amps = size_of(told, pole), carries(design, told, pole)
    if told.word("installation") == "cord":
        return largest_before_cord(size, amps)
    if _is_afloat(design, pole):
        return largest_afloat(amps)
    if _lowon_wheels(design, pole) and size in LOW_VOLTAGE:
        return min(LOW_VOLTAGE[size], largest_device(size, "copper", amps))
    return largest_device(size, told.word("material", "copper"), amps)


def _is_afloat(design: Design, pole: str) -> bool:
    return design.settings.place == "boat" and pole in ("+", "-")


def wire_flaws(design: Design, flows: Flows) -> Iterator[Flaw]:
    """What is wrong with each hot conductor of each run."""
    for edge in flows.edges:
        run = design.get(edge.owner)
        if edge.sort == "wire" and isinstance(run, Run):
            yield from _thin(run, edge.a.pole)
            yield from _guarded(design, flows, run, edge)
            yield from _loaded(design, flows, run, edge)


def link_flaws(design: Design) -> Iterator[Flaw]:
    """Links of batteries without a device that are longer than a first lead may be."""
    for run in design.runs:
        kinds = [design.part(end.part).kind for end in (run.a, run.b)]
        if kinds == ["battery", "battery"] and Told(run).figure("length") > _lead_in(design):
            reason = f"{run.designation} joins two batteries over more than a first lead's length"
            yield Flaw("long link", run.id, DANGER, reason, near=True)


def _thin(run: Run, pole: str) -> Iterator[Flaw]:
    told = Told(run)
    if pole != "+" and told.word("installation") != "cord" and thinner(size_of(told, pole), "14"):
        reason = f"{run.designation} is thinner than 14 AWG (310.3(A))"
        yield Flaw("wire below 14", run.id, WARNING, reason)


def _guarded(design: Design, flows: Flows, run: Run, edge: Edge) -> Iterator[Flaw]:
    """Whether what can come into a conductor, from either end, is within what it allows."""
    told, pole = Told(run), edge.a.pole
    amps, most = carries(design, told, pole), allowed_device(design, told, pole)
    lead_in = pole == "+" and told.figure("length") <= _lead_in(design)
    for near, far in ((edge.a, edge.b), (edge.b, edge.a)):
        flow, uses = flows.into(near, without=edge), flows.loads(far, edge)
        if lead_in and math.isinf(flow):  # a first lead is held by the device at its end
            flow = _end_a(flows, far, edge)
        starts = any(use.starter for use in uses)  # such cables need no device (ABYC E-11)
        motors = not _lowon_wheels(design, pole) and _motors(uses, flow, amps, flows, far, edge)
        if flow <= most + 1e-6 or starts or motors:
            continue
        ended = _ended(flows, far, edge, most)
        if ended and (_is_tap(design, told, pole, flow, amps) or _charges_only(flows, far, edge)):
            if flow > _SHORT_TIMES * amps:  # no sum of the judge tells how hot a short makes it
                reason = f"a short in {run.designation} is left to {flow:.0f} A"
                yield Flaw("tap in a short", f"{run.id} {amps:.0f}", DANGER, reason, near=True)
            continue
        what = "nothing" if math.isinf(flow) else f"{flow:.0f} A"
        reason = f"{run.designation} may be guarded by {most:.0f} A at most and {what} guards it"
        wheels = on_wheels(design, told, pole)
        tapped = _ended(flows, far, edge, wheels) and _is_tap(design, told, pole, flow, amps)
        near_limit = flow <= wheels or tapped or _open_question(told, flow, ended)
        yield Flaw("wire guarded", run.id, DANGER, reason, near=near_limit)


def _loaded(design: Design, flows: Flows, run: Run, edge: Edge) -> Iterator[Flaw]:
    """Whether a conductor carries the loads behind it."""
    amps = carries(design, Told(run), edge.a.pole)
    for near, far in ((edge.a, edge.b), (edge.b, edge.a)):
        back = flows.into(far, without=edge)
        drawn = sum(use.amps for use in flows.loads(far, edge)) - back
        if min(flows.into(near, without=edge), drawn) > amps * 1.005:
            reason = f"{run.designation} carries {amps:.0f} A, its loads draw {drawn:.0f} A"
            yield Flaw("wire loaded", run.id, WARNING, reason, near=drawn < 1.05 * amps)


def _end_a(flows: Flows, far: Node, edge: Edge) -> float:
    """The largest device at the end of a first lead, in ampere; 0 where none is."""
    nodes = flows.region(far, edge)
    ends = (e.amps for n in nodes for _, e in flows.near.get(n, ()) if e.amps is not None)
    return max(ends, default=0.0)


def _ended(flows: Flows, far: Node, edge: Edge, most: float) -> bool:
    """Whether a conductor leads to nothing but one device, small enough for it."""
    nodes = flows.region(far, edge)
    if edge.a in nodes and edge.b in nodes:
        return False
    drawing = {n for use in flows.standing.uses for n in (use.a, use.b)}
    drawing |= {n for face in flows.standing.net.faces.values() for n in face.values()}
    ends = {e for n in nodes for _, e in flows.near.get(n, ()) if e.amps is not None}
    alone = len({(e.owner, e.a.pole) for e in ends}) == 1 and not nodes & drawing
    return alone and all((e.amps or 0.0) <= most for e in ends)


def _charges_only(flows: Flows, far: Node, edge: Edge) -> bool:
    """Whether batteries and what charges them lie behind a conductor and its device, and no load:
    what charges them in use is held by that, and a short draws enough for all to open (common
    practice, no source)."""
    sorts = {s.sort for n in flows.behind(far, edge) for s in flows.at.get(n, ())}
    only = "battery" in sorts and sorts <= {"battery", "charger", "array"}
    return only and not flows.loads(far, edge)


def _is_tap(design: Design, told: Told, pole: str, flow: float, amps: float) -> bool:
    """Whether a conductor that ends at a device is near enough to where it is tapped off: by the
    inches of the place on direct current, else by 240.21(B); cords are no taps."""
    length, cord = told.figure("length"), told.word("installation") == "cord"
    if pole == "+" and length <= _lead_in(design):
        return True
    if cord or (pole == "+" and design.settings.place in ("boat", "vehicle", "recreational")):
        return False
    return any(length <= feet * _FOOT and flow <= times * amps for feet, times in TAPS)


def _lead_in(design: Design) -> float:
    return LEAD_IN[_place(design)] * _INCH + 1e-9


def _open_question(told: Told, flow: float, ended: bool) -> bool:
    """A cord that ends at a device of its own size: 240.5(A) asks for one before it, yet only a
    short in it is left to the larger one."""
    return told.word("installation") == "cord" and ended and not math.isinf(flow)


def on_wheels(design: Design, told: Told, pole: str) -> float:
    """What the marine table would allow of direct current in a vehicle, for which NFPA 70 has none
    thicker than 10 AWG (table 552.10(E)(1)); 0 where it does not matter."""
    size = size_of(told, pole)
    if not _lowon_wheels(design, pole) or size in THIN:
        return 0.0
    amps = afloat(size, int(told.word("insulation", "75")), amount(told.word("ambient", "30 degC")))
    return next_standard(amps)


def _lowon_wheels(design: Design, pole: str) -> bool:
    """Whether a conductor is of direct current in a vehicle: table 552.10(E)(1) holds its wires to
    their device, and has no exception for motors; (E)(3) asks of those that they be guarded
    against overload besides."""
    return pole == "+" and _place(design) in ("vehicle", "recreational")


def _place(design: Design) -> str:
    return design.settings.place


def _motors(uses: list[Use], flow: float, amps: float, flows: Flows, far: Node, edge: Edge) -> bool:
    """Whether nothing but one motor hangs behind, whose plate or table allows the device."""
    if len(uses) != 1 or flows.into(far, without=edge):
        return False
    (use,) = uses
    plate = max(use.allowed_device, 15.0 if use.allowed_device else 0.0)
    return flow <= next_standard(plate) and amps >= max(1.25 * use.amps, use.heavy) - 0.05


def device_flaws(flows: Flows) -> Iterator[Flaw]:
    """Devices below the loads behind them."""
    for edge in flows.edges:
        if edge.amps is None:
            continue
        for near, far in ((edge.a, edge.b), (edge.b, edge.a)):
            if not flows.into(near, without=edge):
                continue
            uses = flows.loads(far, edge)
            heavy = sum(use.heavy for use in uses)
            heavy -= flows.into(far, without=edge)  # what its own side gives
            wound = _through_windings(flows, flows.behind(far, edge))
            if wound > 0.95 * edge.amps:  # what a transformer adds by its core is left out
                reason = f"{edge.owner} of {edge.amps:g} A feeds {wound:.0f} A of a transformer"
                yield Flaw(f"device wound {edge.amps:g}", edge.owner, WARNING, reason, near=True)
            # a plate's least ampacity is of wires; whether devices go by it nothing published tells
            plate = len(uses) == 1 and edge.amps >= 1.25 * uses[0].amps - 0.05
            # what a converter without a battery takes is what its loads ask for
            drawn = sum(use.heavy for use in uses if use.owner not in _converters(flows))
            plate = plate or drawn <= edge.amps
            if heavy > edge.amps * 0.95:  # by sums that differ in the third digit
                yield Flaw(
                    "device loaded",
                    edge.owner,
                    WARNING,
                    f"{edge.owner} of {edge.amps:g} A feeds {heavy:.0f} A of loads",
                    near=plate or heavy < 1.05 * edge.amps,
                )


def _through_windings(flows: Flows, nodes: set[Node]) -> float:
    """Ampere at the primaries among some nodes that the loads behind their windings ask for."""
    standing, total = flows.standing, 0.0
    for winding in (s for s in standing.sources if s.sort == "winding"):
        hots = [n for n in nodes if (n.part, n.terminal) == (winding.owner, "primary")]
        back = Node(winding.owner, "primary", "L2" if hots and hots[0].pole != "L" else "N")
        volts = standing.volts(hots[0], back) if hots and back in standing.wired else None
        if volts:
            label = standing.wired[winding.plus]
            uses = [u for u in standing.uses if standing.wired[u.a] == label]
            total += sum(u.heavy * u.volts for u in uses) / abs(volts)
    return total


def _converters(flows: Flows) -> set[str]:
    """What turns direct current into other direct current for no battery."""
    standing, owners = flows.standing, {use.owner for use in flows.standing.uses}
    cells = {standing.wired[s.plus] for s in standing.sources if s.sort == "battery"}
    gives = [s for s in standing.sources if s.sort == "charger" and s.owner in owners]
    return {s.owner for s in gives if standing.wired[s.plus] not in cells}


def appliance_flaws(design: Design, flows: Flows) -> Iterator[Flaw]:
    """Devices above what a single appliance of heat that is wired in may have before it, for its
    inner wires: 20 A up to 13.3 A, else 150 % of its current, rounded up; or by its plate (NFPA 70
    422.11(E))."""
    for edge in flows.edges:
        for near, far in ((edge.a, edge.b), (edge.b, edge.a)):
            uses = flows.loads(far, edge) if edge.amps and edge.a.pole != "+" else []
            if len(uses) != 1 or not flows.into(near, without=edge):
                continue
            (use,) = uses
            part = design.part(use.owner)
            if part.kind != "heater" or flows.region(far, edge).isdisjoint((use.a, use.b)):
                continue
            own = 20.0 if use.amps <= 13.3 else next_standard(1.5 * use.amps)
            most = Told(part, part.kind).figure("largest_device", own)
            if (edge.amps or 0.0) > most + 1e-6:
                told = f"{edge.owner} of {edge.amps:g} A before {use.owner}, which takes {most:g} A"
                yield Flaw("appliance guarded", use.owner, WARNING, told)


def inverter_flaws(design: Design, flows: Flows) -> Iterator[Flaw]:
    """Devices at the battery side of an inverter below what it takes at its rating: how much its
    maker asks for the judge does not know."""
    for part in design.parts:
        told = Told(part, part.kind)
        plus = Node(part.id, "dc", "+")
        if not (told.has("power") and told.has("dc_voltage")) or plus not in flows.near:
            continue
        lowest = 0.85 * told.figure("dc_voltage", 12.0)
        needed = 1.25 * told.figure("power", 0.0) / 0.85 / lowest
        nodes = flows.region(plus)
        for edge in flows.edges:
            at = edge.a in nodes or edge.b in nodes
            if at and edge.amps is not None and edge.amps < needed:
                reason = f"{edge.owner} of {edge.amps:g} A before {part.id}, {needed:.0f} A"
                subject = f"{edge.owner} {edge.amps:g}"
                yield Flaw("inverter held", subject, WARNING, reason, near=True)


_GIVES = {"solar_controller": 1.25, "charger": 1.0, "dc_charger": 1.0, "alternator": 1.0}


def controller_flaws(design: Design, flows: Flows) -> Iterator[Flaw]:
    """Devices at the output of what charges below its current; of a charge controller, which gives
    it all day, below 125 % (690.9(B))."""
    for part in design.parts:
        if part.kind not in _GIVES:
            continue
        needed = _GIVES[part.kind] * Told(part, part.kind).figure("current")
        nodes = flows.region(Node(part.id, "dc", "+"))
        for edge in flows.edges:
            ends = ((edge.a, edge.b), (edge.b, edge.a))
            # what it charges stands behind the device; a board beside it takes what it asks for
            at = any(here in nodes and flows.into(far, without=edge) for here, far in ends)
            if not at or edge.amps is None or len(nodes) >= _ALONE:
                continue
            reason = f"{edge.owner} of {edge.amps:g} A at {part.id}, which asks for {needed:g} A"
            if edge.amps < needed - 1e-6:
                yield Flaw("device loaded", edge.owner, WARNING, reason)
            elif edge.amps < 1.25 * needed / _GIVES[part.kind] - 1e-6:
                # how long a charger gives all that it can depends on the battery: left open
                yield Flaw(f"device full {edge.amps:g}", edge.owner, WARNING, reason, near=True)


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


def lone_grounds(design: Design, flows: Flows) -> Iterator[Flaw]:
    """Ground wires that run alone, by the largest device before what hangs on their ends."""
    for run in design.runs:
        told = Told(run)
        jumper = told.word("installation") == "jumper" or not told.has("size")
        if jumper or {p for pair in pairs(design, run) for p in pair} != {"PE"}:
            continue
        parts = {run.a.part, run.b.part}
        hots = [n for n in flows.near if n.part in parts and n.pole in HOTS - {"+"}]
        device = max((d for n in hots if (d := flows.into(n)) < math.inf), default=0.0)
        least, own = ground_wire(device), size_of(told, "PE")
        if device and thinner(own, least):
            reason = f"{run.designation} of {own} AWG is a ground wire alone: {least} AWG at least"
            yield Flaw("ground wire thin", run.id, WARNING, reason)


def starter_cables(flows: Flows) -> set[str]:
    """The runs through which a battery turns a starter as things stand."""
    found: set[str] = set()
    for edge in flows.edges:
        for near, far in ((edge.a, edge.b), (edge.b, edge.a)) if edge.sort == "wire" else ():
            given = {s.sort for n in flows.behind(near, edge) for s in flows.at.get(n, ())}
            if "battery" in given and any(use.starter for use in flows.loads(far, edge)):
                found.add(edge.owner)
    return found


def _all(flows: Flows) -> list[Edge]:
    return flows.standing.edges


def _aluminium(size: str) -> str:
    """Two gauges thicker, as the aluminium column of table 250.122 is."""
    steps = {"14": "12", "12": "10", "10": "8", "8": "6", "6": "4", "4": "2"}
    return steps.get(size, "1/0")
