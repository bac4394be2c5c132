"""What fits what: plugs and outlets, ratings of fittings, protection where people get wet."""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.design import Design, Part, Run
from tests.trial.judge.expand import pairs, size_of
from tests.trial.judge.flaws import DANGER, NEAR, WARNING, Fact, Flaw
from tests.trial.judge.flows import Flows
from tests.trial.judge.net import HOTS, Node
from tests.trial.judge.reading import Told
from tests.trial.judge.standing import Standing
from tests.trial.judge.tables import ALSO_MATE, DC_BREAKS, PATTERNS, SIZES, WET, thinner

Said = Iterator[Flaw | Fact]
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
    "panel": ("bus", ("feed",)),
    "busbar": ("rating", ("feed",)),
    "inverter_charger": ("transfer", ("ac_in",)),
}
_LOADS = ("load", "lamp", "motor", "heater", "electronic_load")


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
        told_of = f"{part.id} is made for {rated:.0f} A and {most:.0f} A may come"
        yield Flaw("fitting small", f"{part.id} {rated:.0f}", DANGER, told_of, math.isinf(most))
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
        small = told.figure("rating", 100.0) < min(most, 200.0)
        if part.kind == "busbar" and told.word("bar") == "minus" and small:
            reason = f"the minus bar {part.id} may be small"
            yield Flaw("minus bar", part.id, DANGER, reason, near=True)


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
    """Outlets where people get wet, without a device of class A before them."""
    guarded = _behind_sensors(standing)
    for part in design.parts:
        told = Told(part, part.kind)
        asked = told.word("area") in WET or told.word("marked") == "no_ground"
        if part.kind != "outlet" or not asked:
            continue
        node = standing.net.faces[part.id].get("L")
        if node is not None and standing.feeders(node) and node not in guarded:
            reason = f"{part.id} ({told.word('area')}) has no ground-fault protection"
            site = any(design.part(s.host).kind == "supply" for s in design.seats_of(part.id))
            yield Flaw("unprotected outlet", part.id, WARNING, reason, near=site)


def _behind_sensors(standing: Standing) -> set[Node]:
    """Hot nodes that no source reaches but through a sensor."""
    reached, waiting = set(), [s.plus for s in standing.sources]
    near: dict[Node, list[Node]] = {}
    for edge in standing.edges:
        if not edge.senses and edge.a.pole in HOTS and edge.b.pole in HOTS:
            near.setdefault(edge.a, []).append(edge.b)
            near.setdefault(edge.b, []).append(edge.a)
    while waiting:
        node = waiting.pop()
        if node not in reached:
            reached.add(node)
            waiting += near.get(node, ())
    return set(standing.wired) - reached


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
        if part.kind != "solar_controller":
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
            ashore = design.settings.place not in ("vehicle", "recreational")
            yield Fact("switched off", source.owner, "switch", WARNING if ashore else NEAR, told)


def _is_switch(design: Design, owner: str) -> bool:
    item = design.get(owner)
    return isinstance(item, Part) and item.kind in ("battery_disconnect", "isolator", "breaker")


def _controller(design: Design, reached: set[Node]) -> bool:
    return any(n.terminal == "pv" and n.pole == "+" for n in reached)


def jumpers(design: Design) -> Said:
    """Bonding jumpers below 8 AWG in vehicles and boats; minus bonds below the battery's lead."""
    leads = _leads(design)
    for run in design.runs:
        told = Told(run)
        ends = {p for pair in pairs(design, run) for p in pair}
        size = size_of(told, "PE" if told.has("ground_size") else "L")
        returns = any(design.part(end.part).kind in _LOADS for end in (run.a, run.b))
        if "body" not in ends or not told.has("size") or returns:
            continue
        if "-" in ends and leads and thinner(size, leads):
            reason = f"{run.designation} of {size} AWG bonds minus; the battery's lead is {leads}"
            steps = SIZES.index(leads) - SIZES.index(size)
            yield Flaw("jumper thin", run.id, WARNING, reason, near=steps < 2)
        elif thinner(size, "8"):
            reason = f"{run.designation} of {size} AWG: bonding jumpers have 8 AWG or more"
            water = any(design.part(end.part).kind == "electrode" for end in (run.a, run.b))
            yield Flaw("jumper thin", run.id, WARNING, reason, near=water)


def _leads(design: Design) -> str:
    """The thickest plus lead at a battery or at its post fuse."""
    found = ""
    for run in design.runs:
        at = {design.part(end.part).kind for end in (run.a, run.b)}
        plus = any("+" in pair for pair in pairs(design, run))
        seated = {s.part for s in design.seats if design.part(s.host).kind == "battery"}
        near = "battery" in at or seated & {run.a.part, run.b.part}
        if plus and near and isinstance(run, Run):
            size = size_of(Told(run), "+")
            found = size if not found or thinner(found, size) else found
    return found
