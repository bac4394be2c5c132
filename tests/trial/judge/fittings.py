"""What fits what: plugs and outlets, ratings of fittings, protection where people get wet."""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.design import Design, Part
from tests.trial.judge.flaws import DANGER, NEAR, WARNING, Fact, Flaw
from tests.trial.judge.flows import Flows
from tests.trial.judge.held import bar, held
from tests.trial.judge.net import HOTS, Emf, Node
from tests.trial.judge.poles import POLES, hots, poles
from tests.trial.judge.reading import Told
from tests.trial.judge.standing import Standing
from tests.trial.judge.tables import (
    ALSO_MATE,
    DC_BREAKS,
    PATTERNS,
    STORED_V,
    STORED_WH,
    SWITCHED_AFLOAT_AH,
    WET,
    next_standard,
)

Said = Iterator[Flaw | Fact]
_SWITCHES = ("battery_disconnect", "battery_selector", "charge_relay", "isolator")
_FITTED: dict[str, tuple[str, ...]] = {
    "outlet": ("feed",),
    "plug": ("pins",),
    "inlet": ("outside",),
    "adapter": ("pins",),
}
_RATED = {
    "transfer_switch": ("rating", ("in1", "in2", "load")),
    "transfer_automatic": ("rating", ("in1", "in2", "load")),
    "battery_disconnect": ("rating", ("line", "load")),
    "isolator": ("rating", ("line", "load")),
    "panel": ("bus", ("bus",)),
    "busbar": ("rating", ("feed",)),
    "inverter_charger": ("transfer", ("ac_in",)),
    "hybrid_inverter": ("transfer", ("ac_in",)),
    "charge_relay": ("rating", ("line", "load")),
    "battery_selector": ("rating", ("battery1", "battery2", "load")),
}


def mating(design: Design) -> Said:
    """Plugs drawn in outlets that do not take them."""
    for seat in design.seats:
        part, host = design.part(seat.part), design.part(seat.host)
        own = Told(part, part.kind).word("configuration")
        if part.kind == "outlet" or not own or host.kind not in ("outlet", "adapter", "cord_set"):
            continue
        about = Told(host, host.kind)
        key = "configuration" if host.kind == "outlet" else "connector"
        other = about.word(key, about.word("configuration"))
        if own != other and (own, other) not in ALSO_MATE:
            told = f"the plug {own} of {part.id} does not enter {other} of {host.id}"
            yield Flaw("does not mate", part.id, WARNING, told)


def ratings(design: Design, flows: Flows) -> Said:
    """Fittings rated below what can come through them for good."""
    for part in design.parts:
        told = Told(part, part.kind)
        if part.kind in _FITTED:
            pattern = told.word("configuration")
            rated = PATTERNS[pattern][1] if pattern in PATTERNS else math.inf
            terminals = _FITTED[part.kind]
        elif part.kind in _RATED and told.has(_RATED[part.kind][0]):
            key, terminals = _RATED[part.kind]
            rated = told.figure(key)
        else:
            continue
        most = _most(flows, part, terminals)
        if part.kind == "outlet" and most <= rated < _nearest(flows, part.id):
            yield Flaw("outlet small", part.id, DANGER, f"{part.id} lies behind more", near=True)
        if pattern_ok(part, told, most) or most <= rated + 1e-6 or _minus_only(told):
            continue
        if part.kind in ("busbar", "panel") and not math.isinf(most):
            yield from bar(flows, part, rated, most)
            continue
        told_of = f"{part.id} is made for {rated:.0f} A and {most:.0f} A may come"
        near = math.isinf(most) or (part.kind in _SWITCHES and held(flows, part, rated))
        yield Flaw("fitting small", f"{part.id} {rated:.0f}", DANGER, told_of, near)
    yield from _minus_bars(design, flows)


def pattern_ok(part: Part, told: Told, most: float) -> bool:
    """15 A outlets and plugs on 20 A circuits are accepted (NFPA 70 210.21(B)(3))."""
    pattern = told.word("configuration")
    return part.kind in ("outlet", "plug", "adapter") and pattern == "5-15" and most <= 20.0


def _nearest(flows: Flows, outlet: str) -> float:
    """The smallest device next to an outlet, whatever stands before that."""
    nodes = [Node(outlet, "feed", pole) for pole in ("L", "L1")]
    near = [e for n in nodes for m in flows.region(n) for _, e in flows.near.get(m, ())]
    return min((e.amps for e in near if e.amps is not None), default=0.0)


def outlets_above_circuit(design: Design, flows: Flows) -> Said:
    """20 A outlets with two faces on 15 A circuits (NFPA 70 210.21(B)(3)); on a set the judge does
    not decide: its maker may build it so."""
    for part in design.parts:
        told = Told(part, part.kind)
        node = Node(part.id, "feed", "L")
        if part.kind != "outlet" or told.word("configuration") != "5-20" or node not in flows.near:
            continue
        if told.word("duplex", "2") != "1" and flows.into(node) == 15.0:
            own = any(design.part(s.host).kind == "breaker" for s in design.seats_of(part.id))
            reason = f"{part.id} of 20 A lies on a circuit of 15 A"
            yield Flaw("outlet above circuit", part.id, WARNING, reason, near=own)


