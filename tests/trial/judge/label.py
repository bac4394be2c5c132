"""The label of a mistake: what two drawings differ in, as the judge sees them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace

from linework.design import Design, Part, Run, Seat
from tests.trial.judge import feeding, fittings, grounds, jumpers, neutrals, paths, returns, wires
from tests.trial.judge.expand import Unreadable, net_of
from tests.trial.judge.flaws import DANGER, NEAR, WARNING, Fact, Flaw
from tests.trial.judge.flows import Flows
from tests.trial.judge.standing import Standing, standings

HARMLESS, UNLABELLED = "harmless", "not labelled"

UNREAD = frozenset(
    (
        *("start_current", "start_power_factor", "surge", "reactance", "x_over_r"),
        *("idle", "handle", "magnetic", "indoors", "expects"),
        *("marked", "hidden", "passes", "stranding", "grouped"),
        *("raceway", "raceway_type", "trade_size", "wire_type", "box"),
        *("case", "string_fuse", "largest_fuse", "thermostat", "neutral_switched"),
        *("outage", "pv_current", "change", "finds_ground_fault", "filter"),
        *("switch_120", "distance", "material"),
    )
)
"""Ratings that decide nothing in the judge: a mistake in one of them is not labelled."""


@dataclass
class Survey:
    """All that the judge says of one drawing."""

    flaws: dict[tuple[str, str, str], Flaw] = field(default_factory=dict)
    facts: dict[tuple[str, str, str], Fact] = field(default_factory=dict)

    def take(self, said: Iterable[Flaw | Fact]) -> None:
        """Keep what is said; a clear flaw before one that is near its limit."""
        for item in said:
            if isinstance(item, Fact):
                self.facts.setdefault(item.key, item)
            elif item.key not in self.flaws or self.flaws[item.key].near:
                self.flaws[item.key] = item

    def soften(self, check: str, subjects: set[str]) -> None:
        """Leave flaws of these open: a lead that feeds a starter in another position of a selector
        needs no device for that (ABYC E-11), and what else hangs on it is another question."""
        for key, flaw in self.flaws.items():
            if flaw.check == check and flaw.subject in subjects:
                self.flaws[key] = replace(flaw, near=True)


@dataclass(frozen=True)
class Label:
    """What a mistake is, why, and the parts or runs by which the judge sees it."""

    word: str
    reason: str
    subjects: tuple[str, ...] = ()


def survey(design: Design) -> Survey:
    """Judge one drawing. Unreadable where the judge's reading ends."""
    net = net_of(design)
    found = Survey()
    try:
        found.take(fittings.mating(design))
        found.take(jumpers.jumpers(design, net))
        found.take(neutrals.placed_wrong(design))
        found.take(neutrals.own_grounds(design))
        found.take(wires.link_flaws(design))
        starters: set[str] = set()
        for standing in standings(design, net):
            found.take(_state(design, standing))
            starters |= wires.starter_cables(Flows(standing))
        found.soften("wire guarded", starters)
    except (ValueError, KeyError) as fault:
        raise Unreadable(str(fault)) from fault
    return found


def _state(design: Design, standing: Standing) -> Iterator[Flaw | Fact]:
    flows = Flows(standing)
    yield from feeding.meeting(standing, design)
    yield from feeding.banks(standing, design)
    yield from feeding.primaries(standing, design)
    yield from feeding.managements(standing, design)
    yield from feeding.pins(standing, design)
    yield from feeding.loads(standing, design)
    yield from feeding.outlets(standing, design)
    yield from feeding.load_by_source(standing, design)
    yield from grounds.link_flaws(standing, design)
    yield from grounds.metal_flaws(standing, design)
    yield from grounds.neutral_as_ground(standing, design)
    yield from grounds.body_facts(standing, design)
    yield from grounds.earth_flaws(standing, design)
    yield from grounds.kept_apart(standing, design)
    yield from wires.wire_flaws(design, flows)
    yield from returns.return_flaws(design, flows)
    yield from returns.link_currents(design, flows)
    yield from wires.device_flaws(flows)
    yield from wires.controller_flaws(design, flows)
    yield from wires.appliance_flaws(design, flows)
    yield from wires.inverter_flaws(design, flows)
    yield from wires.ground_flaws(design, flows)
    yield from wires.lone_grounds(design, flows)
    yield from paths.fault_flaws(flows)
    yield from paths.drop_flaws(standing, design)
    yield from paths.break_flaws(flows, design)
    yield from fittings.ratings(design, flows)
    yield from fittings.outlets_above_circuit(design, flows)
    yield from fittings.wet_places(design, standing)
    yield from fittings.device_voltage(design, flows)
    yield from fittings.arrays(design, standing)
    yield from fittings.surge_voltage(design, standing)
    yield from fittings.transformers(design, flows)
    yield from fittings.switches(design, standing)
    yield from neutrals.shared_neutrals(design, flows)
    yield from neutrals.both_legs(design, standing)
    yield from neutrals.blind_devices(design, standing)
    yield from neutrals.inlets(design, standing)


