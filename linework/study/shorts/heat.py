"""Study: whether the conductors of runs survive a fault until it is ended.

Energy against energy: I2 t of the fault and k2 S2 of the conductor, which takes all heat itself
(IEC 60949; IEC 60364-5-54 annex A). No standard fixes how much energy a device lets through, so
its fast edge counts: what is told as burnt burns for certain. Where the maker states a breaker's
magnetic release, its slow edge does. What would burn by the slow edge of a breaker whose release
nobody states is told apart: the release decides.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from linework.circuit.conductors import pole_size
from linework.codes import (
    CodesError,
    k_factor,
    least_area_mm2,
    limit_temperature_c,
    withstand_a2s,
)
from linework.design import Design
from linework.kinds import Values
from linework.study.shorts.clearing import Ending
from linework.study.shorts.faults import Outcome
from linework.study.situation import Situation
from linework.wiring import Pole, is_protective

LONGEST_S = 5.0
"""Longer than this a conductor sheds heat (IEC 60364-4-43 434.5.2); the device's rating and the
conductor's ampacity are judged then."""
START_C = 75.0
"""Temperature of a conductor in use before the fault (ICEA P-32-382); lower where its insulation
stands less."""


@dataclass(frozen=True)
class Withstand:
    """What one conductor survives: k2 S2 in A2 s, k in A s**0.5 per mm2, and its limit in C."""

    a2s: float
    k: float
    limit_c: float


@dataclass(frozen=True)
class Burnt:
    """A conductor (branch index) that passes its limit temperature in a fault.

    ``current_a`` through it at first; in ``time_s`` that brings all the heat of the fault.
    ``least_mm2``: the area that would survive it.
    """

    branch: int
    current_a: float
    time_s: float
    withstand: Withstand
    least_mm2: float


def withstands(design: Design, situation: Situation) -> dict[int, Withstand]:
    """What every conductor of a run survives, by branch index; those of unknown size are left out.

    Insulation of cords is taken for rubber, all other for thermoplastic, the lowest of the
    usual limits.
    """
    found: dict[int, Withstand] = {}
    for run in design.runs:
        values = design.run_values(run)
        for index in situation.circuit.branches_of.get(run.id, ()):
            withstand = withstand_of(values, Pole(situation.circuit.branches[index].pole))
            if withstand is not None:
                found[index] = withstand
    return found


def withstand_of(values: Values, pole: Pole) -> Withstand | None:
    """What one conductor of a run survives, by the run's ratings; None where no table has its
    size."""
    family = "rubber" if values.pick("installation") == "cord" else "thermoplastic"
    limit = limit_temperature_c(family).value
    start = min(float(values.pick("insulation")), START_C)
    metal = values.pick("material")
    try:
        energy = withstand_a2s(pole_size(values, pole), metal, start, limit).value
    except CodesError:
        return None
    return Withstand(energy, k_factor(metal, start, limit).value, limit)


def burnt(
    situation: Situation, survive: Mapping[int, Withstand], outcome: Outcome, end: Ending
) -> Iterator[Burnt]:
    """The conductors that a fault heats beyond their limit before it is ended.

    ``survive``: of :func:`withstands`. Live and neutral conductors behind an ordinary breaker are
    left out: it is tested with the wire of its rating (UL 489, from memory), and whether they
    have that wire is judged by the breaker's rating. So are ground wires that stand as much as the
    live conductors of their run.
    """
    lasting = _lasting_s(situation, outcome, end)
    if lasting <= LONGEST_S and survive:
        tested = _tested_with_wire(situation, end)
        for item in _beyond(situation, survive, outcome, end, lasting):
            if not (tested and _as_live(situation, survive, item.branch)):
                yield item


def resting_on_release(
    situation: Situation, survive: Mapping[int, Withstand], outcome: Outcome, end: Ending
) -> tuple[int, list[Burnt]] | None:
    """The breaker (device index) whose magnetic release nobody states, with the ground wires that
    survive a fault by its fast edge and would not by its slow one; None where there are none."""
    device, data = _overcurrent(end), situation.circuit.devices
    if end.by != "device" or device is None or not survive:
        return None
    unstated = data[device].data.curve == "breaker" and data[device].data.magnetic_a is None
    if not unstated or end.latest_s > LONGEST_S:
        return None
    fast = {b.branch for b in _beyond(situation, survive, outcome, end, end.earliest_s)}
    slow = list(_beyond(situation, survive, outcome, end, end.latest_s))
    left = [item for item in slow if item.branch not in fast]
    return (device, left) if left else None


def _beyond(
    situation: Situation,
    survive: Mapping[int, Withstand],
    outcome: Outcome,
    end: Ending,
    lasting_s: float,
) -> Iterator[Burnt]:
    """The conductors that pass their limit in a fault of so many seconds; no live ones behind a
    breaker that is tested with them."""
    seconds = _at_first_s(outcome, lasting_s)
    tested = _tested_with_wire(situation, end)
    for index, amps in outcome.branch_a.pairs():
        known = survive.get(index)
        if known is None or amps**2 * seconds <= known.a2s:
            continue
        if tested and not is_protective(Pole(situation.circuit.branches[index].pole)):
            continue
        area = least_area_mm2(amps, seconds, known.k)
        yield Burnt(index, amps, seconds, known, area)


def _as_live(situation: Situation, survive: Mapping[int, Withstand], index: int) -> bool:
    """Whether a ground wire stands as much as a live conductor of its run."""
    branches = situation.circuit.branches
    beside = situation.circuit.branches_of[branches[index].owner]
    live = [i for i in beside if i in survive and not is_protective(Pole(branches[i].pole))]
    return any(survive[index].a2s >= survive[i].a2s for i in live)


def _lasting_s(situation: Situation, outcome: Outcome, end: Ending) -> float:
    """How long the fault surely lasts, in s."""
    device = _overcurrent(end)
    if device is None:
        return end.latest_s
    stated = situation.circuit.devices[device].data.magnetic_a
    if end.by == "device" and stated is not None and outcome.device_a[device] >= stated.high:
        return end.latest_s
    return end.earliest_s


def _at_first_s(outcome: Outcome, seconds: float) -> float:
    """The time in which the first current brings as much heat as one that falls back meanwhile."""
    if outcome.later_share >= 1.0:
        return seconds
    full = min(seconds, outcome.later_s)
    return full + outcome.later_share**2 * (seconds - full)


def _tested_with_wire(situation: Situation, end: Ending) -> bool:
    device = _overcurrent(end)
    return device is not None and situation.circuit.devices[device].data.curve == "breaker"


def _overcurrent(end: Ending) -> int | None:
    """The overcurrent device that ends a fault, be it beside a ground-fault device."""
    return end.device if end.by == "device" else end.beside