def _minus_only(told: Told) -> bool:
    return told.kind == "battery_disconnect" and told.word("poles") == "minus"


def _minus_bars(design: Design, flows: Flows) -> Said:
    """The judge follows no current in minus: a minus bar below the sum of all is left open."""
    plus = [n for n in flows.at if n.pole == "+"]
    most = max((flows.into(n) for n in plus), default=0.0)
    for part in design.parts:
        told = Told(part, part.kind)
        rated = told.figure("rating", 100.0)
        small = rated < min(most, 200.0)
        if part.kind == "busbar" and told.word("bar") == "minus" and small:
            reason = f"the minus bar {part.id} may be small"
            yield Flaw("minus bar", f"{part.id} {rated:.0f}", DANGER, reason, near=True)


def _most(flows: Flows, part: Part, terminals: tuple[str, ...]) -> float:
    """The greatest flow to one terminal of a part, not through the part itself."""
    most = 0.0
    for terminal in terminals:
        for pole in HOTS:
            node = Node(part.id, terminal, pole)
            if node in flows.near:
                most = max(most, _from_outside(flows, part.id, node))
    return most


def _from_outside(flows: Flows, part: str, node: Node) -> float:
    own = [e for _, e in flows.near[node] if e.owner == part and e.sort == "contact"]
    if len(own) == 1 and own[0].amps is None:
        return flows.into(node, without=own[0])
    return flows.into(node)


def wet_places(design: Design, standing: Standing) -> Said:
    """Outlets where people get wet, without a device of class A before them; those of 240 V too
    (NFPA 70 (2023) 210.8(A): 125 V through 250 V)."""
    guarded = behind_class_a(design, standing)
    for part in design.parts:
        told = Told(part, part.kind)
        asked = told.word("area") in WET or told.word("marked") == "no_ground"
        if part.kind != "outlet" or not asked:
            continue
        face = standing.net.faces[part.id]
        node = face.get("L", face.get("L1"))
        if node is not None and standing.feeders(node) and node not in guarded:
            reason = f"{part.id} ({told.word('area')}) has no ground-fault protection"
            site = any(design.part(s.host).kind == "supply" for s in design.seats_of(part.id))
            yield Flaw("unprotected outlet", part.id, WARNING, reason, near=site)


def behind_class_a(design: Design, standing: Standing) -> set[Node]:
    """Hot nodes that no source reaches but through a device of class A (6 mA): one of 30 mA at a
    boat's inlet is for the water and does not replace it (ABYC E-11)."""
    reached, waiting = set(), [s.plus for s in standing.sources]
    near: dict[Node, list[Node]] = {}
    for edge in standing.edges:
        sensor = edge.senses and is_class_a(design, edge.owner)
        if not sensor and edge.a.pole in HOTS and edge.b.pole in HOTS:
            near.setdefault(edge.a, []).append(edge.b)
            near.setdefault(edge.b, []).append(edge.a)
    while waiting:
        node = waiting.pop()
        if node not in reached:
            reached.add(node)
            waiting += near.get(node, ())
    return set(standing.wired) - reached


def is_class_a(design: Design, owner: str) -> bool:
    """Whether a device opens at 6 mA to ground."""
    part = design.part(owner)
    return Told(part, part.kind).word("ground_fault") in ("class_a", "class_a_arc")


def surge_voltage(design: Design, standing: Standing) -> Said:
    """Surge devices on more than they stand for good: 1.1 times the voltage to ground at the least
    (IEC 60364-5-53 534.4.4.2); and each hot conductor that they guard."""
    for part in design.parts:
        if part.kind != "surge_device":
            continue
        stands = Told(part, part.kind).figure("continuous_voltage")
        for pole in ("L", "L1", "L2"):
            feeders = standing.feeders(Node(part.id, "line", pole))
            volts = [abs(s.volts) for s in feeders]
            for source in feeders:
                lost = f"{part.id} guards {pole} of {source.owner} no longer"
                yield Fact(f"guards {pole}", part.id, source.owner, WARNING, lost)
            if volts and stands < 1.1 * max(volts):
                reason = f"{part.id} stands {stands:.0f} V and lies on {max(volts):.0f} V"
                near = stands > max(volts)
                yield Flaw("surge device low", part.id, DANGER, reason, near=near)


def transformers(design: Design, flows: Flows) -> Said:
    """Devices before a transformer above 125 % of its primary current, rounded up (NFPA 70 table
    450.3(B)); 250 % where its secondary has a device within 125 % of its own."""
    for part in design.parts:
        told = Told(part, part.kind)
        node = Node(part.id, "primary", hots(poles(told))[0])
        if part.kind != "transformer" or node not in flows.near:
            continue
        rated = told.figure("power") / told.figure("voltage", 120.0)
        legs = len(hots(POLES[told.word("secondary", "ac")]))
        behind = told.figure("power") / (120.0 * legs)
        guarded = told.has("breaker") and told.figure("breaker") <= next_standard(1.25 * behind)
        most = 2.5 * rated if guarded else next_standard(1.25 * rated)
        flow = flows.into(node)
        if flow > most:
            reason = f"{flow:.0f} A before {part.id}, which takes {rated:.0f} A"
            yield Flaw("transformer small", part.id, WARNING, reason)


