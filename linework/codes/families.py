"""What a rule asks of a family of standards: one seam for North America and, later, IEC."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, Protocol

from linework.codes.answers import Allowed, GroundNeed
from linework.codes.touch import System
from linework.codes.value import Sourced, Worked
from linework.wiring import Pole

Laid = Literal[
    "cable",
    "house_cable",
    "conduit_pvc",
    "conduit_steel",
    "free_air",
    "cord",
    "insulation",
    "engine",
    "jumper",
]
"""How a run is laid, in the words of its rating."""


class Family(Protocol):
    """The tables and limits of one family and edition; every answer carries its source.

    All questions raise CodesError where the tables have no answer: a rule then says "not
    checked because ...".
    """

    @property
    def key(self) -> str:
        """The family's key in a design: "NA"."""

    @property
    def edition(self) -> str:
        """The edition by its year."""

    @property
    def title(self) -> str:
        """Standard and edition as printed: "NFPA 70 (2023)"."""

    def cite(self, clause: str) -> str:
        """A clause of the family's main standard with its edition."""

    def ampacity(
        self,
        size: str,
        material: str,
        insulation_c: float,
        *,
        laid: str,
        ambient_c: float,
        grouped: int,
        terminal_c: int | None,
        place: str = "building",
        dc_v: float | None = None,
    ) -> Worked[float]:
        """Ampacity in ampere of a conductor as installed.

        ``laid``: a word of :data:`Laid`; for cords ``grouped`` is the number of counted
        conductors. ``place`` and ``dc_v`` (below 50 V) choose the marine table afloat.
        """

    def counted_conductors(
        self, poles: Iterable[Pole], *, neutral_nonlinear: bool = False
    ) -> Sourced[int]:
        """How many conductors of a cord count as current-carrying."""

    def terminal_temperature(
        self, size: str, device_a: float | None, marked_c: int | None = None
    ) -> Sourced[int]:
        """The temperature in C that the terminals of a circuit allow."""

    def largest_device(
        self,
        ampacity: Worked[float] | Sourced[float],
        size: str,
        material: str = "copper",
        *,
        device: Literal["breaker", "fuse"] = "breaker",
        several_outlets: bool = False,
    ) -> Worked[float]:
        """The largest device in ampere that protects a conductor."""

    def standard_up(
        self, amps: float, device: Literal["breaker", "fuse"] = "breaker"
    ) -> Sourced[float]:
        """The least standard rating not below ``amps``."""

    def design_current(
        self, steady_a: float, continuous_a: float, *, full_rated: bool = False
    ) -> Worked[float]:
        """The current in ampere that a device must be rated for."""

    def ground_wire(
        self,
        device_a: float,
        circuit_size: str,
        *,
        minimum_size: str | None = None,
        material: str = "copper",
        circuit_material: str = "copper",
    ) -> GroundNeed:
        """The protective conductor that a circuit needs."""

    def bonding_jumper(
        self,
        largest_ungrounded: str,
        material: str = "copper",
        *,
        jumper_material: str = "copper",
        source_va: float | None = None,
    ) -> GroundNeed:
        """The neutral-ground jumper of a source."""

    def electrode_conductor(
        self,
        largest_ungrounded: str,
        material: str = "copper",
        *,
        own_material: str = "copper",
        to_rod: bool = False,
    ) -> Sourced[str]:
        """The conductor to an electrode."""

    def vehicle_bond(self) -> Sourced[str]:
        """Least bonding conductor of a vehicle's metal."""

    def battery_bond(self, battery_lead: str | None) -> GroundNeed:
        """Least conductor from a battery to the chassis."""

    def low_voltage_device(self, size: str) -> Sourced[float]:
        """Greatest device in ampere for a low-voltage vehicle circuit."""

    def device_distance_m(
        self,
        place: str,
        connected_to: Literal["battery", "other source"] = "battery",
        *,
        sheathed: bool = False,
    ) -> Sourced[float]:
        """How far from its source the first device may lie, in meter."""

    def receptacle_allowed(
        self, circuit_a: float, receptacle_a: float, contact_sets: int
    ) -> Allowed:
        """Whether an outlet's rating fits its circuit."""

    def ground_fault_protection(
        self, place: str, area: str, volts: float, amps: float
    ) -> Sourced[bool]:
        """Whether an outlet rated so needs ground-fault protection where it is."""

    def motor_current(self, horsepower: str, volts: float) -> Sourced[float]:
        """Full-load current in ampere of a single-phase motor."""

    def motor_device(
        self,
        current: Sourced[float],
        kind: Literal[
            "inverse time breaker", "time-delay fuse", "fuse", "instantaneous trip breaker"
        ] = "inverse time breaker",
    ) -> Worked[float]:
        """Largest short-circuit device in ampere of one motor."""

    def touch_limit_v(self, dc: bool, wet: bool) -> Sourced[float]:
        """Voltage in V that touchable metal may keep for good."""

    def disconnection_s(
        self, to_ground_v: float, *, dc: bool = False, system: System = "TN", final: bool = True
    ) -> Sourced[float]:
        """Longest time in s for which a fault may leave more than that."""

    def clearing_multiple(self) -> Sourced[float]:
        """Multiple of a device's rating below which a fault is taken not to open it."""

    def quick_multiple(self) -> Sourced[float]:
        """Multiple from which a breaker without a curve is taken to be quick."""

    def drop_advice(self, part: Literal["branch", "total"]) -> Sourced[float]:
        """Voltage drop in percent that is advised."""
