"""Study: what each device has to break, the worst short at each voltage before it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.model import Circuit
from linework.study.answers.trust import known_faults
from linework.study.once import once
from linework.study.shorts.at_devices import at_devices
from linework.study.shorts.faults import Outcome
from linework.study.studies import Studies

_FEEDS = 0.01
"""Part of the fault current from which a conductor counts as feeding it."""


@dataclass(frozen=True)
class Broken:
    """The worst short of a device at one voltage: ampere through it, volts before it, hertz."""

    amps: float
    volts: float
    hertz: float


@once
def worst_broken(studies: Studies) -> dict[int, list[Broken]]:
    """For each device by its index the worst short at each voltage before it.

    A device breaks less at a higher voltage: the largest current is not always the worst. A
    current within its rating does not count, nor a short whose conductors are not all known.
    """
    found: dict[int, dict[tuple[float, float], Broken]] = {}
    for index, worst in _shorts(studies):
        at_volts = found.setdefault(index, {})
        before = at_volts.get((worst.volts, worst.hertz))
        rating = studies.circuit.devices[index].data.rating_a
        if worst.amps > (rating if before is None else before.amps):
            at_volts[worst.volts, worst.hertz] = worst
    return {index: list(by_volts.values()) for index, by_volts in found.items() if by_volts}


def _shorts(studies: Studies) -> Iterator[tuple[int, Broken]]:
    """Each device with what each short drives through it."""
    for fault in known_faults(studies):
        if _known(studies.circuit, fault.strong):
            volts = round(fault.strong.before_v, 1)
            for index, amps in fault.strong.device_a.pairs():
                yield index, Broken(amps, volts, fault.point.hertz)
    for near in at_devices(studies.situation):
        if _known(studies.circuit, near.fault):
            yield near.device, Broken(near.amps, round(near.volts, 1), 0.0)


def _known(circuit: Circuit, short: Outcome) -> bool:
    """Whether size and length of every run that feeds the short are given."""
    least = _FEEDS * short.current_a
    return all(amps <= least or circuit.branches[i].known for i, amps in short.branch_a.pairs())
