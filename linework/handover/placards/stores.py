"""Placards of what cannot be switched off: sun and batteries."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from linework.codes import CodesError
from linework.design import Part, Run
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.charged_banks import banks
from linework.handover.circuits import run_faults
from linework.handover.content import Content
from linework.handover.faults import at_part
from linework.handover.locking import circuits_of, order_of
from linework.handover.placards.asked import asked_at, holds_at
from linework.handover.placards.boards import parts
from linework.handover.placards.sign import Placard
from linework.handover.rating_words import value_text as rating_words
from linework.study.lockout import Means, Sort, held, live_anywhere
from linework.study.stands import place_of
from linework.study.wires.ratings import rules_of

SUN = {"NA": "690.13(B)", "INT": "712"}
CONDUIT = {"NA": "690.31(D)(2)"}
RAPID = {"NA": "690.12, 690.56(C)"}
STORE = {"NA": "706.15(C)", "INT": "537"}
HIGH = {"NA": "480.7", "INT": "537"}
DWELLING = {"NA": "706.15(C), 706.15(B)", "INT": "537"}
FUSES = {"NA": "552.10(E)", "INT": "721"}
"""What asks for them; from memory."""

_RACEWAYS = ("conduit_pvc", "conduit_steel")


# sun


def suns(content: Content) -> Iterator[Placard]:
    """Of each array, at what parts it."""
    say = content.say
    design = content.design
    circuit = circuits_of(design, design.revision)[0]
    steps = [s.means for s in order_of(content).steps if s.means.sort in (Sort.SUN, Sort.STORE)]
    steps = [m for m in steps if not _stored(content, _owners(content, [m.part]))]
    for part in parts(content):
        mine = [s.data for s in circuit.sources if s.owner == part.id and s.data.group.solar]
        if not mine:
            continue
        amps = [d.limit.sustained_a.usual for d in mine if d.limit]
        big = say("up to {volts} DC", volts=value_text(max(d.volts for d in mine), "voltage"))
        if amps:
            big += f", {value_text(max(amps), 'current')}"
        at = [m for m in steps if part.id in _owners(content, [m.part])]
        opened = ", ".join(content.name(m.part) for m in at)
        lines = [say("Live in any light.")]
        if opened and any(_both_sides(content, m) for m in at):
            lines.append(say("{what} open: both sides stay live.", what=opened))
        elif opened:
            lines.append(say("Open {what} to part it; its side stays live.", what=opened))
        clause = asked_at(content, part, SUN)
        head = say("Solar {disconnect}") if opened else say("Solar")
        yield Placard(head, big, tuple(lines), opened or part.designation, True, clause)


def _owners(content: Content, at: Iterable[str]) -> set[str]:
    """The sources that make any terminal of some parts live in some state."""
    here = {*at}
    return {o for r in content.reports for (p, _), by in r.live.items() if p in here for o in by}


def _both_sides(content: Content, means: Means) -> bool:
    """Whether, with it open, more than one of its terminals is live in some state."""
    for circuit in circuits_of(content.design, content.design.revision):
        live, _ = live_anywhere(held(circuit, {means.key: means.position}))
        if sum(part == means.part for part, _ in live) > 1:
            return True
    return False


def raceways(content: Content) -> Iterator[Placard]:
    """Along the conduits of buildings in which nothing but the sun's current runs."""
    say = content.say
    found = [run for run in content.design.runs if _of_the_sun(content, run)]
    found = [run for run in found if holds_at(content, content.design.part(run.a.part), CONDUIT)]
    if found:
        first = content.design.part(found[0].a.part)
        names = ", ".join(sorted((content.name(run.id) for run in found), key=natural))
        spacing = "10 ft" if content.family == "NA" else "3 m"
        yield Placard(
            say("Solar power"),
            say("Live in any light"),
            (
                say("Direct current of an array. Do not cut or open."),
                say("Every {spacing}, on each box, and both sides of a wall.", spacing=spacing),
            ),
            names,
            True,
            asked_at(content, first, CONDUIT),
        )


def _of_the_sun(content: Content, run: Run) -> bool:
    """In a raceway, and made live by arrays alone."""
    design = content.design
    if design.run_values(run).pick("installation") not in _RACEWAYS:
        return False
    owners = {o for r in content.reports for o in r.live_runs.get(run.id, ())}
    return bool(owners) and all(design.kind(design.part(o)).source.solar for o in owners)


