"""What ends a fault: the device that opens, the source that gives up, or nothing."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Literal

from linework.circuit.incircuit import LINKS
from linework.circuit.model import Circuit, Device
from linework.circuit.series import ways_back
from linework.codes import CodesError, stated
from linework.codes.residual import ResidualDevice, ground_fault_device
from linework.codes.trip import TripBand, trip_band
from linework.study.shorts.faults import Fault, Outcome, Point
from linework.study.situation import Situation
from linework.study.ways.windings import live_windings
from linework.wiring import Source, Three

_BELOW = 0.999
"""Below this share of the first gate of its curve a device need not open."""
_NOTHING_LEFT = 1e-3
"""What the leaks of other sources still drive is no fault current."""


@dataclass(frozen=True)
class Ending:
    """How one fault ends.

    ``by``: "device", "ground-fault", "source" or "nothing"; ``device`` its index.
    ``latest_s`` and ``earliest_s``: slow and fast edge. ``metal_v``: voltage on
    metal while it lasts, at first and after the source has fallen back. ``beside``: an
    overcurrent device that would end it, too, where a ground-fault device is faster for certain.
    """

    by: Literal["device", "ground-fault", "source", "nothing"]
    device: int | None
    latest_s: float
    earliest_s: float
    metal_v: float | None
    later_v: float | None
    current_a: float
    beside: int | None = None

    def over_v_for_s(self, volts: float) -> float:
        """Seconds for which the voltage on metal may stand above ``volts``."""
        if self.metal_v is None or math.isnan(self.metal_v) or self.metal_v <= volts:
            return 0.0
        return self.latest_s


@cache
def _band(curve: str, rating_a: float, magnetic: Three | None) -> TripBand:
    return trip_band(curve, rating_a, magnetic_a=magnetic)


@cache
def _residual_device(style: str) -> ResidualDevice:
    return ground_fault_device(style)


def band_of(device: Device) -> TripBand:
    """The time-current band of a device. CodesError where no table has it."""
    data = device.data
    return _band(data.curve, data.rating_a, data.magnetic_a)


@dataclass(frozen=True)
class _Candidate:
    """A device that may end a fault: sort, index, the branches that it opens, its latest opening
    and its rating (a ground-fault device has none: infinite)."""

    by: Literal["device", "ground-fault"]
    index: int
    opens: tuple[int, ...]
    latest_s: float
    rating_a: float = math.inf

    @property
    def told_s(self) -> float:
        """The latest opening without what rounding makes of equal times."""
        return float(f"{self.latest_s:.6e}")


def ending(situation: Situation, fault: Fault, strong: bool = False) -> Ending:
    """What ends a fault, on the slow edge of every device that carries it.

    A device ends it only if the fault is dead once that device has opened: one that carries a
    share, beside another way from a source, does not. Of equally fast ones it is the nearest to
    the fault, then the smallest.
    """
    outcome = fault.strong if strong else fault.weak
    gone = _source_gone(outcome)
    later_v = None if outcome.metal_v is None else outcome.metal_v * outcome.later_share
    rest = (outcome.metal_v, later_v, outcome.current_a)
    overcurrent = _in_order(situation, _overcurrent(situation, outcome))
    others = _ground_fault(situation, fault, outcome)
    for first in _in_order(situation, (*overcurrent, *others)):
        latest = first.latest_s
        if latest > gone:
            break
        if interrupts(situation, first.opens, fault.point):
            if first.by == "device":
                earliest = _earliest_s(situation, outcome, first.index)
                return Ending(first.by, first.index, latest, earliest, *rest)
            beside = next(
                (o.index for o in overcurrent if interrupts(situation, o.opens, fault.point)), None
            )
            early = math.inf if beside is None else _earliest_s(situation, outcome, beside)
            return Ending(first.by, first.index, latest, min(latest, early), *rest, beside)
    return Ending("source" if gone < math.inf else "nothing", None, gone, gone, *rest)


def _in_order(situation: Situation, candidates: Iterable[_Candidate]) -> list[_Candidate]:
    """The fastest first; of equals the farthest from the sources, which is the nearest to the
    fault, then the smallest, then as they are drawn."""
    return sorted(
        candidates,
        key=lambda c: (c.told_s, -situation.away(c.opens), c.rating_a, c.by, c.index),
    )


def interrupts(situation: Situation, opens: tuple[int, ...], point: Point) -> bool:
    """Whether no source can drive the fault any more once these branches are open.

    A charger or solar array of low voltage does not count: it drives no more than its limit for
    good, which its conductors carry, and nobody is hurt.
    """
    opened = frozenset(opens) & situation.closed
    if not opened:
        return False
    cluster = situation.labels_without(opened, LINKS)
    together = situation.labels_without(opened)
    sources = situation.circuit.sources
    live = [
        (x.source, sources[x.source])
        for x in live_windings(situation, cluster)
        if not _harmless(sources[x.source].data)
    ]
    hot = {cluster[s.plus] for _, s in live}
    return not any(
        cluster[s.plus] == cluster[point.node]
        and (
            together[point.to_node] in ways_back(situation, index, together)
            or cluster[point.to_node] in hot
        )
        for index, s in live
    )


def _harmless(source: Source) -> bool:
    limited = source.group.limits_itself
    return (
        limited
        and source.hertz == 0.0
        and source.volts <= stated("common", "direct_no_disconnection").value
    )


def _overcurrent(situation: Situation, outcome: Outcome) -> Iterator[_Candidate]:
    for index, amps in outcome.device_a.pairs():
        if amps > 0.0:
            device = situation.circuit.devices[index]
            latest = _latest_s(device, amps, outcome)
            if latest < math.inf:
                yield _Candidate("device", index, device.branches, latest, device.data.rating_a)


def _ground_fault(situation: Situation, fault: Fault, outcome: Outcome) -> Iterator[_Candidate]:
    """Ground-fault devices; they sense alternating current only."""
    if fault.point.hertz == 0.0:
        return
    for index, residual_a in outcome.residual_a.pairs():
        sensor = situation.circuit.sensors[index]
        latest = _residual_device(sensor.data.style).opens_by_s(1000.0 * residual_a)
        if latest < math.inf:
            yield _Candidate("ground-fault", index, sensor.opens, latest)


def _earliest_s(situation: Situation, outcome: Outcome, index: int) -> float:
    """The fast edge of an overcurrent device; of a ground-fault device only the slow one is
    stated."""
    return band_of(situation.circuit.devices[index]).may_open_s(outcome.device_a[index])


def _latest_s(device: Device, amps: float, outcome: Outcome) -> float:
    """Latest opening, with the current falling back at ``later_s``. A device whose curve no table
    has is not counted on; "not-analysed" names it."""
    try:
        band = band_of(device)
    except CodesError:
        return math.inf
    if amps < band.slow.first * band.rating_a * _BELOW:
        return math.inf
    latest = band.opens_by_s(amps)
    if latest > outcome.later_s and outcome.later_share < 1.0:
        latest = band.opens_by_s(amps * outcome.later_share)
    off = outcome.off_s
    if off is not None and latest > off:
        latest = math.inf
    return latest


def _source_gone(outcome: Outcome) -> float:
    """When the source itself ends it: off, or so low that metal stands below 50 V."""
    times = [outcome.off_s] if outcome.off_s is not None else []
    metal = outcome.metal_v
    if (
        metal is not None
        and metal > stated("common", "source_gone").value >= metal * outcome.later_share
    ):
        times.append(outcome.later_s)
    if outcome.later_share <= _NOTHING_LEFT and outcome.current_a > 0.0:
        times.append(outcome.later_s)
    return min(times, default=math.inf)


def device_designator(circuit: Circuit, found: Ending) -> str:
    """The id of the part that ends it, empty where none does."""
    if found.device is None:
        return ""
    if found.by == "ground-fault":
        return circuit.sensors[found.device].owner
    return circuit.devices[found.device].owner
