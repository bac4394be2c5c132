"""The minus of a battery joined to the chassis at several places, or at none.

What is checked
    In every state, in a vehicle: whether the minus conductor of each battery
    is joined to a body at all; anywhere: whether two joints, the minus
    conductor and the body close a ring.
Why it matters
    With no joint a worn plus wire makes the chassis live and no fuse opens.
    With two, current of the starter, the inverter or the loads runs through
    bearings, cable screens and thin wires beside its own conductor.
How to cure it
    One joint, at the battery or its minus bar, as thick as the battery lead.
Limits
    A load that uses the chassis as its return is no second joint, nor is that of
    a second battery in a vehicle, at its own post. On boats and
    in buildings a missing joint is not judged here. The size of the joint is
    judged by another rule. A vehicle without a body on the sheet is "not
    checked".
Sources
    NFPA 70 (2023) 552.10(C); ISO 13297.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError
from linework.design import End, Run
from linework.findings.mending import link, take_away
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.neutral.bonds import NeutralSystem
from linework.study.wires.ratings import rules_of
from linework.wiring import Pole
from linework.words import N_, say

NONE = N_(
    "The minus of {source} is not joined to the chassis: a worn plus wire makes the chassis live,"
    " and no fuse opens."
)
PLUS = N_(
    "The plus of {source} is joined to the chassis and its minus is not: a worn minus wire is a"
    " short that no fuse in the plus opens. Take that joint away before the minus gets one."
)
MANY = N_(
    "The minus of {source} meets the chassis at {count} places: {places}. Part of its current takes"
    " the way through metal."
)
NOT_DRAWN = N_("no chassis is drawn: whether the battery's minus is joined to it was not judged")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each minus conductor of a battery."""
    for look in view.settled_looks:
        for system in look.studies.neutrals:
            cells = _cells(look, system)
            if not cells:
                continue
            if len(system.ring) > 1 and not _one_each(view, system):
                yield _many(view, look, system, cells)
            elif system.neutral not in look.studies.situation.hot_of:
                # between two batteries of a string no joint is asked for
                cells = tuple(c for c in cells if view.place_of(c).on_wheels)
                yield from _none(view, look, system, cells) if cells else ()


def _cells(look: Look, system: NeutralSystem) -> tuple[str, ...]:
    sources = look.studies.circuit.sources
    return tuple(sorted({sources[i].owner for i in system.sources if sources[i].data.group.stores}))


def _one_each(view: View, system: NeutralSystem) -> bool:
    """Whether every joint is at a battery of its own, as a vehicle has them for starting and for
    living: each is the shortest way for its own current."""
    runs = [view.run(bond.owner) for bond in system.ring]
    ends = [[run.a.part, run.b.part] if run is not None else [] for run in runs]
    posts = [{part for part in each if view.kind(part).source.stores} for each in ends]
    owners = set[str]().union(*posts)
    wheels = all(view.place_of(owner).on_wheels for owner in owners)
    return wheels and all(posts) and len(owners) == len(posts)


def _none(
    view: View, look: Look, system: NeutralSystem, cells: tuple[str, ...]
) -> Iterator[Outcome]:
    situation = look.studies.situation
    minus = situation.circuit.sources[system.sources[0]].minus
    label = situation.metallic
    bodies = {label[body] for body in situation.circuit.bodies}
    if label[minus] in bodies:
        return
    if not _bodies(view, cells):
        yield NotChecked(NOT_DRAWN)
        return
    own = [s for i in system.sources if (s := situation.circuit.sources[i]).owner in cells]
    turned = any(label[s.plus] in bodies for s in own)
    volts = max(s.data.volts for s in own)
    yield look.hit(
        Level.WARNING,
        cells,
        PLUS if turned else NONE,
        {"source": ", ".join(view.name(o) for o in cells)},
        (Evidence(N_("voltage that the chassis can take"), volts, "voltage"),),
        mend=None if turned else _join(view, cells),
    )


def _bodies(view: View, cells: tuple[str, ...]) -> list[str]:
    """The bodies that stand where the batteries do."""
    here, bodies = set(map(view.place_of, cells)), view.parts_that(lambda kind: kind.body)
    return [body for body in bodies if view.place_of(body) in here]


def _join(view: View, cells: tuple[str, ...]) -> Mend | None:
    """The only battery joined to the only body, as thick as its thickest lead."""
    bodies = _bodies(view, cells)
    if len(cells) != 1 or len(bodies) != 1:
        return None
    battery, body = cells[0], bodies[0]
    sizes = [view.run_values(r.id) for r in view.design.runs_at(battery)]
    leads = [values for values in sizes if values.has("size")]
    lead = max(leads, key=lambda v: v.area_mm2("size")).text("size") if leads else None
    try:
        size = rules_of(view.design).battery_bond(lead).size
    except CodesError:
        return None

    names = {"battery": view.name(battery), "body": view.name(body), "size": size}
    title = say("Join the minus of {battery} to {body} by {size}", **names)
    ends, poles = (End(battery, "dc"), End(body, "tie")), ((Pole.NEG, Pole.BODY),)
    return link(title, *ends, size, poles)


def _many(view: View, look: Look, system: NeutralSystem, cells: tuple[str, ...]) -> Hit:
    owners = tuple(sorted({bond.owner for bond in system.ring}))
    return look.hit(
        Level.WARNING,
        owners,
        MANY,
        {
            "source": ", ".join(view.name(o) for o in cells),
            "count": len(system.ring),
            "places": ", ".join(view.name(o) for o in owners),
        },
        (Evidence(N_("joints on the ring"), float(len(system.ring)), "count"),),
        touches=frozenset(cells),
        mend=_cut(view, cells, owners),
    )


def _cut(view: View, cells: tuple[str, ...], owners: tuple[str, ...]) -> Mend | None:
    """Take the only joint away that is not at a battery, where another stays there."""
    runs = [run for run in map(view.run, owners) if run is not None]
    at_battery = [run for run in runs if _ends_at(run, cells)]
    others = [run for run in runs if run not in at_battery]
    if not at_battery or len(others) != 1:
        return None

    title = say("Take {run} away", run=view.name(others[0].id))
    return take_away(title, others[0].id)


def _ends_at(run: Run, parts: tuple[str, ...]) -> bool:
    return bool({run.a.part, run.b.part} & set(parts))


RULE = Rule(
    "negative-bond-wrong",
    N_("Battery minus and chassis"),
    check,
    {"NA": "552.10(C)", "INT": "ISO 13297"},
    causes=("battery-turned",),
    hangs_on=("polarity-reversed",),
)