def device_voltage(design: Design, flows: Flows) -> Said:
    """Devices and switches on direct current that are marked for less than the bank."""
    standing = flows.standing
    known, _ = standing.potentials
    for part in design.parts:
        told = Told(part, part.kind)
        if part.kind not in ("fuse", "breaker", "battery_disconnect", "isolator"):
            continue
        node = Node(part.id, "line", "+")
        mine = known.get(standing.wired.get(node, -1))
        marks = DC_BREAKS.get(told.word("type"), ())
        mark = told.figure("voltage", marks[-1][0] if marks and part.kind == "fuse" else 0.0)
        if mine is None or not mark:
            continue
        most = _stack(standing, node, mine)
        if most > mark + 0.1:
            reason = f"{part.id} is marked for {mark:.0f} V and lies on {most:.0f} V"
            yield Flaw("marked low", part.id, DANGER, reason)
        if part.kind in ("breaker", "isolator") and told.word("direct", "unknown") == "no":
            reason = f"{part.id} is not made for direct current"
            yield Flaw("not for direct", part.id, DANGER, reason)


def _stack(standing: Standing, node: Node, mine: tuple[int, float]) -> float:
    """The voltage of the cells, or of the array, on whose hot conductor a device lies."""
    known, _ = standing.potentials
    array = any(s.sort == "array" for s in standing.feeders(node))
    ends = [n for s in standing.sources if (s.sort == "array") == array for n in (s.plus, s.minus)]
    level = [known[standing.wired[n]] for n in ends if standing.wired[n] in known]
    return max((abs(mine[1] - v) for group, v in level if group == mine[0]), default=0.0)


def arrays(design: Design, standing: Standing) -> Said:
    """Strings whose voltage in the cold passes their controller's limit, or that charge nothing."""
    for part in design.parts:
        if part.kind not in ("solar_controller", "hybrid_inverter"):
            continue
        told = Told(part, part.kind)
        for source in standing.feeders(Node(part.id, "pv", "+")):
            array = Told(design.part(source.owner), "solar_array")
            cold = array.figure("coldest", -20.0)
            rise = 1.0 + array.figure("voc_per_degree", -0.004) * (cold - 25.0)
            volts = source.volts * rise
            limit = told.figure("pv_voltage")
            if volts > limit:
                reason = (
                    f"{source.owner} gives {volts:.0f} V in the cold, {part.id} bears {limit:.0f}"
                )
                yield Flaw("string high", part.id, DANGER, reason, near=volts < 1.03 * limit)
            works = array.figure("vmp", 0.0) * array.figure("series", 1.0)
            if works < 1.15 * told.figure("dc_voltage", 12.0):
                reason = f"{source.owner} works at {works:.0f} V: too little to charge"
                yield Flaw("string low", part.id, WARNING, reason)


def switches(design: Design, standing: Standing) -> Said:
    """Each battery behind a switch of its own; each array too."""
    near: dict[Node, list[Node]] = {}
    for edge in standing.edges:
        switch = edge.owner in design and edge.sort == "contact" and _is_switch(design, edge.owner)
        if edge.sort != "soil" and not switch and "+" in (edge.a.pole, edge.b.pole):
            near.setdefault(edge.a, []).append(edge.b)
            near.setdefault(edge.b, []).append(edge.a)
    for source in standing.sources:
        if source.sort not in ("battery", "array"):
            continue
        reached, waiting = set(), [source.plus]
        while waiting:
            node = waiting.pop()
            if node not in reached:
                reached.add(node)
                waiting += near.get(node, ())
        if not any(u.a in reached for u in standing.net.uses) and not _controller(design, reached):
            told = f"no switch cuts {source.owner} off from what it feeds"
            level = WARNING if _needs_switch(design, source) else NEAR
            yield Fact("switched off", source.owner, "switch", level, told)


def _needs_switch(design: Design, source: Emf) -> bool:
    """Whether a standard asks for one: of arrays; ashore of banks above 60 V or 1 kWh; afloat of
    large ones; not in vehicles."""
    if source.sort == "array":
        return design.settings.place not in ("vehicle", "recreational")
    batteries = [p for p in design.parts if p.kind == "battery"]
    hours = Told(design.part(source.owner), "battery").figure("capacity", 100.0)
    stored = sum(
        Told(p, p.kind).figure("voltage") * Told(p, p.kind).figure("capacity", 100.0)
        for p in batteries
    )
    match design.settings.place:
        case "boat":
            return hours >= SWITCHED_AFLOAT_AH
        case "building" | "field":
            return stored > STORED_WH or source.volts > STORED_V
    return False


def _is_switch(design: Design, owner: str) -> bool:
    item = design.get(owner)
    return isinstance(item, Part) and item.kind in ("battery_disconnect", "isolator", "breaker")


def _controller(design: Design, reached: set[Node]) -> bool:
    return any(n.terminal == "pv" and n.pole == "+" for n in reached)
