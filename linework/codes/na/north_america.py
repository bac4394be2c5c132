"""The North American family: NFPA 70 of one edition, with what stands beside it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal, get_args

from linework.codes.answers import Allowed, GroundNeed
from linework.codes.errors import CodesError, not_among
from linework.codes.families import Family, Laid, MotorFactor, WindingSide
from linework.codes.na import (
    allowances,
    ampacity,
    cords,
    demand,
    edition,
    fill,
    gfci_places,
    grounding,
    limits,
    low_voltage,
    motors,
    protection,
    receptacles,
    transformers,
)
from linework.codes.stated import stated
from linework.codes.touch import System, disconnection_s, touch_limit_v
from linework.codes.value import Sourced, Worked
from linework.wiring import Pole
from linework.words import say


@dataclass(frozen=True)
class NorthAmerica(Family):
    """NFPA 70; see :class:`linework.codes.families.Family` for every question."""

    edition: str = edition.LATEST
    key: str = "NA"

    def __post_init__(self) -> None:
        edition.cite("", self.edition)

    @property
    def title(self) -> str:
        """Standard and edition as printed."""
        return f"NFPA 70 ({self.edition})"

    def cite(self, clause: str) -> str:
        """A clause with standard and edition."""
        return edition.cite(clause, self.edition)

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
        """See Family. A metal that a table lacks is refused with the others (CodesError)."""
        if laid not in get_args(Laid):
            raise not_among(laid, get_args(Laid))
        if place == "boat" and dc_v is not None and dc_v < stated("common", "low_voltage").value:
            _copper_only(material)
            return low_voltage.marine_ampacity(
                size, insulation_c, ambient_c=ambient_c, engine_space=laid == "engine"
            )
        if laid == "cord":
            _copper_only(material)
            return cords.cord_ampacity(
                size, grouped, insulation_c=insulation_c, ambient_c=ambient_c, edition=self.edition
            )
        return ampacity.ampacity(
            size,
            material,
            insulation_c,
            ambient_c=ambient_c,
            grouped=grouped,
            terminal_c=terminal_c,
            free_air=laid == "free_air",
            house_cable=laid == "house_cable",
            in_insulation=laid == "insulation",
            edition=self.edition,
        )

    def counted_conductors(
        self, poles: Iterable[Pole], *, neutral_nonlinear: bool = False
    ) -> Sourced[int]:
        """See Family (400.5)."""
        return cords.counted_conductors(
            poles, neutral_nonlinear=neutral_nonlinear, edition=self.edition
        )

    def terminal_temperature(
        self, size: str, device_a: float | None, marked_c: int | None = None
    ) -> Sourced[int]:
        """See Family (110.14(C))."""
        return ampacity.terminal_temperature(size, device_a, marked_c, self.edition)

    def largest_device(
        self,
        ampacity: Worked[float] | Sourced[float],
        size: str,
        material: str = "copper",
        *,
        device: Literal["breaker", "fuse"] = "breaker",
        several_outlets: bool = False,
    ) -> Worked[float]:
        """See Family (240.4)."""
        return protection.largest_device(
            ampacity,
            size,
            material,
            device=device,
            several_outlets=several_outlets,
            edition=self.edition,
        )

    def small_conductor_limit(self, size: str, material: str = "copper") -> Sourced[float] | None:
        """See Family (240.4(D))."""
        return protection.small_conductor_limit(size, material, self.edition)

    def cord_device(self, size: str, ampacity_a: float) -> Sourced[float] | None:
        """See Family (240.5(B))."""
        return allowances.cord_device(size, ampacity_a, self.edition)

    def parallel(self, size: str, number: int) -> Sourced[float] | None:
        """See Family (310.10(G))."""
        return allowances.parallel(size, number, self.edition)

    def standard_up(
        self, amps: float, device: Literal["breaker", "fuse"] = "breaker"
    ) -> Sourced[float]:
        """See Family (240.6(A))."""
        return protection.standard_up(amps, device, self.edition)

    def design_current(
        self, steady_a: float, continuous_a: float, *, full_rated: bool = False
    ) -> Worked[float]:
        """See Family (210.20(A), 215.3)."""
        return protection.design_current(
            steady_a, continuous_a, full_rated=full_rated, edition=self.edition
        )

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
        """See Family (250.122)."""
        return grounding.ground_wire(
            device_a,
            circuit_size,
            minimum_size=minimum_size,
            minimum_cool=minimum_cool,
            material=material,
            circuit_material=circuit_material,
            edition=self.edition,
        )

    def bonding_jumper(
        self,
        largest_ungrounded: str,
        material: str = "copper",
        *,
        jumper_material: str = "copper",
        source_va: float | None = None,
    ) -> GroundNeed:
        """See Family (250.102(C)(1))."""
        return grounding.bonding_jumper(
            largest_ungrounded,
            material,
            jumper_material=jumper_material,
            source_va=source_va,
            edition=self.edition,
        )

    def electrode_conductor(
        self,
        largest_ungrounded: str,
        material: str = "copper",
        *,
        own_material: str = "copper",
        to_rod: bool = False,
    ) -> Sourced[str]:
        """See Family (250.66)."""
        return grounding.electrode_conductor(
            largest_ungrounded,
            material,
            own_material=own_material,
            to_rod=to_rod,
            edition=self.edition,
        )

    def vehicle_bond(self) -> Sourced[str]:
        """See Family (551.56(C))."""
        return grounding.vehicle_bond(self.edition)

    def battery_bond(self, battery_lead: str | None) -> GroundNeed:
        """See Family (552.10(C)(4))."""
        return grounding.battery_bond(battery_lead, self.edition)

    def case_bond_afloat(self, plus: str) -> GroundNeed:
        """See Family (ABYC E-11)."""
        return grounding.case_bond_afloat(plus)

    def low_voltage_device(self, size: str) -> Sourced[float]:
        """See Family (table 552.10(E)(1))."""
        return low_voltage.low_voltage_device(size, self.edition)

    def device_distance_m(
        self,
        place: str,
        connected_to: Literal["battery", "other source"] = "battery",
        *,
        sheathed: bool = False,
    ) -> Sourced[float]:
        """See Family (552.10(E)(4); ABYC E-11)."""
        return low_voltage.device_distance_m(place, connected_to, sheathed=sheathed)

    def receptacle_allowed(
        self, circuit_a: float, receptacle_a: float, contact_sets: int
    ) -> Allowed:
        """See Family (210.21(B))."""
        return receptacles.receptacle_allowed(circuit_a, receptacle_a, contact_sets, self.edition)

    def ground_fault_protection(
        self, place: str, area: str, volts: float, amps: float
    ) -> Sourced[bool]:
        """See Family (210.8, 551.41(C), afloat ABYC E-11)."""
        return gfci_places.ground_fault_protection(place, area, volts, amps, self.edition)

    def arc_fault_protection(
        self, place: str, area: str, volts: float, amps: float
    ) -> Sourced[bool]:
        """See Family (210.12)."""
        return gfci_places.arc_fault_protection(place, area, volts, amps, self.edition)

    def motor_device(
        self, current: Sourced[float], kind: motors.DeviceKind = "inverse time breaker"
    ) -> Worked[float]:
        """See Family (430.52)."""
        return motors.motor_device(current, kind, edition=self.edition)

    def transformer_device(self, side: WindingSide, rated_a: float) -> Sourced[float]:
        """See Family (450.3(B))."""
        return transformers.transformer_device(side, rated_a, self.edition)

    def device_afloat(self, ampacity: Sourced[float]) -> Sourced[float]:
        """See Family (ABYC E-11)."""
        return low_voltage.marine_largest_device(ampacity)

    def battery_interrupting(self, cranking_a: float, *, main: bool) -> Sourced[float]:
        """See Family (ABYC E-11)."""
        return low_voltage.battery_interrupting(cranking_a, main=main)

    def outlet_guards(self) -> tuple[str, ...]:
        """See Family: class A devices alone (UL 943)."""
        return ("class_a",)

    def set_outlet_protection(self, volts: float, amps: float, set_va: float) -> Sourced[bool]:
        """See Family (445.20(B))."""
        return allowances.set_outlet_protection(volts, amps, set_va, self.edition)

    def taps(self) -> tuple[tuple[Sourced[float], Sourced[float]], ...]:
        """See Family (240.21(B))."""
        return allowances.taps(self.edition)

    def dwelling_service(self, device_a: float) -> Sourced[float] | None:
        """See Family (310.12)."""
        return allowances.dwelling_service(device_a, self.edition)

    def conductor_area_in2(self, size: str, insulation: str) -> Sourced[float]:
        """See Family (chapter 9 table 5)."""
        return fill.conductor_area_in2(size, insulation, self.edition)

    def raceway_fill(self, conductors: int) -> Sourced[float]:
        """See Family (chapter 9 table 1)."""
        return fill.raceway_fill(conductors, self.edition)

    def raceway_room_in2(self, raceway: str, trade_size: str, conductors: int) -> Sourced[float]:
        """See Family (chapter 9 tables 1 and 4)."""
        return fill.raceway_room_in2(raceway, trade_size, conductors, self.edition)

    def box_volume_in3(self, kind: str, trade_size: str) -> Sourced[float]:
        """See Family (table 314.16(A))."""
        return fill.box_volume_in3(kind, trade_size, self.edition)

    def box_fill_in3(
        self,
        conductors: Mapping[str, int],
        *,
        grounds: Sequence[str] = (),
        yokes: Sequence[str] = (),
        clamps: bool = False,
    ) -> float:
        """See Family (314.16(B))."""
        return fill.box_fill_in3(
            conductors, grounds=grounds, yokes=yokes, clamps=clamps, edition=self.edition
        )

    def room_before_boards(self, aboard: bool) -> Sourced[str]:
        """See Family (110.26(A), 551.45(B))."""
        return limits.room_before_boards(aboard, self.edition)

    def appliance_device(self, amps: float) -> Sourced[float]:
        """See Family (422.11(E))."""
        return protection.appliance_device(amps, self.edition)

    def standards(self, place: str) -> str:
        """See Family: watercraft are outside the scope of NFPA 70 (90.2), whose tables are used
        where the marine standards have none."""
        return "ABYC E-11, 33 CFR 183" if place == "boat" else self.title

    def cord_mark(self, size: str, length_m: float) -> Sourced[float] | None:
        """See Family."""
        return cords.cord_mark(size, length_m)

    def vehicle_cord(self, inlet_a: float) -> None:
        """See Family: their ampacity decides (551.46)."""

    def motor_factor(self, of: MotorFactor) -> Sourced[float]:
        """See Family (430.22, 440.22(A), 630.12(B))."""
        if of == "wires":
            return motors.conductor_factor(self.edition)
        return allowances.limit(f"{of}_device", self.edition)

    def disconnect_afloat(self, of: Literal["cranking", "capacity"]) -> Sourced[float]:
        """See Family (ABYC E-11)."""
        return allowances.limit(f"battery_{of}_afloat", self.edition)

    def disconnect_from(self, of: Literal["voltage", "energy"]) -> Sourced[float]:
        """See Family (480.7, 706)."""
        key = "battery_voltage" if of == "voltage" else "storage_energy"
        return allowances.limit(key, self.edition)

    def touch_limit_v(self, dc: bool, wet: bool) -> Sourced[float]:
        """See Family; NFPA 70 has no such limit: practice, taken from IEC 60364-4-41."""
        return touch_limit_v(dc, wet)

    def disconnection_s(
        self, to_ground_v: float, *, dc: bool = False, system: System = "TN", final: bool = True
    ) -> Sourced[float]:
        """See Family; NFPA 70 has no times: practice, taken from IEC 60364-4-41 table 41.1."""
        found = disconnection_s(to_ground_v, dc=dc, system=system, final=final)
        return replace(found, clause=f"{found.clause}; taken as practice")

    def clearing_multiple(self) -> Sourced[float]:
        """See Family: 2."""
        return limits.clearing_multiple(self.edition)

    def quick_multiple(self) -> Sourced[float]:
        """See Family: 5, common practice."""
        return limits.quick_multiple(self.edition)

    def drop_advice(self, part: limits.DropPart) -> Sourced[float]:
        """See Family (informational notes)."""
        return limits.drop_advice(part, self.edition)

    def leakage_afloat_ma(self) -> Sourced[float]:
        """See Family (ABYC E-11)."""
        return stated("na", "leakage_afloat", self.edition)

    def inlet_distance_m(self) -> Sourced[float]:
        """See Family (ABYC E-11)."""
        return stated("na", "inlet_distance", self.edition)

    def drop_afloat(self, critical: bool) -> Sourced[float]:
        """See Family (ABYC E-11)."""
        return limits.marine_drop_limit(critical, self.edition)

    def drop_constant_afloat(self) -> Sourced[float]:
        """See Family (ABYC E-11)."""
        return low_voltage.marine_constant()

    def demands(self) -> demand.Demand220:
        """See Family (articles 220, 430 and 551)."""
        return demand.Demand220(self.edition)


def _copper_only(material: str) -> None:
    if material not in ("copper", "tinned copper"):
        raise CodesError(
            say(
                "the tables for cords and for boats hold for copper, not for {metal}",
                metal=material,
            )
        )
