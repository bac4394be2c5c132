"""The first devices of a boat are too far from its shore inlet.

What is checked
    On boats, in every state in which shore feeds an inlet: how much conductor
    lies between it and the first breaker or fuse aboard, and the device that
    opens on leakage where there is one.
Why it matters
    Up to these only the breaker of the dock guards the wires, which may be of
    any size, and nothing ends what leaks into the water.
How to cure it
    The main breaker, or another device, and the leakage device within 10 ft of
    the inlet, measured along the conductors.
Limits
    Where no device opens on leakage, that is another rule's. A shore cord that is
    built in without an inlet is not judged.
Sources
    ABYC E-11 (from memory).
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator

from linework.codes import CodesError
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.quantity import show
from linework.study.situation import Situation
from linework.study.slack import exceeds
from linework.study.ways.inlets import Reach, reach
from linework.study.wires.ratings import rules_of
from linework.wiring import Pole, is_ungrounded
from linework.words import N_

BREAKER = N_(
    "{length} of conductor hang on {where} with no breaker or fuse aboard before them: at a boat's"
    " inlet there must be one within {allowed}, along the conductors."
)
LEAKAGE = N_(
    "{length} of conductor lie between {where} and {device}, which opens on leakage: at a boat's"
    " inlet it must lie within {allowed}."
)
UNKNOWN = N_(
    "how far the first devices are from {where} is not known: give the lengths of its runs"
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each inlet, of the farther device."""
    inlets = [p for p in view.parts_that(lambda kind: kind.lets_in) if view.place_of(p).afloat]
    try:
        allowed = rules_of(view.design).inlet_distance_m().value if inlets else 0.0
    except CodesError:  # told among what the family does not answer
        return
    for look in view.settled_looks:
        for inlet in inlets:
            yield from _inlet(view, look, inlet, allowed)


def _inlet(view: View, look: Look, inlet: str, allowed: float) -> Iterator[Outcome]:
    situation = look.studies.situation
    nodes = situation.circuit.terminals.get((inlet, "inside"), {})
    hots = [node for pole, node in nodes.items() if is_ungrounded(Pole(pole))]
    if not any(s.is_ac for node in hots for s in situation.feeds(node)):
        return
    lengths = {run.id: view.run_values(run.id).opt("length") for run in view.design.runs}
    opens = _opens(view, situation)
    first = reach(situation, hots, situation.circuit.device_of, inlet, lengths)
    leakage = reach(situation, hots, opens, inlet, lengths)
    whole = bool(leakage.stops) and not leakage.draws  # else a device is missing
    told = [(first, BREAKER), *([(leakage, LEAKAGE)] if whole else [])]
    for found, message in told:
        if math.isinf(found.meters):
            yield NotChecked(UNKNOWN, {"where": view.name(inlet)}, (inlet,))
            return
        if exceeds(found.meters, allowed):
            yield _hit(view, look, inlet, found, message, allowed)
            return


def _opens(view: View, situation: Situation) -> Collection[int]:
    """The contacts that leakage opens in time."""
    try:
        most = rules_of(view.design).leakage_afloat_ma().value
    except CodesError:
        return ()
    sensors = situation.circuit.sensors
    return {i for s in sensors if s.data.trip_ma.high <= most for i in s.opens}


def _hit(view: View, look: Look, inlet: str, found: Reach, message: str, allowed: float) -> Hit:
    owners = sorted({look.studies.circuit.branches[i].owner for i in found.stops})
    lengths = {"length": found.meters, "allowed": allowed}
    words = {key: show(meters, "length", family=view.family) for key, meters in lengths.items()}
    words |= {"where": view.name(inlet)}
    words |= {"device": view.names(owners)} if message is LEAKAGE else {}
    return look.hit(
        Level.WARNING,
        (inlet,),
        message,
        words,
        (
            Evidence(N_("conductor before it"), found.meters, "length"),
            Evidence(N_("allowed"), allowed, "length"),
        ),
        touches=frozenset(owners),
    )


RULE = Rule(
    "inlet-devices-far",
    N_("First devices far from a boat's inlet"),
    check,
    {"NA": "ABYC E-11", "INT": "ISO 13297"},
)
