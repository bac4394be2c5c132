"""A device that is too large by ampacity and right by the rules for motors."""

from __future__ import annotations

from linework.circuit.model import Device
from linework.codes import CodesError, Sourced, Worked
from linework.findings.model import Clear, NotChecked
from linework.findings.view import Look, View
from linework.kinds.motor import running_a
from linework.study.protection import Feed, beyond
from linework.study.ratings import kind_of_device, rules_of
from linework.words import N_

PLATE = N_(
    "{device} of {rating} A on {run} is larger than its {ampacity} A, and right: the nameplate of"
    " {load} allows {largest} A."
)
MOTOR = N_(
    "{device} of {rating} A on {run} is larger than its {ampacity} A, and right: the motor {load}"
    " may have {largest} A against short circuits; its own overload device protects the wires."
)
ASK = N_(
    "the nameplate of {load} decides whether {device} of {rating} A may protect {run}: give its"
    " largest breaker and least circuit ampacity"
)

WIRES = 1.25
"""Least ampacity over the running current (NFPA 70 430.22, 440.32)."""
HERMETIC_MOST = 2.25
"""No nameplate of a sealed compressor goes beyond this (NFPA 70 440.22(A), from memory)."""


def motor_verdict(
    view: View, look: Look, feed: Feed, device: Device, ampacity: Worked[float]
) -> Clear | NotChecked | None:
    """Why a device above the ampacity of a motor's wires is right; None where it is not.

    The rules hold for wires that feed one motor and nothing else.
    """
    load = _only_motor(view, look, feed)
    if load is None:
        return None
    values, rating = view.values(load), device.data.rating_a
    running = running_a(values)
    words = {
        "device": view.name(device.owner),
        "rating": f"{rating:g}",
        "run": view.name(feed.run),
        "ampacity": f"{ampacity.value:.3g}",
        "load": view.name(load),
    }
    subjects = (feed.run, device.owner)
    least = values.opt("least_ampacity")
    if ampacity.value < (WIRES * running if least is None else least):
        return None
    if values.has("largest_device"):
        largest = values.num("largest_device")
        words["largest"] = f"{largest:g}"
        return Clear(subjects, PLATE, words, "440.22, 240.4(G)") if rating <= largest else None
    if values.pick("circuit") == "dc":
        return None
    if values.pick("duty") == "hermetic":
        return NotChecked(ASK, words, subjects) if rating <= HERMETIC_MOST * running else None
    found = _short_circuit_device(view, running, device)
    if found is None or rating > found.value:
        return None
    words["largest"] = f"{found.value:g}"
    return Clear(subjects, MOTOR, words, "430.52, 240.4(G)")


def _only_motor(view: View, look: Look, feed: Feed) -> str | None:
    """The motor that a conductor feeds, where it feeds nothing else and no outlet."""
    ahead = beyond(look.studies.situation, feed)
    owners = {look.studies.circuit.loads[i].owner for i in ahead.loads}
    if len(owners) != 1 or ahead.faces or ahead.devices:
        return None
    owner = owners.pop()
    part = view.part(owner)
    return owner if part is not None and part.kind == "motor" else None


def _short_circuit_device(view: View, running: float, device: Device) -> Worked[float] | None:
    current = Sourced(running, "A", "design", "running current as drawn", "derived", "design")
    breaker = kind_of_device(device.data.curve) == "breaker"
    try:
        return rules_of(view.design).motor_device(
            current, "inverse time breaker" if breaker else "fuse"
        )
    except CodesError:
        return None
