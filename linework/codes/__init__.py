"""What the standards say: tables and limits, each value with its source.

**Values** (``value``). ``Sourced``: value, unit, clause, row, edition, confidence, source, note,
``confirmed``. ``Worked``: value, unit, ``steps`` (what, effect, figure, result, decides),
``confirmed``, ``decided_by``, ``clause``. ``CodesError`` (a ValueError): the tables have no answer,
a rule says "not checked because ...".

**By family** (``family(key="NA", edition="2023") -> Family``), see ``Family`` for all arguments:
``ampacity(size, material, insulation_c, *, laid, ambient_c, grouped, terminal_c, place, dc_v)``,
``counted_conductors(poles)``, ``terminal_temperature(size, device_a, marked_c)``,
``largest_device(ampacity, size, material, *, device, several_outlets)``, ``standard_up(amps)``,
``design_current(steady_a, continuous_a)``, ``ground_wire(device_a, circuit_size, *,
minimum_size)``, ``bonding_jumper(largest_ungrounded)``, ``electrode_conductor(...)``,
``vehicle_bond()``, ``battery_bond(battery_lead)``, ``low_voltage_device(size)``,
``device_distance_m(place, connected_to, *, sheathed)``, ``receptacle_allowed(circuit_a,
receptacle_a, contact_sets)``, ``motor_device(current, kind)``,
``touch_limit_v(dc, wet)``, ``disconnection_s(to_ground_v, *, dc, system, final)``,
``clearing_multiple()``, ``quick_multiple()``, ``drop_advice(part)``, ``cite(clause)``, ``title``.

**Of any family.** Sizes: ``size_of(text) -> Size(text, cmil, area_mm2)``, ``circular_mils``,
``area_mm2``, ``standard_sizes()``, ``size_not_below(cmil)``, ``metric_not_below(cmil)``.
Conductors: ``resistance(size, material, stranding, temperature_c)``, ``reactance(size, raceway,
frequency_hz)``, ``resistance_from_geometry``, ``effective_impedance``, ``drop_constant``,
``area_for_drop_cmil``, ``HOT_C``,
``COLD_C``. Energy: ``k_factor(material, initial_c, final_c)``, ``withstand_a2s(size, ...)``,
``least_area_mm2``, ``tabulated_k``, ``insulation_type(name)``, ``limit_temperature_c(family)``.
Devices: ``trip_band(curve, rating_a, *, magnetic_a, speed) -> TripBand`` (``opens_by_s``,
``may_open_s``, ``opens_by``), ``maker_band``,
``practice_fast_a``, ``interrupting_rating(curve, kind, system_v)``, ``is_made(curve, amps)``,
``made_below(curve, amps, least)``, ``ground_fault_device(style)
-> ResidualDevice`` (``opens_by_s``, ``senses_link``). Plugs: ``configuration(name)``,
``configurations()``, ``mates(plug, outlet) -> Mating``, ``outlets_for``, ``plugs_for``.
Instruments: ``lamp_of_tester(system_v) -> LampModel``, ``ground_fault_button_ohm()``.
Limits: ``touch_limit_v``, ``disconnection_s``, ``person_ohm``. ``source_titles()``: what the codes
S01 ... in ``source`` stand for.

What only one family knows (fill of boxes and raceways, marine tables,
clause list) is in its folder, ``codes.na``.
"""

from linework.codes.adiabatic import (
    insulation_type,
    k_factor,
    least_area_mm2,
    limit_temperature_c,
    tabulated_k,
    withstand_a2s,
)
from linework.codes.answers import Allowed, GroundNeed
from linework.codes.catalogue import is_made, made_below
from linework.codes.choose import family, family_of
from linework.codes.conductors import (
    COLD_C,
    HOT_C,
    area_for_drop_cmil,
    drop_constant,
    effective_impedance,
    reactance,
    resistance,
    resistance_from_geometry,
)
from linework.codes.errors import CodesError
from linework.codes.families import Family
from linework.codes.interrupting import interrupting_rating
from linework.codes.materials import Material, material_of
from linework.codes.plugs import (
    Configuration,
    Fit,
    Mating,
    configuration,
    configurations,
    mates,
    outlets_for,
    plugs_for,
)
from linework.codes.residual import ResidualDevice, ground_fault_device
from linework.codes.sizes import (
    Size,
    area_mm2,
    circular_mils,
    metric_not_below,
    size_not_below,
    size_of,
    standard_sizes,
)
from linework.codes.stated import stated
from linework.codes.tables import source_titles
from linework.codes.tester import LampModel, ground_fault_button_ohm, lamp_of_tester
from linework.codes.touch import disconnection_s, person_ohm, touch_limit_v
from linework.codes.trip import CURVES, TripBand, maker_band, practice_fast_a, trip_band
from linework.codes.value import Sourced, Step, Worked

__all__ = [
    "COLD_C",
    "CURVES",
    "HOT_C",
    "Allowed",
    "CodesError",
    "Configuration",
    "Family",
    "Fit",
    "GroundNeed",
    "LampModel",
    "Material",
    "Mating",
    "ResidualDevice",
    "Size",
    "Sourced",
    "Step",
    "TripBand",
    "Worked",
    "area_for_drop_cmil",
    "area_mm2",
    "circular_mils",
    "configuration",
    "configurations",
    "disconnection_s",
    "drop_constant",
    "effective_impedance",
    "family",
    "family_of",
    "ground_fault_button_ohm",
    "ground_fault_device",
    "insulation_type",
    "interrupting_rating",
    "is_made",
    "k_factor",
    "lamp_of_tester",
    "least_area_mm2",
    "limit_temperature_c",
    "made_below",
    "maker_band",
    "material_of",
    "mates",
    "metric_not_below",
    "outlets_for",
    "person_ohm",
    "plugs_for",
    "practice_fast_a",
    "reactance",
    "resistance",
    "resistance_from_geometry",
    "size_not_below",
    "size_of",
    "source_titles",
    "standard_sizes",
    "stated",
    "tabulated_k",
    "touch_limit_v",
    "trip_band",
    "withstand_a2s",
]
