"""What a rule may ask a family of standards, each question named in words."""

from __future__ import annotations

from collections.abc import Mapping

from linework.words import N_

QUESTIONS: Mapping[str, str] = {
    "ampacity": N_("the current that conductors may carry"),
    "counted_conductors": N_("which conductors of a cord count"),
    "terminal_temperature": N_("the temperature of terminals"),
    "largest_device": N_("the largest device before a conductor"),
    "small_conductor_limit": N_("devices before small conductors"),
    "cord_device": N_("devices before cords"),
    "appliance_device": N_("devices before single appliances"),
    "cord_mark": N_("what long cords are marked for"),
    "vehicle_cord": N_("the cords of vehicles"),
    "parallel": N_("conductors in parallel"),
    "standard_up": N_("standard ratings of devices"),
    "design_current": N_("loads that run for hours"),
    "ground_wire": N_("protective conductors"),
    "bonding_jumper": N_("links between neutral and protective conductor"),
    "electrode_conductor": N_("conductors to electrodes"),
    "vehicle_bond": N_("bonding conductors of vehicles"),
    "battery_bond": N_("bonding conductors of batteries"),
    "case_bond_afloat": N_("ground wires of direct-current parts afloat"),
    "low_voltage_device": N_("devices of low-voltage circuits in vehicles"),
    "device_distance_m": N_("how far from its source a device may lie"),
    "battery_interrupting": N_("what devices at a battery afloat must break"),
    "device_afloat": N_("the largest device afloat"),
    "receptacle_allowed": N_("which outlet belongs on which circuit"),
    "ground_fault_protection": N_("where outlets need ground-fault protection"),
    "arc_fault_protection": N_("where circuits need arc-fault protection"),
    "outlet_guards": N_("which ground-fault devices protect an outlet"),
    "set_outlet_protection": N_("ground-fault protection that portable sets come with"),
    "motor_device": N_("devices of motors"),
    "transformer_device": N_("devices of transformers"),
    "motor_factor": N_("wires of motors, devices of welders and sealed compressors"),
    "disconnect_afloat": N_("batteries afloat that need a switch"),
    "disconnect_from": N_("batteries that need a disconnect"),
    "quick_multiple": N_("breakers that are quick"),
    "clearing_multiple": N_("fault currents that open no device"),
    "drop_advice": N_("voltage drop"),
    "leakage_afloat_ma": N_("leakage devices at the inlets of boats"),
    "inlet_distance_m": N_("how far from a boat's inlet its first devices may lie"),
    "drop_afloat": N_("voltage drop afloat"),
    "drop_constant_afloat": N_("the sizing of wires afloat"),
    "conductor_area_in2": N_("the thickness of insulated wires"),
    "raceway_fill": N_("how full a raceway may be"),
    "raceway_room_in2": N_("the room in raceways"),
    "box_volume_in3": N_("the volume of boxes"),
    "box_fill_in3": N_("the room that wires take in boxes"),
    "room_before_boards": N_("the room before boards"),
    "taps": N_("thin conductors that end in a single device"),
    "dwelling_service": N_("the service of a dwelling"),
    "demands": N_("how loads are added up"),
}
"""The methods of :class:`linework.codes.families.Family` that a family may leave unanswered."""
