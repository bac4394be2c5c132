"""A chassis or hull that carries AC equipment and is not bonded.

What is checked
    In every state in which AC is live: each body must be joined by metal to
    the ground wire of the system that is live. A body that is wired to an inlet
    of its own, as the next stall or trailer in a row, is no concern of a source
    that reaches only another. A vehicle or boat without a body on the sheet is
    "not checked".
Why it matters
    A worn wire on the frame makes the whole vehicle live, and nothing trips.
How to cure it
    Join the ground bar of the panel to the body, 8 AWG copper at least.
Limits
    The size of the jumper is judged by another rule. The ground of a shore that
    ends at the shield of an isolation transformer is to be kept from the hull. A
    portable set that feeds only its own outlets may stand unbonded.
Sources
    NFPA 70 (2023) 551.56, 250.34(B); IEC 60364-7-721 721.411.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from linework.codes import CodesError
from linework.design import End, PlaceKind, Run, pole_map
from linework.findings.mending import link, only_board
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.neutral.ashore import (
    ashore,
    inlets_fed,
    loose_leads,
    seated_with,
    wired_with,
)
from linework.study.neutral.metal import grounded_at
from linework.study.situation import Situation
from linework.study.ways.windings import kept_apart
from linework.study.wires.ratings import rules_of
from linework.wiring import is_dc
from linework.words import N_, say

MESSAGE = N_(
    "{body} is not joined to the {ground_wire} of {source}. A wire that chafes on it makes it"
    " live, and nothing trips."
)
NOT_DRAWN = N_(
    "no chassis or hull is drawn: whether it is bonded to the {ground_wire} was not judged"
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each body that AC equipment can make live."""
    bodies = _bodies(view)
    for place in sorted(view.places | bodies.keys()):
        yield from _in(view, place, bodies.get(place, []))


def _in(view: View, place: PlaceKind, bodies: list[str]) -> Iterator[Outcome]:
    """Of what stands in one place."""
    leads = loose_leads(view.design)
    for look in view.settled_looks if bodies or place.aboard else ():
        reached = _ac_sources(view, look.studies.situation, leads, place)
        if reached and not bodies:
            yield NotChecked(NOT_DRAWN)
            return
        for body in bodies if reached else ():
            cut = [
                owner
                for owner, parts in sorted(reached.items())
                if not _bonded(look.studies.situation, body, owner)
                and not _stands_apart(view, body, bodies, parts)
            ]
            if cut:
                yield _hit(view, look, body, tuple(cut))


def _stands_apart(view: View, body: str, bodies: list[str], reached: Collection[str]) -> bool:
    """Whether a body belongs to an installation with an inlet of its own, and all that a source
    reaches to others that have a body each, or from which a cord leads to such an inlet."""
    mine = wired_with(view.design, body)
    if not any(view.kind(part).lets_in for part in mine) or not mine.isdisjoint(reached):
        return False
    bodied = set[str]().union(*(wired_with(view.design, each) for each in bodies))
    rest = set(reached) - bodied
    while rest:
        other = wired_with(view.design, rest.pop())
        if not any(inlets_fed(view.design, part) & bodied for part in other):
            return False
        rest -= other
    return bodied - mine != set()


def _bodies(view: View) -> dict[PlaceKind, list[str]]:
    """One symbol of each body, by its place: all of one name there are the same metal."""
    found: dict[tuple[PlaceKind, str], str] = {}
    for part in view.parts_that(lambda kind: kind.body):
        found.setdefault((view.place_of(part), view.values(part).text("name")), part)
    each: dict[PlaceKind, list[str]] = {}
    for (place, _), part in found.items():
        each.setdefault(place, []).append(part)
    return each


def _ac_sources(
    view: View, situation: Situation, leads: Collection[str], place: PlaceKind
) -> dict[str, set[str]]:
    """Sources of AC in a place, and those whose hot conductors come there, with the parts that
    these reach."""
    found: dict[str, set[str]] = {}
    for system in situation.systems:
        if not system.is_ac:
            continue
        own = ashore(view.design, system.owner) or seated_with(view.design, system.owner)
        # of a lead that lies between two, what it leads to counts
        reach = set(situation.parts_on.get(system.hot, ())).difference(leads)
        reach = {p for p in reach if view.part(p) is not None and view.place_of(p) is place}
        if kept_apart(situation, system, own):
            continue
        if reach - own or (_built_in(view, system.owner) and view.place_of(system.owner) is place):
            found.setdefault(system.owner, set()).update(reach - own or {system.owner})
    return found


def _built_in(view: View, owner: str) -> bool:
    """Whether a set or inverter stands in the vehicle for good: its frame is bonded whatever it
    feeds (250.34(B)), and an inverter that lies on a bank by fixed wires is no portable set."""
    declared = view.kind(owner).declared
    if "indoors" in declared:
        return view.values(owner).pick("indoors") == "compartment"
    sockets = view.kind(owner).pulled
    runs = [
        run
        for run in view.design.runs_at(owner)
        if _direct_current(view, run)
        and not any(end.part == owner and end.terminal in sockets for end in (run.a, run.b))
    ]
    return any(view.run_values(run.id).pick("installation") != "cord" for run in runs)


def _direct_current(view: View, run: Run) -> bool:
    return any(is_dc(pole) for pair in pole_map(view.design, run) for pole in pair)


def _bonded(situation: Situation, body: str, owner: str) -> bool:
    circuit, label = situation.circuit, situation.metallic
    here = label[next(iter(circuit.terminals[body, "tie"].values()))]
    return here in grounded_at(circuit, label, owner)


def _hit(view: View, look: Look, body: str, owners: tuple[str, ...]) -> Hit:
    volts = max(s.data.volts for s in look.studies.circuit.sources if s.owner in owners)
    return look.hit(
        Level.DANGER,
        (body,),
        MESSAGE,
        {"body": view.name(body), "source": ", ".join(view.name(o) for o in owners)},
        (Evidence(N_("voltage that it can take"), volts, "voltage"),),
        touches=frozenset({*owners, *_hanging(look.studies.situation, body)}),
        mend=_mend(view, body, owners),
    )


def _hanging(situation: Situation, body: str) -> set[str]:
    """Parts with metal that hangs together with a body."""
    here = situation.metallic[next(iter(situation.circuit.terminals[body, "tie"].values()))]
    return {m.owner for m in situation.circuit.metals if situation.metallic[m.node] == here}


def _mend(view: View, body: str, owners: Collection[str]) -> Mend | None:
    """Join the only panel with a ground bar to the body; where there is none, the case of what
    makes the voltage."""
    board = only_board(view)
    end = End(board.id, "ground") if board is not None else _case(view, owners)
    if end is None:
        return None
    try:
        size = rules_of(view.design).vehicle_bond().value
    except CodesError:  # a family without a size for it
        return None
    words = {"what": view.name(body), "panel": view.name(end.part), "size": size}
    title = say("Join {what} to {panel} by {size}", **words)
    return link(title, end, End(body, "tie"), size)


def _case(view: View, owners: Collection[str]) -> End | None:
    """The case of the only source, where it has a terminal."""
    found = [
        End(owner, terminal.name)
        for owner in owners
        for terminal in view.kind(owner).terminals(view.values(owner))
        if terminal.name == "case"
    ]
    return found[0] if len(found) == 1 else None


RULE = Rule(
    "chassis-unbonded",
    N_("Chassis or hull not bonded"),
    check,
    {"NA": "551.56, 250.34(B)", "INT": "721.411"},
    causes=("ground-open",),
    hangs_on=("metal-live",),
)
