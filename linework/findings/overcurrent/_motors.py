"""A device that is too large by ampacity and right by the rules for motors."""

from __future__ import annotations

from typing import Literal

from linework.circuit.model import Device
from linework.codes import CodesError, Sourced, Worked
from linework.data import Confidence
from linework.findings.model import Clear, NotChecked
from linework.findings.view import Look, View
from linework.kinds.motor import running_a
from linework.study.ways.protection import Feed, beyond
from linework.study.wires.ratings import kind_of_device, rules_of
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


def motor_verdict(
    view: View, look: Look, feed: Feed, device: Device, ampacity: Worked[float]
) -> Clear | NotChecked | None:
    """Why a device above the ampacity of a motor's wires is right; None where it is not.

    The rules hold for wires that feed one motor and nothing else; those for welders also where an
    outlet for it alone lies between. What a family does not know it does not allow.
    """
    try:
        return _verdict(view, look, feed, device, ampacity)
    except CodesError:
        return None


def _verdict(
    view: View, look: Look, feed: Feed, device: Device, ampacity: Worked[float]
) -> Clear | NotChecked | None:
    load = _only_load(view, look, feed)
    if load is None:
        return None
    values, rating = view.values(load), device.data.rating_a
    if not view.kind(load).turns:
        return _by_turns(view, feed, device, ampacity, load)
    running = running_a(values)
    words = {
        "device": view.name(device.owner),
        "rating": f"{rating:g}",
        "run": view.name(feed.run),
        "ampacity": f"{ampacity.value:.3g}",
        "load": view.name(load),
    }
    subjects = (feed.run, device.owner)
    rules, least = rules_of(view.design), values.opt("least_ampacity")
    if least is None:
        least = rules.motor_factor("wires").value * running
    if ampacity.value < least:
        return None
    if values.has("largest_device"):
        largest = values.num("largest_device")
        words["largest"] = f"{largest:g}"
        return Clear(subjects, PLATE, words, "440.22, 240.4(G)") if rating <= largest else None
    if values.pick("circuit") == "dc":
        return None
    if values.pick("duty") == "hermetic":
        largest = rules.motor_factor("hermetic").value * running
        return NotChecked(ASK, words, subjects) if rating <= largest else None
    found = _short_circuit_device(view, running, device)
    if rating > found.value:
        return None
    words["largest"] = f"{found.value:g}"
    return Clear(subjects, MOTOR, words, "430.52, 240.4(G)")


def _by_turns(
    view: View, feed: Feed, device: Device, ampacity: Worked[float], load: str
) -> Clear | None:
    """A welder: wires for its effective current, a device of no more than twice their ampacity and
    no more than its nameplate allows (630.11, 630.12)."""
    values, rating = view.values(load), device.data.rating_a
    if not {"least_ampacity", "largest_device"} <= values.declared.keys():
        return None
    least, largest = values.opt("least_ampacity"), values.opt("largest_device")
    if least is None or largest is None or ampacity.value < least:
        return None
    if rating > min(largest, rules_of(view.design).motor_factor("welder").value * ampacity.value):
        return None
    words = {
        "device": view.name(device.owner),
        "rating": f"{rating:g}",
        "run": view.name(feed.run),
        "ampacity": f"{ampacity.value:.3g}",
        "load": view.name(load),
        "largest": f"{largest:g}",
    }
    return Clear((feed.run, device.owner), PLATE, words, "630.11, 630.12, 240.4(G)")


def _only_load(view: View, look: Look, feed: Feed) -> str | None:
    """The load that a conductor feeds, where it feeds nothing else and no outlet but its own."""
    ahead, circuit = beyond(look.studies.situation, feed), look.studies.circuit
    owners = {circuit.loads[i].owner for i in ahead.loads}
    if len(owners) != 1 or ahead.devices:
        return None
    (owner,) = owners
    hosts = {seat.host for seat in view.design.seats_of(owner)}
    outlets = {circuit.faces[i].owner for i in ahead.faces}
    alone = all(
        view.kind(outlet).receptacle and view.values(outlet).num("duplex") == 1.0
        for outlet in outlets
    )
    return owner if outlets <= hosts and alone and view.part(owner) is not None else None


def _short_circuit_device(view: View, running: float, device: Device) -> Worked[float]:
    current = Sourced(
        running, "A", "design", "running current as drawn", Confidence.DERIVED, "design"
    )
    breaker = kind_of_device(device.data.curve) == "breaker"
    kind: Literal["inverse time breaker", "fuse"] = "inverse time breaker" if breaker else "fuse"
    return rules_of(view.design).motor_device(current, kind)