def label(sound: Design, mistaken: Design, before: Survey) -> Label:
    """The label of a mistake; ``before`` is the survey of the sound drawing."""
    unread = sorted(unread_changes(sound, mistaken))
    try:
        after = survey(mistaken)
    except Unreadable as fault:
        return Label(UNLABELLED, str(fault))
    clear, near = _new(before, after, mistaken)
    for level in (DANGER, WARNING):
        told = [item for item in clear if item[0] == level]
        if told:
            named = [word for _, _, subject in told for word in subject.replace("+", " ").split()]
            subjects = tuple(dict.fromkeys(word for word in named if word in mistaken))
            return Label(level, told[0][1], subjects)
    if near:
        return Label(UNLABELLED, f"too near a limit: {near[0]}")
    if unread:
        return Label(UNLABELLED, f"the judge asks nothing about {', '.join(unread)}")
    return Label(HARMLESS, "every fact stands and nothing new is wrong")


def _new(
    before: Survey, after: Survey, mistaken: Design
) -> tuple[list[tuple[str, str, str]], list[str]]:
    """(level, reason, subject) of what is new and clear, and reasons that are too near to tell."""
    clear: list[tuple[str, str, str]] = []
    near: list[str] = []
    for key, flaw in after.flaws.items():
        known = before.flaws.get(key)
        if known is not None and (flaw.near or not known.near):
            continue
        if flaw.near:
            near.append(flaw.reason)
        else:
            clear.append((flaw.level, flaw.reason, flaw.subject))
    for key, fact in before.facts.items():
        if key in after.facts or fact.subject not in mistaken or not _still(fact, mistaken):
            continue
        if fact.level == NEAR:
            near.append(fact.lost)
        else:
            clear.append((fact.level, fact.lost, fact.subject))
    return clear, near


def _still(fact: Fact, mistaken: Design) -> bool:
    """Whether what gave it is still drawn (a word such as "body" always is)."""
    return fact.by in mistaken or fact.by in ("body", "switch")


def unread_changes(sound: Design, mistaken: Design) -> set[str]:
    """Ratings in which two drawings differ and that the judge does not read."""
    found: set[str] = set()
    for key, item in mistaken.elements.items():
        other = sound.get(key)
        if isinstance(item, Part | Run) and isinstance(other, Part | Run) and item != other:
            keys = {*item.ratings, *other.ratings}
            changed = {k for k in keys if item.ratings.get(k) != other.ratings.get(k)}
            found |= changed & UNREAD
    return found


def differences(sound: Design, mistaken: Design) -> list[str]:
    """What changed, a line an element; seats by what sits where, their ids are drawn anew."""
    lines = []
    for key in dict.fromkeys((*sound.elements, *mistaken.elements)):
        one, other = sound.get(key), mistaken.get(key)
        if one != other and not isinstance(one or other, Seat):
            lines.append(f"{key}: {_told(one)} -> {_told(other)}")
    before, after = ({_told(seat) for seat in design.seats} for design in (sound, mistaken))
    lines += [f"{seat} -> nothing" for seat in sorted(before - after)]
    return lines + [f"nothing -> {seat}" for seat in sorted(after - before)]


def _where(item: Part | Run) -> str:
    if isinstance(item, Part):
        return item.kind
    return f"{item.a.part}.{item.a.terminal}-{item.b.part}.{item.b.terminal}"


def _told(item: object) -> str:
    if item is None:
        return "nothing"
    if isinstance(item, Part | Run):
        rated = ", ".join(f"{k}={v}" for k, v in item.ratings.items())
        poles = " ".join(f"{a}>{b}" for a, b in item.poles or ()) if isinstance(item, Run) else ""
        return f"{_where(item)} [{rated}] {poles}".strip()
    if isinstance(item, Seat):
        return f"{item.part} in {item.host} {item.place}"
    return type(item).__name__
