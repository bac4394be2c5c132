"""What a rule asks of a family of standards, and what it gets where the family has no answer."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from linework.codes import touch
from linework.codes.answers import Allowed, GroundNeed
from linework.codes.demands import Demands
from linework.codes.errors import CodesError
from linework.codes.questions import QUESTIONS
from linework.codes.touch import System
from linework.codes.value import Sourced, Worked
from linework.wiring import Pole
from linework.words import say

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

WindingSide = Literal["primary", "primary of both", "secondary"]
"""Where a transformer has its device: on its primary alone, on both sides, on its secondary."""

MotorFactor = Literal["wires", "welder", "hermetic"]


@dataclass(frozen=True)
class Family:
    """The tables and limits of one family and edition; every answer carries its source.

    A family derives from this and answers what it can. Every question that it leaves, and every
    one that its tables have no row for, raises CodesError: a rule then says "not checked because
    ...". ``edition``: by its year; ``key``: the family's key in a design: "NA".
    """

    edition: str = ""
    key: str = ""

    @property
    def title(self) -> str:
        """Standard and edition as printed: "NFPA 70 (2023)"."""
        return f"{self.key} {self.edition}".strip()

    def standards(self, place: str) -> str:
        """What a design in a place is judged by, as printed."""
        return self.title

    def lacking(self) -> tuple[str, ...]:
        """The questions that this family leaves without an answer, in words."""
        return tuple(
            say(topic)
            for name, topic in QUESTIONS.items()
            if getattr(type(self), name) is getattr(Family, name)
        )

    def _lacks(self, question: str) -> CodesError:
        topic = say(QUESTIONS[question])
        return CodesError(
            say("this version has no tables of {title} for {topic}", title=self.title, topic=topic)
        )

    def cite(self, clause: str) -> str:
        """A clause of the family's main standard with its edition."""
        return f"{self.title} {clause}"

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
        raise self._lacks("ampacity")

    def counted_conductors(
        self, poles: Iterable[Pole], *, neutral_nonlinear: bool = False
    ) -> Sourced[int]:
        """How many conductors of a cord count as current-carrying."""
        raise self._lacks("counted_conductors")

    def terminal_temperature(
        self, size: str, device_a: float | None, marked_c: int | None = None
    ) -> Sourced[int]:
        """The temperature in C that the terminals of a circuit allow."""
        raise self._lacks("terminal_temperature")

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
        raise self._lacks("largest_device")

    def standard_up(
        self, amps: float, device: Literal["breaker", "fuse"] = "breaker"
    ) -> Sourced[float]:
        """The least standard rating not below ``amps``."""
        raise self._lacks("standard_up")

    def design_current(
        self, steady_a: float, continuous_a: float, *, full_rated: bool = False
    ) -> Worked[float]:
        """The current in ampere that a device must be rated for."""
        raise self._lacks("design_current")

    def ground_wire(
        self,
        device_a: float,
        circuit_size: str,
        *,
        minimum_size: str | None = None,
        minimum_cool: str | None = None,
        material: str = "copper",
        circuit_material: str = "copper",
    ) -> GroundNeed:
        """The protective conductor that a circuit needs; the minima are the thinnest conductors
        that it could have, as laid and before corrections for temperature and grouping."""
        raise self._lacks("ground_wire")

    def bonding_jumper(
        self,
        largest_ungrounded: str,
        material: str = "copper",
        *,
        jumper_material: str = "copper",
        source_va: float | None = None,
    ) -> GroundNeed:
        """The neutral-ground jumper of a source."""
        raise self._lacks("bonding_jumper")

    def electrode_conductor(
        self,
        largest_ungrounded: str,
        material: str = "copper",
        *,
        own_material: str = "copper",
        to_rod: bool = False,
    ) -> Sourced[str]:
        """The conductor to an electrode."""
        raise self._lacks("electrode_conductor")

    def vehicle_bond(self) -> Sourced[str]:
        """Least bonding conductor of a vehicle's metal."""
        raise self._lacks("vehicle_bond")

    def battery_bond(self, battery_lead: str | None) -> GroundNeed:
        """Least conductor from a battery to the chassis."""
        raise self._lacks("battery_bond")

    def case_bond_afloat(self, plus: str) -> GroundNeed:
        """Least conductor from a case or a minus to the common ground of a boat."""
        raise self._lacks("case_bond_afloat")

    def low_voltage_device(self, size: str) -> Sourced[float]:
        """Greatest device in ampere for a low-voltage vehicle circuit."""
        raise self._lacks("low_voltage_device")

    def device_distance_m(
        self,
        place: str,
        connected_to: Literal["battery", "other source"] = "battery",
        *,
        sheathed: bool = False,
    ) -> Sourced[float]:
        """How far from its source the first device may lie, in meter."""
        raise self._lacks("device_distance_m")

    def receptacle_allowed(
        self, circuit_a: float, receptacle_a: float, contact_sets: int
    ) -> Allowed:
        """Whether an outlet's rating fits its circuit."""
        raise self._lacks("receptacle_allowed")

    def ground_fault_protection(
        self, place: str, area: str, volts: float, amps: float
    ) -> Sourced[bool]:
        """Whether an outlet rated so needs ground-fault protection where it is."""
        raise self._lacks("ground_fault_protection")

    def arc_fault_protection(
        self, place: str, area: str, volts: float, amps: float
    ) -> Sourced[bool]:
        """Whether the circuit of an outlet rated so needs arc-fault protection where it is, if
        people live there."""
        raise self._lacks("arc_fault_protection")

    def motor_device(
        self,
        current: Sourced[float],
        kind: Literal[
            "inverse time breaker", "time-delay fuse", "fuse", "instantaneous trip breaker"
        ] = "inverse time breaker",
    ) -> Worked[float]:
        """Largest short-circuit device in ampere of one motor."""
        raise self._lacks("motor_device")

    def transformer_device(self, side: WindingSide, rated_a: float) -> Sourced[float]:
        """Largest device in ampere of a transformer whose rated current on this side is so."""
        raise self._lacks("transformer_device")

    def touch_limit_v(self, dc: bool, wet: bool) -> Sourced[float]:
        """Voltage in V that touchable metal may keep for good."""
        return touch.touch_limit_v(dc, wet)

    def disconnection_s(
        self, to_ground_v: float, *, dc: bool = False, system: System = "TN", final: bool = True
    ) -> Sourced[float]:
        """Longest time in s for which a fault may leave more than that."""
        return touch.disconnection_s(to_ground_v, dc=dc, system=system, final=final)

    def clearing_multiple(self) -> Sourced[float]:
        """Multiple of a device's rating below which a fault is taken not to open it."""
        raise self._lacks("clearing_multiple")

    def quick_multiple(self) -> Sourced[float]:
        """Multiple from which a breaker without a curve is taken to be quick."""
        raise self._lacks("quick_multiple")

    def drop_advice(self, part: Literal["branch", "feeder", "total"]) -> Sourced[float]:
        """Voltage drop in percent that is advised."""
        raise self._lacks("drop_advice")

    def motor_factor(self, of: MotorFactor) -> Sourced[float]:
        """Least ampacity of a motor's wires over its current; largest device over the ampacity of
        a welder's wires, and over the current of a sealed compressor."""
        raise self._lacks("motor_factor")

    def disconnect_afloat(self, of: Literal["cranking", "capacity"]) -> Sourced[float]:
        """Cranking amperes or capacity in ampere-hours of a bank above which a boat needs a switch
        at it."""
        raise self._lacks("disconnect_afloat")

    def disconnect_from(self, of: Literal["voltage", "energy"]) -> Sourced[float]:
        """Voltage in V or stored energy in Wh of a battery above which a disconnect is required."""
        raise self._lacks("disconnect_from")

    def small_conductor_limit(self, size: str, material: str = "copper") -> Sourced[float] | None:
        """Greatest device in ampere for a small conductor of fixed wiring, None for larger ones."""
        raise self._lacks("small_conductor_limit")

    def cord_device(self, size: str, ampacity_a: float) -> Sourced[float] | None:
        """Device in ampere allowed above the ampacity of a thin cord; None where there is none."""
        raise self._lacks("cord_device")

    def vehicle_cord(self, inlet_a: float) -> Sourced[str] | None:
        """Least conductor of the cord to a vehicle's inlet of so many ampere; None where its
        ampacity alone decides."""
        raise self._lacks("vehicle_cord")

    def appliance_device(self, amps: float) -> Sourced[float] | None:
        """Largest device in ampere before a single appliance without a motor that takes so much;
        None where there is no such limit."""
        raise self._lacks("appliance_device")

    def cord_mark(self, size: str, length_m: float) -> Sourced[float] | None:
        """What cord sets of this size and length are usually marked for, in ampere; None where that
        is no less than their ampacity."""
        raise self._lacks("cord_mark")

    def parallel(self, size: str, number: int) -> Sourced[float] | None:
        """By how much conductors side by side carry more; None where they do not count."""
        raise self._lacks("parallel")

    def device_afloat(self, ampacity: Sourced[float]) -> Sourced[float]:
        """Greatest device in ampere afloat where no standard rating fits."""
        raise self._lacks("device_afloat")

    def battery_interrupting(self, cranking_a: float, *, main: bool) -> Sourced[float]:
        """Least interrupting rating in ampere afloat, by the cranking amperes of a lead bank, of a
        first device or one behind it."""
        raise self._lacks("battery_interrupting")

    def leakage_afloat_ma(self) -> Sourced[float]:
        """Leakage in milliampere at which the device at a boat's inlet opens at the latest."""
        raise self._lacks("leakage_afloat_ma")

    def inlet_distance_m(self) -> Sourced[float]:
        """Meters of conductor from a boat's inlet within which its first devices must lie."""
        raise self._lacks("inlet_distance_m")

    def drop_afloat(self, critical: bool) -> Sourced[float]:
        """Voltage drop in percent that may be afloat, for what safety depends on or the rest."""
        raise self._lacks("drop_afloat")

    def drop_constant_afloat(self) -> Sourced[float]:
        """Ohm circular mil per foot of the sizing formula afloat, out and back."""
        raise self._lacks("drop_constant_afloat")

    def conductor_area_in2(self, size: str, insulation: str) -> Sourced[float]:
        """Area in square inches of one insulated conductor."""
        raise self._lacks("conductor_area_in2")

    def raceway_fill(self, conductors: int) -> Sourced[float]:
        """The part of its inside that so many conductors may take of a raceway."""
        raise self._lacks("raceway_fill")

    def raceway_room_in2(self, raceway: str, trade_size: str, conductors: int) -> Sourced[float]:
        """Area in square inches that so many conductors may fill in a raceway."""
        raise self._lacks("raceway_room_in2")

    def box_volume_in3(self, kind: str, trade_size: str) -> Sourced[float]:
        """Volume in cubic inches of a box."""
        raise self._lacks("box_volume_in3")

    def box_fill_in3(
        self,
        conductors: Mapping[str, int],
        *,
        grounds: Sequence[str] = (),
        yokes: Sequence[str] = (),
        clamps: bool = False,
    ) -> float:
        """Cubic inches that the contents of a box need: conductors and ground wires by their
        sizes, for each device the size of its largest conductor, internal cable clamps."""
        raise self._lacks("box_fill_in3")

    def outlet_guards(self) -> tuple[str, ...]:
        """Styles of ground-fault device that protect an outlet, the usual one first."""
        raise self._lacks("outlet_guards")

    def set_outlet_protection(self, volts: float, amps: float, set_va: float) -> Sourced[bool]:
        """Whether the maker of a bonded portable set must protect such an outlet of it."""
        raise self._lacks("set_outlet_protection")

    def room_before_boards(self, aboard: bool) -> Sourced[str]:
        """Room to be kept before boards, in words; ``aboard``: of a vehicle or boat."""
        raise self._lacks("room_before_boards")

    def taps(self) -> tuple[tuple[Sourced[float], Sourced[float]], ...]:
        """Lengths in meter up to which a thin conductor may end in a single device, each with how
        many times its ampacity the device before it may be."""
        raise self._lacks("taps")

    def dwelling_service(self, device_a: float) -> Sourced[float] | None:
        """Least ampacity in ampere of a dwelling's service conductors behind a device; None where
        there is no such allowance."""
        raise self._lacks("dwelling_service")

    def demands(self) -> Demands:
        """The figures that loads are added up by."""
        raise self._lacks("demands")
