"""The neutral-ground link sits where it must not.

What is checked
    The link of a separately derived source lies at the source or at the first
    panel after it, not further on. A recreational vehicle's panel never
    carries it; that of another vehicle or a boat does not while shore feeds it.
Why it matters
    Ahead of the link the ground wire is no fault path: a fault there trips
    nothing. In a panel that shore also feeds, the link is a second one.
How to cure it
    Take the link out of this panel and fit it at the source.
Limits
    "First disconnect" is read as the first panel on the way from the source.
Sources
    NFPA 70 (2023) 250.30(A)(1), 551.54(C).
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import PlaceKind
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.neutral.ashore import ashore
from linework.study.neutral.bonds import Bond, NeutralSystem
from linework.study.ways.paths import parts_on_way
from linework.words import N_

IN_VEHICLE = N_(
    "{where} joins {neutral} and {ground}. In a vehicle or boat the link belongs to the source:"
    " the {panel} keeps its {neutral} bar apart from the enclosure."
)
BEYOND = N_(
    "The only {neutral_ground_link} of {source} is in {where}, beyond {before}. A fault before it"
    " has no way back."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each link in a panel that is the wrong one."""
    for look in view.settled_looks:
        for system in look.studies.neutrals:
            if system.is_ac:
                yield from _links(view, look, system)


def _links(view: View, look: Look, system: NeutralSystem) -> Iterator[Hit]:
    for bond in system.bonds:
        part = view.part(bond.owner)
        if part is None or not view.kind(part.id).board:
            continue
        if _vehicle_panel(view, system, bond.owner):
            yield _hit(view, look, system, bond, IN_VEHICLE, "")
        elif len(system.bonds) == 1:
            before = _panel_before(view, look, system, bond)
            if before:
                yield _hit(view, look, system, bond, BEYOND, before)


def _vehicle_panel(view: View, system: NeutralSystem, panel: str) -> bool:
    """Whether it is on board and may not carry the link there; a house behind the plug may."""
    if any(panel in ashore(view.design, owner) for owner in system.owners):
        return False
    shore = any(view.kind(owner).source.off_site for owner in system.owners)
    place = view.place_of(panel)
    return place is PlaceKind.RECREATIONAL or (place.aboard and shore)


def _panel_before(view: View, look: Look, system: NeutralSystem, bond: Bond) -> str:
    """Another panel on the way from the source to the one with the link."""
    situation = look.studies.situation
    feed = situation.circuit.terminals[bond.owner, "feed"]
    goal = next((node for pole, node in feed.items() if pole.startswith("L")), None)
    if goal is None:
        return ""
    for source in system.sources:
        passed = parts_on_way(situation, source, goal) - {bond.owner}
        for part in sorted(passed):
            if view.part(part) is not None and view.kind(part).board:
                return part
    return ""


def _hit(
    view: View, look: Look, system: NeutralSystem, bond: Bond, message: str, before: str
) -> Hit:
    return look.hit(
        Level.DANGER,
        (bond.owner,),
        message,
        {
            "where": view.name(bond.owner),
            "source": ", ".join(view.name(o) for o in system.owners),
            "before": view.name(before) if before else "",
        },
        (Evidence(N_("{neutral_ground_link}s in circuit"), float(len(system.bonds)), "count"),),
        touches=frozenset(system.owners),
    )


RULE = Rule(
    "bond-at-wrong-place",
    N_("{neutral_ground_link} at the wrong place"),
    check,
    {"NA": "250.30(A)(1), 551.54(C)", "INT": "5-54"},
    causes=("bond-doubled",),
)
