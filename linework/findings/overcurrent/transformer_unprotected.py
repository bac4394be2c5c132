"""A transformer whose devices let more through than its windings carry.

What is checked
    For each transformer that is live: the device before its primary against the
    rated current there. A larger one is allowed where the secondary has its own.
Why it matters
    An overloaded winding is not seen from outside: its insulation chars until it
    shorts, and the case may burn.
How to cure it
    A smaller device before it, or one on its secondary.
Limits
    The current that it draws when it is switched on is not judged, and that is
    said: makers say which device holds it. Its own thermal cut-out counts
    for nothing. What a small set gives at the most protects it as a device does.
Sources
    NFPA 70 (2023) 450.3(B), 450.4(A), 240.21(C); ABYC E-11 has the same 125 %, from
    memory.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.circuit.model import Device
from linework.codes import CodesError
from linework.findings.mending import rerate
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.slack import exceeds, within
from linework.study.ways.protection import Guard, guards, lasting_a, reached
from linework.study.ways.windings import Core, cores, drivers
from linework.study.wires.ratings import kind_of_device, rules_of
from linework.words import N_

MESSAGE = N_(
    "{where} carries {rated} A on its primary; {device} before it lets {amps} A through. {allowed}"
    " A are allowed there, or more with a device on its secondary."
)
BOTH = N_(
    "{where} carries {rated} A on its primary; {device} before it lets {amps} A through. {allowed}"
    " A are allowed there with the device on its secondary."
)
INRUSH = N_(
    "what it takes in the moment it is switched on, for some tenths of a second up to ten times its"
    " current: whether the device before it holds and a small set carries it was not judged"
)
NO_TABLE = N_("{fault}")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each transformer and device before it; a gap for what it takes at first."""
    told: set[str] = set()
    for look in view.settled_looks:
        for core in cores(look.studies.situation):
            if core.owner not in told:
                told.add(core.owner)
                yield NotChecked(INRUSH, {}, (core.owner,))
            try:
                yield from _core(view, look, core)
            except CodesError as fault:
                yield NotChecked(NO_TABLE, {"fault": fault}, (core.owner,))


def _core(view: View, look: Look, core: Core) -> Iterator[Hit]:
    situation, rules = look.studies.situation, rules_of(view.design)
    source = situation.circuit.sources[next(iter(core.windings))]
    before = [
        (
            guards(situation, s).get(node, Guard()),
            lasting_a(situation.circuit.sources[s.source].data),
        )
        for s, node in drivers(situation, source)
    ]
    alone = rules.transformer_device("primary", core.primary_a).value
    for guard, held_a in before:
        if guard.device is None or within(min(guard.rating_a, held_a), alone):
            continue  # without a device its leads are unprotected, which another rule tells
        both = _secondary_protected(view, look, core)
        most = rules.transformer_device("primary of both", core.primary_a).value if both else alone
        if exceeds(guard.rating_a, most):
            device = situation.circuit.devices[guard.device]
            yield _hit(view, look, core, device, most, BOTH if both else MESSAGE)
            return


def _secondary_protected(view: View, look: Look, core: Core) -> bool:
    """Whether the next devices of every winding are small enough, and nothing hangs before them."""
    situation, rules = look.studies.situation, rules_of(view.design)
    circuit = situation.circuit
    for index, rated in core.windings.items():
        ahead = reached(situation.wires(), circuit.sources[index].plus, circuit.device_of)
        if any({x.a, x.b} & ahead for _, x in situation.loads if x.owner != core.owner):
            return False
        edge = {i for node in ahead for i, _ in situation.wires().get(node, ())}
        devices = {circuit.device_of[i] for i in edge if i in circuit.device_of}
        total = sum(circuit.devices[i].data.rating_a for i in devices) or math.inf
        if exceeds(total, rules.transformer_device("secondary", rated).value):
            return False
    return True


def _hit(view: View, look: Look, core: Core, device: Device, most: float, message: str) -> Hit:
    rating = device.data.rating_a
    return look.hit(
        Level.WARNING,
        (core.owner, device.owner),
        message,
        {
            "where": view.name(core.owner),
            "device": view.name(device.owner),
            "rated": f"{core.primary_a:.3g}",
            "amps": f"{rating:g}",
            "allowed": f"{most:.3g}",
        },
        (
            Evidence(N_("device"), rating, "current"),
            Evidence(N_("largest allowed"), most, "current"),
        ),
        mend=_mend(view, device, most),
        clause=view.clause({"NA": "ABYC E-11"}) if view.place_of(core.owner).afloat else "",
    )


def _mend(view: View, device: Device, most: float) -> Mend | None:
    """What is allowed, where that is a standard rating and the device a part of its own."""
    standard = rules_of(view.design).standard_up(most, kind_of_device(device.data.curve)).value
    if "rating" not in view.kind(device.owner).declared or standard != most:
        return None
    return rerate(view, device.owner, most)


RULE = Rule(
    "transformer-unprotected",
    N_("Device too large for a transformer"),
    check,
    {"NA": "450.3(B), 450.4(A)", "INT": "433.1"},
)
