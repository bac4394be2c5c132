"""What the runs of one design may carry and what may protect them, each worked out once."""

from __future__ import annotations

from dataclasses import replace
from math import inf

from linework.codes import CodesError, GroundNeed, Worked
from linework.design import Design, Run
from linework.kinds.solar_array import BRIGHT
from linework.study.once import once
from linework.study.slack import within
from linework.study.stands import place_of_run
from linework.study.wires.ratings import (
    DeviceKind,
    ground_wire_need,
    in_parallel,
    largest_device,
    low_voltage,
    plain_ampacity,
    pole_ampacity,
    rules_of,
    run_ampacity,
)
from linework.wiring import Pole


class Ampacities:
    """What the functions beside it answer for one design, which does not change meanwhile.

    Each raises CodesError where no table tells, and KeyError for a run without a size.
    """

    def __init__(self, design: Design) -> None:
        self.design = design

    @once
    def of_run(self, run: Run, device_a: float | None = None) -> Worked[float]:
        """As :func:`run_ampacity`."""
        return run_ampacity(self.design, run, device_a)

    @once
    def of_pole(self, run: Run, pole: Pole, device_a: float | None = None) -> Worked[float]:
        """As :func:`pole_ampacity`."""
        return pole_ampacity(self.design, run, pole, device_a)

    @once
    def plain(self, run: Run, pole: Pole, device_a: float | None = None) -> Worked[float]:
        """As :func:`plain_ampacity`."""
        return plain_ampacity(self.design, run, pole, device_a)

    @once
    def with_twins(self, run: Run, device_a: float) -> Worked[float]:
        """Ampacity behind a device, equal conductors in parallel counted together."""
        return in_parallel(self.design, run, self.of_run(run, device_a))

    @once
    def largest_device(self, run: Run, device_a: float, kind: DeviceKind) -> Worked[float]:
        """The largest device for a run as it is protected now, by one of ``device_a`` ampere."""
        return largest_device(self.design, run, self.with_twins(run, device_a), device=kind)

    @once
    def ground_wire(
        self, run: Run, device_a: float, kind: DeviceKind, full_load: bool = False
    ) -> GroundNeed:
        """As :func:`ground_wire_need`."""
        return ground_wire_need(self.design, run, device_a, device=kind, full_load=full_load)

    def carries_sun(self, run: Run, bright_a: float) -> bool:
        """Whether a run carries ``bright_a`` as installed, and 125 % of it before corrections for
        temperature and grouping (NFPA 70 690.8(B)); in a vehicle by its low-voltage table too."""
        return within(bright_a, self.sun_a(run))

    @once
    def sun_a(self, run: Run) -> float:
        """What may flow in a run in bright sun, as :meth:`carries_sun` has it, in ampere."""
        plain = replace(run, ratings=run.ratings.with_answers({"ambient": None, "grouped": None}))
        carried = min(self.of_run(run).value, self.of_run(plain).value / BRIGHT)
        return min(carried, self._by_vehicle_table(run) / BRIGHT)

    def _by_vehicle_table(self, run: Run) -> float:
        """The largest device that low-voltage wiring of this size may have in a vehicle, in ampere
        (table 552.10(E)(1)): the sun may not drive more through it than one would let through.
        Infinite elsewhere and for thicker wires."""
        if not (low_voltage(self.design, run) and place_of_run(self.design, run).on_wheels):
            return inf
        try:
            size = self.design.run_values(run).text("size")
            return rules_of(self.design).low_voltage_device(size).value
        except CodesError:
            return inf


def sun_needs_a(bright_a: float) -> float:
    """Least ampacity in ampere before corrections: 125 % of what flows in bright sun, which is
    156 % of the short-circuit current of the plate (NFPA 70 690.8(B))."""
    return BRIGHT * bright_a
