"""Where a conductor ends decides whether a device before it may be larger than it carries."""

from __future__ import annotations

import math
from dataclasses import dataclass

from linework.circuit.model import Device
from linework.codes import CodesError
from linework.design import Run
from linework.findings.view import Look, View
from linework.study.slack import exceeds, within
from linework.study.ways.protection import Feed, beyond
from linework.study.wires.ratings import low_voltage, rules_of


@dataclass(frozen=True)
class Led:
    """A conductor of a run with what may come into it, what it carries, and the largest device
    that it allows, in ampere."""

    run: Run
    feed: Feed
    limit_a: float
    ampacity_a: float
    allowed_a: float


def end_of(view: View, look: Look, led: Led) -> Device | None:
    """The single device to which a conductor leads, small enough for it; none aboard, where the
    inches from its source decide."""
    ahead = beyond(look.studies.situation, led.feed)
    if ahead.ring or ahead.loads or ahead.faces or len(ahead.devices) != 1:
        return None
    end = look.studies.circuit.devices[ahead.devices[0]]
    small = within(end.data.rating_a, led.allowed_a)
    return end if small and not low_voltage(view.design, led.run) else None


def is_tap(view: View, led: Led) -> bool:
    """Whether it is short and thick enough for a tap of a feeder (240.21(B)(1) and (2))."""
    length = view.run_values(led.run.id).opt("length") or math.inf
    return any(
        within(length, most) and within(led.limit_a, times * led.ampacity_a)
        for most, times in _taps(view)
    )


def _taps(view: View) -> list[tuple[float, float]]:
    """Longest taps in m, and how many times their ampacity the device before them may be; none
    where the family allows none that is known."""
    try:
        return [(length.value, times.value) for length, times in rules_of(view.design).taps()]
    except CodesError:
        return []


def is_short_lead(view: View, look: Look, led: Led) -> bool:
    """A battery's lead that ends, within the distance for its place, at a device small enough:
    what it carries in use is bounded by that device, whatever else is joined to the battery."""
    circuit = look.studies.circuit
    source = circuit.sources[led.feed.system.source]
    if source.data.hertz != 0.0:
        return False
    length = view.run_values(led.run.id).opt("length")
    try:
        allowed = rules_of(view.design).device_distance_m(view.place_of(source.owner)).value
    except CodesError:  # no distance is known that would allow it
        return False
    if length is None or exceeds(length, allowed):
        return False
    branch = circuit.branches[led.feed.branch]
    return any(
        within(device.data.rating_a, led.allowed_a)
        and {branch.a, branch.b} & {n for i in device.branches for n in _ends(look, i)}
        for device in circuit.devices
    )


def _ends(look: Look, index: int) -> tuple[int, int]:
    branch = look.studies.circuit.branches[index]
    return branch.a, branch.b
