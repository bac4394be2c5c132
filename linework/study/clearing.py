"""What ends a fault: the device that opens, the source that gives up, or nothing."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import Literal

from linework.circuit.model import Circuit, Device
from linework.codes.residual import ground_fault_device
from linework.codes.trip import TripBand, trip_band
from linework.study.faults import Fault, Outcome
from linework.study.situation import Situation
from linework.wiring import Three

SOURCE_GONE_V = 50.0
"""A source that lowers the voltage on metal below this counts as ending the fault (a note)."""


@dataclass(frozen=True)
class Ending:
    """How one fault ends.

    ``by``: "device", "ground-fault", "source" or "nothing"; ``device`` its index.
    ``latest_s`` and ``earliest_s``: slow and fast edge. ``metal_v``: voltage on
    metal while it lasts, at first and after the source has fallen back.
    """

    by: Literal["device", "ground-fault", "source", "nothing"]
    device: int | None
    latest_s: float
    earliest_s: float
    metal_v: float | None
    later_v: float | None
    current_a: float

    def over_v_for_s(self, volts: float) -> float:
        """Seconds for which the voltage on metal may stand above ``volts``."""
        if self.metal_v is None or math.isnan(self.metal_v) or self.metal_v <= volts:
            return 0.0
        return self.latest_s


@cache
def _band(curve: str, rating_a: float, magnetic: Three | None) -> TripBand:
    return trip_band(curve, rating_a, magnetic_a=magnetic)


def band_of(device: Device) -> TripBand:
    """The time-current band of a device. CodesError where no table has it."""
    data = device.data
    return _band(data.curve, data.rating_a, data.magnetic_a)


def ending(situation: Situation, fault: Fault, strong: bool = False) -> Ending:
    """What ends a fault, on the slow edge of every device that carries it."""
    outcome = fault.strong if strong else fault.weak
    best = ("nothing", None, math.inf, math.inf)
    for index, device in enumerate(situation.circuit.devices):
        amps = max((outcome.branch_a.get(i, 0.0) for i in device.branches), default=0.0)
        if amps > 0.0:
            latest, earliest = _device_times(device, amps, outcome)
            if latest < best[2]:
                best = ("device", index, latest, earliest)
    for index, sensor in enumerate(situation.circuit.sensors):
        residual_ma = 1000.0 * outcome.residual_a.get(index, 0.0)
        latest = ground_fault_device(sensor.data.style).opens_by_s(residual_ma)
        if latest < best[2] and _in_circuit(situation, sensor.opens):
            best = ("ground-fault", index, latest, latest)
    by, which, latest, earliest = best
    gone = _source_gone(outcome)
    if gone < latest:
        by, which, latest, earliest = "source", None, gone, gone
    later_v = None if outcome.metal_v is None else outcome.metal_v * outcome.later_share
    return Ending(by, which, latest, earliest, outcome.metal_v, later_v, outcome.current_a)  # type: ignore[arg-type]


def _in_circuit(situation: Situation, branches: tuple[int, ...]) -> bool:
    return any(i in situation.closed for i in branches)


def _device_times(device: Device, amps: float, outcome: Outcome) -> tuple[float, float]:
    """Latest and earliest opening, with the current falling back at ``later_s``."""
    band = band_of(device)
    latest = band.opens_by_s(amps)
    if latest > outcome.later_s and outcome.later_share < 1.0:
        latest = band.opens_by_s(amps * outcome.later_share)
    off = outcome.off_s
    if off is not None and latest > off:
        latest = math.inf
    return latest, band.may_open_s(amps)


def _source_gone(outcome: Outcome) -> float:
    """When the source itself ends it: off, or so low that metal stands below 50 V."""
    times = [outcome.off_s] if outcome.off_s is not None else []
    metal = outcome.metal_v
    if metal is not None and metal > SOURCE_GONE_V >= metal * outcome.later_share:
        times.append(outcome.later_s)
    if outcome.later_share <= 0.0 and outcome.current_a > 0.0:
        times.append(outcome.later_s)
    return min(times, default=math.inf)


def device_designator(circuit: Circuit, found: Ending) -> str:
    """The id of the part that ends it, empty where none does."""
    if found.device is None:
        return ""
    if found.by == "ground-fault":
        return circuit.sensors[found.device].owner
    return circuit.devices[found.device].owner
