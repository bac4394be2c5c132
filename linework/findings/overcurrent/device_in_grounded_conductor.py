"""An overcurrent device that opens only the neutral, or only a bonded minus.

What is checked
    In every state: each device whose contacts lie in a return conductor and in
    no live one; and whether the live conductors of what it returns from pass a
    device of their own.
Why it matters
    A balanced load, or one between two hot conductors, puts nothing in the
    neutral: the device never trips. When it does, the loads stay live, and two
    legs are left in series across the full voltage.
How to cure it
    Put the device into the live conductor, or take one that opens both at once.
Limits
    A device of several poles that opens a live conductor in some other state is
    not told where that conductor is dead. On a floating source, and on direct
    current without a bond, no conductor is grounded: there it is told only where
    the other conductor has no device.
Sources
    NFPA 70 (2023) 240.22; IEC 60364-4-43 431.2.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.incircuit import LINKS
from linework.circuit.model import Device
from linework.findings.mending import change_part
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.downstream import downstream
from linework.study.situation import Situation, System
from linework.study.ways.banks import grounded_plus
from linework.study.ways.protection import guards
from linework.words import N_, say

ALONE = N_(
    "{where} opens only the return conductor, and the live conductor has no device: an overload or"
    " a fault need not pass through it."
)
BESIDE = N_(
    "{where} opens only the grounded conductor: when it trips, what it feeds stays live and looks"
    " dead."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each device."""
    opening = {key for look in view.settled_looks for key in _opens_live(look)}
    for look in view.settled_looks:
        for device in look.studies.circuit.devices:
            if _opens_grounded_plus(look.studies.situation, device):
                yield _beside(view, look, device)
                continue
            live = grounded_plus(look.studies.situation)
            systems = [s for s in _returns(look.studies.situation, device) if s.source not in live]
            if systems and (device.owner, device.data.name) not in opening:
                yield from _judged(view, look, device, systems)


def _opens_live(look: Look) -> Iterator[tuple[str, str]]:
    """The devices of several poles of which one opens a live conductor here."""
    situation = look.studies.situation
    branches = situation.circuit.branches
    for device in situation.circuit.devices:
        if len(device.branches) > 1 and any(
            situation.feeds(node)
            for i in device.branches
            for node in (branches[i].a, branches[i].b)
        ):
            yield device.owner, device.data.name


def _opens_grounded_plus(situation: Situation, device: Device) -> bool:
    """Whether a device opens the plus of a battery of which metal is joined to that, and no other
    conductor."""
    sources, branches = situation.circuit.sources, situation.circuit.branches
    plus = {situation.clusters[sources[i].plus] for i in grounded_plus(situation)}
    opened = {situation.clusters[branches[i].a] for i in device.branches if i in situation.closed}
    return bool(opened) and opened <= plus


def _beside(view: View, look: Look, device: Device) -> Hit:
    return look.hit(
        Level.WARNING,
        (device.owner,),
        BESIDE,
        {"where": view.name(device.owner)},
        (Evidence(N_("rating of the device"), device.data.rating_a, "current"),),
    )


def _returns(situation: Situation, device: Device) -> list[System]:
    """The windings whose return the device opens; none where it opens a live conductor too."""
    found: list[System] = []
    for i in device.branches:
        if i in situation.closed:
            branch = situation.circuit.branches[i]
            if situation.feeds(branch.a) or situation.feeds(branch.b):
                return []
            found += situation.returns(branch.a)
    return found


def _judged(view: View, look: Look, device: Device, systems: list[System]) -> Iterator[Hit]:
    alone = _unguarded(look.studies.situation, device, systems)
    if not alone and not _grounded(look, systems):
        return
    yield look.hit(
        Level.DANGER if alone else Level.WARNING,
        (device.owner,),
        ALONE if alone else BESIDE,
        {"where": view.name(device.owner)},
        (Evidence(N_("rating of the device"), device.data.rating_a, "current"),),
        explains=downstream(look.studies.situation, (device.owner,)),
        mend=_mend(view, device),
    )


def _grounded(look: Look, systems: list[System]) -> bool:
    """Whether the return conductor is joined to ground in this state."""
    labels = {s.back for s in systems}
    return any(n.neutral in labels and n.bonds for n in look.studies.neutrals)


def _unguarded(situation: Situation, device: Device, systems: list[System]) -> bool:
    """Whether the live conductor at some terminal that returns through the device has none."""
    cut = situation.labels_without(frozenset(device.branches), LINKS)
    sources, cluster = situation.circuit.sources, situation.clusters
    for system in systems:
        near = cut[sources[system.source].minus]
        guarded = guards(situation, system)
        for nodes in situation.circuit.terminals.values():
            behind = any(cluster[n] == system.back and cut[n] != near for n in nodes.values())
            if behind and any(guarded[n].device is None for n in nodes.values() if n in guarded):
                return True
    return False


def _mend(view: View, device: Device) -> Mend | None:
    """A breaker that opens the neutral alone opens the live conductors instead."""
    declared, values = view.kind(device.owner).declared, view.values(device.owner)
    if "poles" not in declared or values.pick("poles") != "neutral":
        return None

    title = say("Let {what} open every {hot}", family=view.family, what=view.name(device.owner))
    return change_part(title, device.owner, {"poles": "lines"})


RULE = Rule(
    "device-in-grounded-conductor",
    N_("Device in the grounded conductor"),
    check,
    {"NA": "240.22", "INT": "431.2"},
    causes=("battery-turned",),
    hangs_on=("polarity-reversed", "metal-live"),
)
