"""A device that cannot break the fault current at its place.

What is checked
    In every state: the largest current that a fault drives through each
    device, with sources at their strongest and cold conductors, against its
    interrupting rating.
Why it matters
    It bursts or goes on arcing instead of opening.
How to cure it
    A device of a higher interrupting rating, marked for this voltage and kind
    of current.
Limits
    A maker's series rating is not known to the program: give the higher figure
    if the maker states one. A breaker's rating on AC says nothing about DC.
Sources
    NFPA 70 (2023) 110.9, 240.83(C); IEC 60364-4-43 434.5.1; ABYC E-11.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from linework.circuit.model import Device
from linework.codes import CodesError, interrupting_rating
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome, Rule
from linework.findings.view import Look, View
from linework.words import N_

MESSAGE = N_("{where} can break {rating} A; a fault behind it drives up to {amps} A.")
NO_FIGURE = N_("{fault}")

_LEAST_A = 1.0
"""Less than this is leakage, not a fault that a device has to break."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each device, one gap where no figure may be counted on."""
    told: set[str] = set()
    for look in view.settled_looks:
        for index, (amps, volts, hertz) in _through(look).items():
            device = look.studies.circuit.devices[index]
            if view.kind(device.owner).key == "supply":
                continue  # the site's own device: not ours to judge
            try:
                rating = _rating_a(device, volts, hertz)
            except CodesError as fault:
                if device.owner not in told:
                    told.add(device.owner)
                    yield NotChecked(NO_FIGURE, {"fault": fault}, (device.owner,))
                continue
            if amps > rating * (1.0 + 1e-9):
                yield _hit(view, look, device, rating, amps)


def _through(look: Look) -> dict[int, tuple[float, float, float]]:
    """Device index -> largest fault current through it, system voltage, frequency."""
    circuit, situation = look.studies.circuit, look.studies.situation
    found: dict[int, tuple[float, float, float]] = {}
    for fault in look.studies.faults:
        volts = sum(
            circuit.sources[s.source].data.volts for s in situation.feeds(fault.point.node)[:1]
        )
        for index, device in enumerate(circuit.devices):
            amps = max((fault.strong.branch_a.get(i, 0.0) for i in device.branches), default=0.0)
            if amps > found.get(index, (_LEAST_A, 0.0, 0.0))[0]:
                found[index] = (amps, volts, fault.point.hertz)
    return found


def _rating_a(device: Device, volts: float, hertz: float) -> float:
    """As marked, else what may be counted on. CodesError where that is nothing."""
    if device.data.interrupting_given:
        return device.data.interrupting_a
    kind: Literal["ac", "dc"] = "dc" if hertz == 0.0 else "ac"
    return interrupting_rating(device.data.curve, kind, volts).value


def _hit(view: View, look: Look, device: Device, rating: float, amps: float) -> Hit:
    return Hit(
        Level.DANGER,
        (device.owner,),
        MESSAGE,
        {"where": view.name(device.owner), "rating": f"{rating:g}", "amps": f"{amps:.0f}"},
        (
            Evidence(N_("largest fault current"), amps, "current"),
            Evidence(N_("interrupting rating"), rating, "current"),
        ),
        look.state,
        look.case,
    )


RULE = Rule(
    "interrupting-too-low",
    N_("Interrupting rating too low"),
    check,
    {"NA": "110.9, 240.83(C)", "INT": "434.5.1"},
)
