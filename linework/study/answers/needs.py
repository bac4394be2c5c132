"""Study: what a device must let through so that all that hangs on it works at its full rating.

The drawn loads are not the whole of it: an inverter takes its full current when somebody asks for
it, a charger gives its full current to an empty battery, a motor starts with several times its
own. What hangs on a device is what its open contacts would cut off.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from linework.circuit.cuts import Cut
from linework.circuit.incircuit import LINKS
from linework.circuit.model import Device, Load
from linework.codes import CodesError, stated, trip_band
from linework.study.loads.drop import converter_inputs, idle_faces
from linework.study.situation import Situation


@dataclass(frozen=True)
class Need:
    """What one part needs of a device, in ampere; ``start_a`` as it starts on alternating
    current."""

    part: str
    amps: float
    start_a: float = 0.0


def stopped_by(situation: Situation, device: Device, amps: float) -> Need | None:
    """The first need that a device of another rating in ampere would not meet: inverters at their
    full rating, together; motors with what their wires are sized for and their start; sources and
    converters that have no other way out at their rating."""
    label = situation.labels_without(frozenset(device.branches) & situation.closed, LINKS)
    inverters = list(_inputs(situation, label))
    together = sum(need.amps for need in inverters)
    if inverters and together > amps:
        return replace(inverters[0], amps=together)
    for need in (*_motors(situation, label), *_sources(situation, label, device)):
        if need.amps > amps or (need.start_a and not _holds(device, amps, need.start_a)):
            return need
    return None


def _inputs(situation: Situation, label: Cut) -> Iterator[Need]:
    for load, amps in converter_inputs(situation):
        if _hangs(situation, label, load):
            yield Need(load.owner, amps)


def _motors(situation: Situation, label: Cut) -> Iterator[Need]:
    factor = stated("common", "motor_wires").value
    for _, load in situation.loads:
        data = load.data
        if data.start_a and data.lasts != "seconds" and _hangs(situation, label, load):
            running = data.watts / max(data.volts * data.power_factor, 1e-9)
            start_a = data.start_a if data.hertz != 0.0 else 0.0
            yield Need(load.owner, factor * running, start_a)


def _hangs(situation: Situation, label: Cut, load: Load) -> bool:
    """Whether a load is fed, and by nothing once the device is open."""
    for end in (load.a, load.b):
        starts = [situation.circuit.sources[s.source].plus for s in situation.feeds(end)]
        if starts and all(label[start] != label[end] for start in starts):
            return True
    return False


def _sources(situation: Situation, label: Cut, device: Device) -> Iterator[Need]:
    """Sources that the device parts from all that takes, or that feeds, beside them; one that has
    nothing behind it anyway needs nothing of a device elsewhere."""
    branches = [situation.circuit.branches[i] for i in device.branches if i in situation.closed]
    parted = {label[n] for b in branches for n in (b.a, b.b)}
    taken = {label[n] for _, load in situation.loads for n in (load.a, load.b)}
    taken |= {label[n] for face in idle_faces(situation) for n in face.nodes.values()}
    for index, source in situation.active:
        others = {label[s.plus] for i, s in situation.active if i != index}
        here = label[source.plus]
        if source.data.rated_a and here in parted and here not in taken | others:
            yield Need(source.owner, source.data.rated_a)


def _holds(device: Device, amps: float, start_a: float) -> bool:
    """Whether a device of a rating lasts through a start; what no curve is known of does not."""
    try:
        band = trip_band(device.data.curve, amps)
    except CodesError:
        return False
    return band.may_open_s(start_a) >= stated("common", "motor_start").value
