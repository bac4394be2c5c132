"""A transformer whose devices let more through than its windings carry.

What is checked
    For each transformer that is live: the device before its primary, or what a
    set or inverter without one gives for good, against the rated current there.
    A larger one is allowed where the secondary has its own, but not before an
    autotransformer, in which both sides are one winding.
Why it matters
    An overloaded winding is not seen from outside: its insulation chars until it
    shorts, and the case may burn.
How to cure it
    A smaller device before it, or one on its secondary.
Limits
    The current that it draws when it is switched on is another rule's. Its own
    thermal cut-out counts for nothing. What a small set gives at the most
    protects it as a device does.
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
from linework.study.ways.windings import Core, cores, drivers, shares_conductor
from linework.study.wires.ratings import kind_of_device, rules_of
from linework.words import N_

MESSAGE = N_(
    "{where} carries {rated} A on its primary; {device} before it lets {amps} A through. {allowed}"
    " A are allowed there, or more with a device on its secondary."
)
AUTO = N_(
    "{where} carries {rated} A where it is fed; {device} before it lets {amps} A through. {allowed}"
    " A are allowed there: its sides are one winding, which no device behind it protects."
)
BOTH = N_(
    "{where} carries {rated} A on its primary; {device} before it lets {amps} A through. {allowed}"
    " A are allowed there with the device on its secondary."
)
NO_DEVICE = N_(
    "{where} carries {rated} A on its primary; {device} gives up to {amps} A for good and no device"
    " lies between. {allowed} A are allowed there."
)
NO_TABLE = N_("{fault}")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each transformer and device before it."""
    for look in view.settled_looks:
        for core in cores(look.studies.situation):
            try:
                yield from _core(view, look, core)
            except CodesError as fault:
                yield NotChecked(NO_TABLE, {"fault": fault}, (core.owner,))


def _core(view: View, look: Look, core: Core) -> Iterator[Hit]:
    situation, rules = look.studies.situation, rules_of(view.design)
    source = situation.circuit.sources[next(iter(core.windings))]
    alone = rules.transformer_device("primary", core.primary_a).value
    auto = shares_conductor(situation, source)
    for system, node in drivers(situation, source):
        guard = guards(situation, system).get(node, Guard())
        let_a = min(guard.rating_a, lasting_a(situation.circuit.sources[system.source].data))
        if math.isinf(let_a) or within(let_a, alone):
            continue  # leads that nothing bounds are unprotected, which another rule tells
        both = not auto and _secondary_protected(view, look, core)
        most = rules.transformer_device("primary of both", core.primary_a).value if both else alone
        if not exceeds(let_a, most):
            continue
        if guard.device is None:
            yield _hit(view, look, core, system.owner, (let_a, most), NO_DEVICE, None)
        else:
            device = situation.circuit.devices[guard.device]
            message = AUTO if auto else BOTH if both else MESSAGE
            mend = _mend(view, device, most)
            yield _hit(view, look, core, device.owner, (guard.rating_a, most), message, mend)
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


def _hit(
    view: View,
    look: Look,
    core: Core,
    before: str,
    let_allowed_a: tuple[float, float],
    message: str,
    mend: Mend | None,
) -> Hit:
    """``before``: the device, or the source without one; ``let_allowed_a``: what it lets through,
    and what may be."""
    let_a, most = let_allowed_a
    return look.hit(
        Level.WARNING,
        (core.owner, before),
        message,
        {
            "where": view.name(core.owner),
            "device": view.name(before),
            "rated": f"{core.primary_a:.3g}",
            "amps": f"{let_a:.3g}",
            "allowed": f"{most:.3g}",
        },
        (
            Evidence(N_("device"), let_a, "current"),
            Evidence(N_("largest allowed"), most, "current"),
        ),
        mend=mend,
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