def rapid(content: Content) -> Iterator[Placard]:
    """Where the place asks for a quick shutdown of arrays: the drawing cannot tell its switch."""
    say = content.say
    design = content.design
    arrays = [p for p in parts(content) if design.kind(p).source.solar]
    arrays = [p for p in arrays if holds_at(content, p, RAPID)]
    if arrays:
        boards = [p.designation for p in parts(content) if design.kind(p).board]
        yield Placard(
            say("Solar rapid shutdown"),
            say("Switch: ____________"),
            (
                say("For arrays on the building: write in where its switch is, and what it kills."),
                say("A {disconnect} down here leaves the roof live."),
            ),
            ", ".join(boards[:1]) or arrays[0].designation,
            True,
            asked_at(content, arrays[0], RAPID),
        )


# batteries


def stores(content: Content) -> Iterator[Placard]:
    """At each switch that parts a bank: its voltage, the fault current there, the date of that."""
    say = content.say
    design = content.design
    for step in order_of(content).steps:
        part = design.part(step.means.part)
        kind = design.kind(part)
        if step.means.sort is not Sort.STORE or kind.melts or kind.board or not step.needed:
            continue
        bank = _stored(content, _owners(content, [part.id]))
        if not bank:
            continue
        volts = max((b.volts for b in banks(content) if {*b.owners} & {*bank}), default=0.0)
        rated = ""
        if "rating" in kind.declared:
            rated = rating_words(kind.declared["rating"], design.values(part), content.family)
        facts = (part.designation, f"{volts:g} V DC" if volts else "", rated)
        lines = [
            _fault_words(content, part),
            say("What lies before it stays live: a battery cannot be switched off."),
        ]
        if _lived_in(content, part, bank):
            lines.append(say("Emergency stop of the store, outside: ____________"))
        yield Placard(
            say("Battery {disconnect}"),
            " · ".join(filter(None, facts)),
            tuple(lines),
            part.designation,
            True,
            _asked_of(content, part, bank, volts),
        )


def _fault_words(content: Content, part: Part) -> str:
    """The most that a short drives there, or at the ends of its wires, and the date of that."""
    date = content.date.isoformat()
    here = at_part(content, part.id)
    runs = content.design.runs_at(part.id)
    found = [here] if here else [at for run in runs if (at := run_faults(content, run))]
    if not found:
        return content.say("Fault current ________ A, on ____________")
    amps = value_text(max(most for _, most in found), "current")
    return content.say("Fault current up to {amps}, worked out {date}.", amps=amps, date=date)


def _stored(content: Content, owners: Iterable[str]) -> list[str]:
    """The batteries among some sources."""
    design = content.design
    return [o for o in sorted(owners) if design.kind(design.part(o)).source.stores]


def _stored_wh(content: Content, bank: Iterable[str]) -> float:
    each = (content.design.values(content.design.part(part)) for part in bank)
    return sum(v.num("capacity") * v.num("voltage") for v in each if "capacity" in v.declared)


def _asked_of(content: Content, part: Part, bank: list[str], volts: float) -> str:
    """Of a store of much energy, else of high voltage, by the limits of the family."""
    try:
        rules = rules_of(content.design)
        large = _stored_wh(content, bank) > rules.disconnect_from("energy").value
        high = volts > rules.disconnect_from("voltage").value
    except CodesError:
        large = high = False
    clauses = STORE if large else HIGH if high else {}
    if large and _lived_in(content, part, bank):
        clauses = DWELLING
    return asked_at(content, part, clauses)


def _lived_in(content: Content, part: Part, bank: list[str]) -> bool:
    """Whether it stands in a building some of whose boards feed rooms that people live in."""
    design = content.design
    if place_of(design, part.id).aboard or not holds_at(content, part, {"NA": "706.15(B)"}):
        return False
    values = [design.values(p) for p in design.parts if "lived_in" in design.kind(p).declared]
    try:
        limit = rules_of(design).disconnect_from("energy").value
    except CodesError:
        return False
    return any(v.pick("lived_in") == "yes" for v in values) and _stored_wh(content, bank) > limit


def fuses(content: Content) -> Iterator[Placard]:
    """In vehicles: which fuse belongs into which holder outside the boards."""
    say = content.say
    design = content.design
    found = [p for p in parts(content) if design.kind(p).melts and not _on_board(content, p)]
    found = [p for p in found if holds_at(content, p, FUSES)]
    if found:
        names = [f"{p.designation} {_rated(content, p)}".strip() for p in found]
        yield Placard(
            say("{Fuses}"),
            say("Same size, same kind"),
            (", ".join(names) + ".", say("A larger one sets the wire on fire.")),
            ", ".join(p.designation for p in found),
            False,
            asked_at(content, found[0], FUSES, "fuse"),
        )


def _rated(content: Content, part: Part) -> str:
    kind = content.design.kind(part)
    return rating_words(kind.declared["rating"], content.design.values(part), content.family)


def _on_board(content: Content, part: Part) -> bool:
    design = content.design
    return any(design.kind(design.part(s.host)).board for s in design.seats_of(part.id))
