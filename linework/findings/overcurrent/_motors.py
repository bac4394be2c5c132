"""Devices on wires that feed one load and nothing else: right or not by what that load is."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from linework.circuit.model import Device
from linework.codes import CodesError, Sourced, Worked
from linework.data import Confidence
from linework.findings.mending import rerate, resize, together
from linework.findings.model import Clear, Evidence, Hit, Level, Mend, NotChecked
from linework.findings.view import Look, View
from linework.kinds.loads import by_turns, power_a
from linework.kinds.motor import sized_a
from linework.study.slack import exceeds, within
from linework.study.ways.protection import Feed, beyond
from linework.study.wires.ratings import kind_of_device, rules_of, size_carrying
from linework.words import N_, say

PLATE = N_(
    "{device} of {rating} A on {run} is larger than its {ampacity} A, and right: the nameplate of"
    " {load} allows {largest} A."
)
MOTOR = N_(
    "{device} of {rating} A on {run} is larger than its {ampacity} A, and right: the motor {load}"
    " may have {largest} A against short circuits; its own overload device protects the wires."
)
WELDER = N_(
    "{device} of {rating} A on {run} is larger than its {ampacity} A, and right as long as nothing"
    " but the welder {load} is fed by it: that works by turns and may have {largest} A."
)
ASK = N_(
    "the nameplate of {load} decides whether {device} of {rating} A may protect {run}: give its"
    " largest breaker and least circuit ampacity"
)
THIN = N_("{run} carries {ampacity} A and is too thin for {load}, which needs wires for {least} A.")
TOO_LARGE = N_(
    "{device} of {rating} A is too large for {load}: its nameplate allows {largest} A at the most."
)
APPLIANCE = N_(
    "{device} of {rating} A feeds nothing but {load}, which takes {amps} A. Before a single"
    " appliance {largest} A are the most, for the wires inside it, unless its nameplate allows"
    " more."
)
TOO_LARGE_FOR_WIRES = N_(
    "{device} of {rating} A is too large for {load}: with wires of {ampacity} A, {run}, it may have"
    " {largest} A at the most."
)


@dataclass(frozen=True)
class _Only:
    """The one load that wires feed, what it takes, what they must carry and what may protect them,
    in ampere; what is said where that is so and where it is not, and the clauses for wires and
    device."""

    load: str
    own_a: float
    least_a: float
    largest_a: float
    right: str
    wrong: str
    wires: str
    clause: str


def motor_verdict(
    view: View, look: Look, feed: Feed, device: Device, ampacity: Worked[float]
) -> Clear | NotChecked | Hit | None:
    """What holds for a device above the ampacity of wires that feed one motor, compressor or
    welder and nothing else; None where they feed anything else.

    The rule for welders holds also where an outlet for it alone lies between. What a family does
    not know it does not allow.
    """
    load = _only_load(view, look, feed)
    if load is None:
        return None
    try:
        only = _only(view, load, device, ampacity.value)
        if only is None:
            return None
        if within(device.data.rating_a, only.largest_a) and within(only.least_a, ampacity.value):
            return _right(view, feed, device, ampacity, only)
        return _wrong(view, look, feed, device, ampacity, only)
    except CodesError:
        return None


def above_plate(view: View, look: Look, feed: Feed, device: Device) -> Hit | None:
    """A device that its wires stand and the only load behind does not: by its nameplate, or, of an
    appliance without a motor that is wired in, by its current (NFPA 70 422.11(E))."""
    load = _only_load(view, look, feed)
    if load is None:
        return None
    values = view.values(load)
    largest = values.opt("largest_device") if "largest_device" in values.declared else None
    message = APPLIANCE if largest is None else TOO_LARGE
    if largest is None:
        largest = _for_appliance_a(view, load)
    if largest is None or within(device.data.rating_a, largest):
        return None
    rating = device.data.rating_a
    words = {
        "amps": f"{power_a(values):.3g}",
        "device": view.name(device.owner),
        "rating": f"{rating:g}",
        "load": view.name(load),
        "largest": f"{largest:g}",
    }
    return look.hit(
        Level.WARNING,
        (device.owner, load),
        message,
        words,
        (
            Evidence(N_("device"), rating, "current"),
            Evidence(N_("largest allowed"), largest, "current"),
        ),
        touches=frozenset({feed.run}),
        mend=_smaller(view, device, largest),
        clause=view.clause({"NA": _plate_clause(view, load, message)}),
    )


def _plate_clause(view: View, load: str, message: str) -> str:
    if message is APPLIANCE:
        return "422.11(E)"
    return "110.3(B), 440.22(C)" if view.kind(load).turns else "110.3(B)"


def _for_appliance_a(view: View, load: str) -> float | None:
    """The largest device in ampere before an appliance without a motor whose nameplate gives none;
    None for what may stand for several loads, on direct current and afloat."""
    kind, values = view.kind(load), view.values(load)
    if not kind.appliance or view.place_of(load).afloat or values.pick("circuit") == "dc":
        return None
    try:
        figure = rules_of(view.design).appliance_device(power_a(values))
    except CodesError:
        return None
    return None if figure is None else figure.value


def _only(view: View, load: str, device: Device, ampacity_a: float) -> _Only | None:
    """None for what has no rule of its own. CodesError where the family has none that is asked."""
    values, rules = view.values(load), rules_of(view.design)
    turns, plate = view.kind(load).turns, None
    if "largest_device" in values.declared:
        plate = values.opt("largest_device")
    if not turns:
        return _welder(view, load, ampacity_a, plate) if by_turns(values) else None
    running, least = sized_a(values), values.opt("least_ampacity")
    if least is None:
        least = rules.motor_factor("wires").value * running
    if plate is not None:
        return _Only(load, running, least, plate, PLATE, TOO_LARGE, "440.32", "440.22, 240.4(G)")
    if values.pick("circuit") == "dc":
        return None
    if values.pick("duty") == "hermetic":
        most = rules.motor_factor("hermetic").value * running
        wrong, wires = TOO_LARGE_FOR_WIRES, "440.32"
        return _Only(load, running, least, most, ASK, wrong, wires, "440.22, 240.4(G)")
    most = _short_circuit_device(view, running, device).value
    wrong, wires = TOO_LARGE_FOR_WIRES, "430.22"
    return _Only(load, running, least, most, MOTOR, wrong, wires, "430.52, 240.4(G)")


def _welder(view: View, load: str, ampacity_a: float, plate: float | None) -> _Only:
    """Wires for its effective current; a device of no more than twice their ampacity, and no more
    than its nameplate allows or else twice its own current (630.11, 630.12)."""
    values, factor = view.values(load), rules_of(view.design).motor_factor("welder").value
    least, own = values.num("least_ampacity"), power_a(values)
    allowed = factor * own if plate is None else plate
    wires = factor * ampacity_a
    wrong = TOO_LARGE if plate is not None and plate <= wires else TOO_LARGE_FOR_WIRES
    clause = "630.11, 630.12, 240.4(G)"
    return _Only(load, own, least, min(allowed, wires), WELDER, wrong, "630.11", clause)


def _words(
    view: View, feed: Feed, device: Device, ampacity: Worked[float], only: _Only
) -> dict[str, object]:
    return {
        "device": view.name(device.owner),
        "rating": f"{device.data.rating_a:g}",
        "run": view.name(feed.run),
        "ampacity": f"{ampacity.value:.3g}",
        "load": view.name(only.load),
        "least": f"{only.least_a:.3g}",
        "largest": f"{only.largest_a:.3g}",
    }


def _right(
    view: View, feed: Feed, device: Device, ampacity: Worked[float], only: _Only
) -> Clear | NotChecked:
    words, subjects = _words(view, feed, device, ampacity, only), (feed.run, device.owner)
    if only.right is ASK:
        return NotChecked(ASK, words, subjects)
    return Clear(subjects, only.right, words, only.clause)


def _wrong(
    view: View, look: Look, feed: Feed, device: Device, ampacity: Worked[float], only: _Only
) -> Hit:
    thin = exceeds(only.least_a, ampacity.value)
    large = exceeds(device.data.rating_a, only.largest_a)
    return look.hit(
        Level.DANGER,
        (feed.run, device.owner),
        only.wrong if large else THIN,
        _words(view, feed, device, ampacity, only),
        (
            Evidence(N_("device"), device.data.rating_a, "current"),
            Evidence(N_("largest allowed"), only.largest_a, "current"),
            Evidence(N_("ampacity as installed"), ampacity.value, "current"),
            Evidence(N_("ampacity needed"), only.least_a, "current"),
        ),
        touches=frozenset({feed.system.owner, only.load}),
        mend=_mend(view, feed, device, only, thin, large),
        clause=view.clause({"NA": only.clause.removesuffix(", 240.4(G)") if large else only.wires}),
    )


def _mend(
    view: View, feed: Feed, device: Device, only: _Only, thin: bool, large: bool
) -> Mend | None:
    """Wires for the load, and a device that its plate or rules allow, but never one that the load
    itself would open: there the wires grow for the device."""
    smaller = large and within(only.own_a, only.largest_a)
    needed = only.least_a if thin else 0.0
    if large and not smaller:
        needed = max(needed, _wires_a(view, only, device))
    run, size = view.run(feed.run), None
    if run is not None and needed:
        size = size_carrying(view.design, run, needed)
    wires = None if size is None else resize(view, feed.run, size)
    less = _smaller(view, device, only.largest_a) if smaller else None
    if (needed and wires is None) or (smaller and less is None):
        return None
    if wires is None or less is None or size is None:
        return wires or less
    title = say(
        "Make {one} {first} and {other} {second}",
        one=view.name(feed.run),
        first=size,
        other=view.name(device.owner),
        second=f"{only.largest_a:g} A",
    )
    return together(title, title, (wires, less))


def _wires_a(view: View, only: _Only, device: Device) -> float:
    """The ampacity in ampere with which wires to a welder may have the device that is there."""
    if only.right is not WELDER:
        return math.inf
    return device.data.rating_a / rules_of(view.design).motor_factor("welder").value


def _smaller(view: View, device: Device, amps: float) -> Mend | None:
    """A device of that rating, where it is a standard one."""
    if "rating" not in view.kind(device.owner).declared:
        return None
    try:
        made = rules_of(view.design).standard_up(amps, kind_of_device(device.data.curve)).value
    except CodesError:
        return None
    return rerate(view, device.owner, amps) if made == amps else None


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
