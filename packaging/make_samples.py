"""Writes the files of samples/: run it from the checkout after a sample's design changed.

The scenarios are our own inventions. Positions are tenths of a paper millimetre.
"""

from __future__ import annotations

import sys
from pathlib import Path

from linework.design import Draft
from linework.kinds import Band
from linework.sheet.arranging import lay_out
from linework.storage import save

sys.path.insert(0, str(Path(__file__).resolve().parent))
from mountain_hut import hut, hut_as_sketched
from sample_habits import hut_with_habits, trailer_with_habits

FOLDER = Path(__file__).resolve().parent.parent / "samples"


def trailer() -> Draft:
    """A travelling vaccination trailer: shore, generator, solar, lithium bank, inverter-charger."""
    d = Draft(
        job="Travelling vaccination trailer",
        site="Trailer VX-1",
        place="vehicle",
        sheet="A3",
        drawn_by="",
        revision="A",
    )
    _sources(d)
    _boards(d)
    _battery(d)
    _roof(d)
    _loads(d)
    _grounding(d)
    return d


def _sources(d: Draft) -> None:
    d.part("supply", "GS1", "shore", breaker="30 A", neutral="bonded")
    d.part("outlet", "XD1", configuration="TT-30")
    d.seat("XD1", "GS1", "1")
    d.part("plug", "XP1", "shore cord", configuration="TT-30")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", "shore inlet", configuration="TT-30")
    d.part(
        "generator",
        "G1",
        "generator",
        power="5 kVA",
        excitation="own",
        neutral="bonded",
        bond_allowed="yes",
    )
    d.part("breaker", "QF1", rating="20 A", interrupting="5 kA")
    d.part("outlet", "XD2", "tools", configuration="5-20", ground_fault="class_a")
    d.part("breaker", "QF2", rating="30 A", interrupting="5 kA")
    d.part("outlet", "XD3", configuration="L5-30")
    d.seat("QF1", "G1", "1")
    d.seat("XD2", "QF1", "load")
    d.seat("QF2", "G1", "2")
    d.seat("XD3", "QF2", "load")
    d.part("plug", "XP2", "generator cord", configuration="L5-30")
    d.seat("XP2", "XD3", "face")
    d.part(
        "inlet",
        "XI2",
        "generator inlet",
        configuration="L5-30",
        expects="bonded",
    )
    cord = {"size": "10 AWG", "installation": "cord"}
    d.run("XP1.cord", "XI1.outside", "W1", length="25 ft", **cord)
    d.run("XP2.cord", "XI2.outside", "W2", length="25 ft", **cord)


def _boards(d: Draft) -> None:
    d.part(
        "transfer_switch",
        "QT1",
        rating="30 A",
        poles="all",
        first="shore",
        second="generator",
    )
    d.run("XI1.inside", "QT1.in1", "W3", size="10 AWG", length="4 ft")
    d.run("XI2.inside", "QT1.in2", "W4", size="10 AWG", length="6 ft")
    d.part(
        "panel",
        "QP1",
        "main board",
        main="30 A",
        bus="60 A",
        bond="absent",
        places="4",
    )
    d.run("QT1.load", "QP1.feed", "W5", size="10 AWG", length="3 ft")
    d.part(
        "inverter_charger",
        "TB1",
        "inverter-charger",
        power="2 kVA",
        dc_voltage="12 V",
        charge="60 A",
        neutral="relay",
        bond_allowed="no",
        neutral_through="switched",
        transfer="30 A",
    )
    d.part("panel", "QP2", "vaccine board", bus="60 A", bond="absent", places="4")
    d.part("breaker", "QF3", rating="20 A", interrupting="10 kA")
    d.part("breaker", "QF4", rating="20 A", interrupting="10 kA")
    d.seat("QF3", "QP1", "1")
    d.seat("QF4", "QP1", "2")
    d.run("QF4.load", "TB1.ac_in", "W7", size="10 AWG", length="6 ft")
    d.run("TB1.ac_out", "QP2.feed", "W8", size="12 AWG", length="4 ft")


def _battery(d: Draft) -> None:
    d.part(
        "battery",
        "GB1",
        voltage="12 V",
        capacity="300 Ah",
        chemistry="lithium",
        fault_current=Band("4 kA", "7 kA", "12 kA"),
    )
    d.part("fuse", "F1", rating="300 A", type="class_t", interrupting="20 kA")
    d.part("battery_disconnect", "QB1", rating="300 A", voltage="48 V")
    lead = {"size": "4/0 AWG", "terminals": "75", "insulation": "90"}
    d.run("GB1.dc", "F1.line", "W10", length="0.6 ft", **lead)
    d.run("F1.load", "QB1.line", "W18", length="1 ft", **lead)
    d.run("QB1.load", "TB1.dc", "W11", length="4 ft", **lead)
    d.part("fuse", "F2", rating="30 A", type="class_t", interrupting="20 kA")
    d.run("QB1.load", "F2.line", "W12", size="6 AWG", length="1 ft")
    d.part(
        "panel",
        "QP3",
        "12 V board",
        circuit="dc",
        voltage="12 V",
        bus="100 A",
        places="4",
        bond="absent",
    )
    d.run("F2.load", "QP3.feed", "W13", size="10 AWG", length="12 ft")
    d.part("fuse", "F3", rating="10 A", type="ato", interrupting="1 kA")
    d.part("fuse", "F4", rating="10 A", type="ato", interrupting="1 kA")
    d.seat("F3", "QP3", "1")
    d.seat("F4", "QP3", "2")


def _roof(d: Draft) -> None:
    """Two modules in series on the roof, their switch, the controller and its fuse at the bank."""
    d.part(
        "solar_array",
        "GP1",
        "roof",
        power="200 W",
        voc="24.3 V",
        isc="10.4 A",
        vmp="20.4 V",
        imp="9.8 A",
        voc_per_degree="-0.29 %",
        series="2",
        strings="1",
        coldest="-30 degC",
    )
    d.part(
        "isolator",
        "QB2",
        circuit="dc",
        rating="32 A",
        poles="all",
        voltage="150 V",
        direct="yes",
    )
    d.part(
        "solar_controller",
        "TC1",
        type="mppt",
        current="30 A",
        dc_voltage="12 V",
        pv_voltage="100 V",
        pv_current="35 A",
    )
    d.part("fuse", "F5", rating="40 A", type="class_t", interrupting="20 kA")
    roof = {"size": "10 AWG", "insulation": "90", "ambient": "50 degC"}
    d.run("GP1.dc", "QB2.line", "W24", length="12 ft", **roof)
    d.run("QB2.load", "TC1.pv", "W25", length="2 ft", **roof)
    d.run("TC1.dc", "F5.load", "W26", size="6 AWG", length="4 ft")
    d.run("F5.line", "QB1.load", "W27", size="6 AWG", length="1 ft")


def _loads(d: Draft) -> None:
    d.part(
        "motor",
        "MA1",
        "air conditioner",
        power="1300 W",
        power_factor="0.9",
        start_current="45 A",
        duty="hermetic",
        least_ampacity="15 A",
        largest_device="25 A",
    )
    d.run("QF3.load", "MA1.in", "W6", size="12 AWG", length="14 ft")
    d.part("breaker", "QF5", rating="15 A", interrupting="10 kA")
    d.part("breaker", "QF6", rating="20 A", ground_fault="class_a", interrupting="10 kA")
    d.seat("QF5", "QP2", "1")
    d.seat("QF6", "QP2", "2")
    d.part("load", "EA1", "vaccine refrigerator", power="250 W", power_factor="0.85")
    d.run("QF5.load", "EA1.in", "W14", size="14 AWG", length="12 ft")
    d.part("outlet", "XD4", "bench outlets", configuration="5-20")
    d.run("QF6.load", "XD4.feed", "W15", size="12 AWG", length="16 ft")
    d.part(
        "plug_load",
        "EP1",
        "laptops",
        power="180 W",
        power_factor="0.95",
        configuration="5-15",
        case="insulated",
    )
    d.seat("EP1", "XD4", "face")
    dc = {"circuit": "dc", "voltage": "12 V"}
    d.part("lamp", "EL1", "cabin lights", power="60 W", **dc)
    d.part("motor", "MA2", "fans", power="48 W", start_current="8 A", **dc)
    d.run("F3.load", "EL1.in", "W16", size="12 AWG", length="10 ft")
    d.run("F4.load", "MA2.in", "W17", size="12 AWG", length="10 ft")


def _grounding(d: Draft) -> None:
    d.part("body", "XB1", "trailer frame", name="trailer frame")
    jumper = {"size": "8 AWG", "installation": "jumper"}
    d.run("QP1.ground", "XB1.tie", "W20", length="3 ft", **jumper)
    d.run("TB1.case", "XB1.tie", "W21", length="3 ft", **jumper)
    d.run("G1.frame", "XB1.tie", "W22", length="4 ft", **jumper)
    d.part("body", "XB2", name="trailer frame")
    d.run("GP1.frame", "XB2.tie", "W28", length="3 ft", **jumper)
    d.run("TC1.case", "XB2.tie", "W29", length="3 ft", **jumper)
    d.run(
        "GB1.dc",
        "XB1.tie",
        "W23",
        poles="->body",
        size="4/0 AWG",
        length="2 ft",
        installation="jumper",
    )


def trailer_as_sketched() -> Draft:
    """The same trailer as it was first sketched, with its mistakes."""
    d = Draft(
        job="Travelling vaccination trailer, as first sketched",
        site="Trailer VX-1",
        place="vehicle",
        sheet="A3",
        revision="0",
    )
    _sources(d)
    _boards(d)
    _battery(d)
    _roof(d)
    _loads(d)
    _grounding(d)
    # grounding and bonding: a link left in the main board, no wire from the frame to the boards
    # and sets, no ground wire to the refrigerator, a floating inverter
    d.rate("QP1", bond="fitted")
    d.cut("W20", "W21", "W22")
    d.run_poles("W14", "L N")
    d.rate("TB1", neutral="floating", bond_allowed="unknown")
    # sources and switching: the wrong shore plug, one inlet joined past the transfer switch
    d.rate("XP1", configuration="5-15")
    d.cut("W4")
    d.run("XI2.inside", "QP1.feed", "W4", size="10 AWG", length="6 ft")
    # overcurrent: thin wire to the bench outlets, no fuse before the 12 V board, a fuse at the
    # bank that cannot break its current
    d.rate_run("W15", size="14 AWG")
    d.cut("W12", "W13")
    d.remove("F2")
    d.run("GB1.dc", "QP3.feed", "W13", size="10 AWG", length="12 ft")
    d.rate("F1", type="mega", interrupting=None)
    # and a 24 V lamp
    d.rate("EL1", voltage="24 V")
    return d


def bee_trailer() -> Draft:
    """A beekeeper's trailer on 12 V alone: one module, one battery, a fuse board."""
    d = Draft(
        job="Beekeeper's trailer, 12 V",
        site="Trailer B-2",
        place="vehicle",
        sheet="A4",
        revision="A",
    )
    d.part(
        "battery",
        "GB1",
        voltage="12 V",
        capacity="100 Ah",
        chemistry="agm",
        fault_current=Band("2 kA", "3 kA", "4 kA"),
    )
    d.part("fuse", "F1", rating="50 A", type="mrbf", voltage="14 V", interrupting="10 kA")
    d.seat("F1", "GB1", "post")
    d.part("battery_disconnect", "QB1", rating="100 A", voltage="32 V")
    d.run("F1.load", "QB1.line", "W3", size="6 AWG", length="1 ft")
    d.part(
        "panel",
        "QP1",
        "12 V board",
        circuit="dc",
        voltage="12 V",
        bus="50 A",
        places="4",
        bond="absent",
    )
    d.run("QB1.load", "QP1.feed", "W4", size="8 AWG", length="13 ft")
    for number, amps in ((2, "5 A"), (3, "10 A"), (4, "10 A")):
        d.part("fuse", f"F{number}", rating=amps, type="ato", voltage="32 V", interrupting="1 kA")
        d.seat(f"F{number}", "QP1", str(number - 1))
    dc = {"circuit": "dc", "voltage": "12 V"}
    d.part("lamp", "EL1", "lights", power="24 W", **dc)
    d.part("motor", "MA1", "pump", power="72 W", start_current="25 A", **dc)
    d.part("load", "EA1", "cool box", power="60 W", continuous="yes", **dc)
    for number, load in ((2, "EL1"), (3, "MA1"), (4, "EA1")):
        d.run(f"F{number}.load", f"{load}.in", f"W{number + 4}", size="10 AWG", length="10 ft")
    d.part("body", "XB1", name="trailer frame")
    tie = {"size": "6 AWG", "installation": "jumper"}
    d.run("GB1.dc", "XB1.tie", "W10", poles="->body", length="2 ft", **tie)
    _bee_roof(d)
    return d


def _bee_roof(d: Draft) -> None:
    d.part(
        "solar_array",
        "GP1",
        "roof",
        power="100 W",
        voc="22.5 V",
        isc="6.1 A",
        vmp="18.5 V",
        imp="5.4 A",
        voc_per_degree="-0.3 %",
        series="1",
        strings="1",
        coldest="-20 degC",
    )
    d.part(
        "isolator",
        "QB2",
        circuit="dc",
        rating="16 A",
        poles="all",
        voltage="60 V",
        direct="yes",
    )
    d.part(
        "solar_controller",
        "TC1",
        type="pwm",
        current="10 A",
        dc_voltage="12 V",
        pv_voltage="50 V",
        pv_current="10 A",
        efficiency="98 %",
    )
    d.part("fuse", "F5", rating="15 A", type="class_t", interrupting="20 kA")
    d.run("GP1.dc", "QB2.line", "W1", size="12 AWG", length="10 ft")
    d.run("QB2.load", "TC1.pv", "W2", size="12 AWG", length="2 ft")
    d.run("TC1.dc", "F5.load", "W11", size="12 AWG", length="3 ft")
    d.run("F5.line", "QB1.load", "W12", size="12 AWG", length="1 ft")


def weather_station() -> Draft:
    """A weather station on skids: two modules, a bank of 24 V, bars, a small inverter."""
    d = Draft(
        job="Weather station on skids",
        site="Upper pass, skid 3",
        place="field",
        sheet="A3",
        revision="A",
    )
    _station_sun(d)
    _station_bank(d)
    _station_loads(d)
    d.part("body", "XB1", name="skid frame")
    d.part("electrode", "XE1", resistance="40 ohm")
    jumper = {"size": "6 AWG", "installation": "jumper"}
    d.run("XB1.tie", "XE1.ground", "W30", length="10 ft", **jumper)
    d.run("TB1.case", "XB1.tie", "W31", length="3 ft", **jumper)
    d.run("TC1.case", "XB1.tie", "W32", length="4 ft", **jumper)
    d.run("GP1.frame", "TC1.case", "W33", length="14 ft", **jumper)
    tie = {"size": "2 AWG", "installation": "jumper", "length": "2 ft"}
    d.run("WC2.4", "XB1.tie", "W34", poles="->body", **tie)
    return d


def _station_sun(d: Draft) -> None:
    d.part(
        "solar_array",
        "GP1",
        "south rail",
        power="250 W",
        voc="37.6 V",
        isc="8.8 A",
        vmp="30.4 V",
        imp="8.2 A",
        voc_per_degree="-0.32 %",
        series="2",
        strings="1",
        coldest="-35 degC",
    )
    d.part(
        "isolator",
        "QB2",
        circuit="dc",
        rating="16 A",
        poles="all",
        voltage="150 V",
        direct="yes",
    )
    d.part(
        "solar_controller",
        "TC1",
        type="mppt",
        current="20 A",
        dc_voltage="24 V",
        pv_voltage="100 V",
        pv_current="20 A",
    )
    rail = {"size": "10 AWG", "insulation": "90", "ambient": "40 degC"}
    d.run("GP1.dc", "QB2.line", "W1", length="12 ft", **rail)
    d.run("QB2.load", "TC1.pv", "W2", length="2 ft", **rail)


def _station_bank(d: Draft) -> None:
    d.part(
        "battery",
        "GB1",
        voltage="24 V",
        capacity="200 Ah",
        chemistry="agm",
        fault_current=Band("2 kA", "3 kA", "4 kA"),
    )
    d.part("fuse", "F1", rating="100 A", type="class_t", interrupting="20 kA")
    d.part("battery_disconnect", "QB1", rating="150 A", voltage="48 V")
    lead = {"size": "2 AWG", "terminals": "75", "insulation": "90"}
    d.run("GB1.dc", "F1.line", "W3", length="1 ft", **lead)
    d.run("F1.load", "QB1.line", "W4", length="1 ft", **lead)
    d.part("busbar", "WC1", "plus", bar="plus", rating="150 A", taps="3")
    d.part("busbar", "WC2", "minus", bar="minus", rating="150 A", taps="4")
    d.run("QB1.load", "WC1.feed", "W5", length="0.5 ft", **lead)
    d.run("QB1.load", "WC2.feed", "W6", length="0.5 ft", **lead)
    for number, amps in ((2, "30 A"), (3, "50 A"), (4, "30 A")):
        d.part(
            "fuse",
            f"F{number}",
            rating=amps,
            type="class_t",
            interrupting="20 kA",
        )
        tap = str(number - 1)
        d.run(f"WC1.{tap}", f"F{number}.line", f"W{number + 5}", size="6 AWG", length="0.5 ft")


def _station_loads(d: Draft) -> None:
    d.run("TC1.dc", "F2.load", "W10", poles="+", size="10 AWG", length="4 ft")
    d.run("TC1.dc", "WC2.1", "W11", poles="-", size="10 AWG", length="4 ft")
    d.part("inverter", "TB1", "inverter", power="600 VA", dc_voltage="24 V")
    d.rate("TB1", neutral="bonded", bond_allowed="yes")
    d.run("F3.load", "TB1.dc", "W12", poles="+", size="6 AWG", length="4 ft")
    d.run("WC2.2", "TB1.dc", "W13", size="6 AWG", length="4 ft")
    d.part("outlet", "XD1", configuration="5-15")
    d.rate("XD1", ground_fault="class_a", duplex="1")
    d.part("plug_load", "EP1", "laptop", power="90 W", configuration="5-15")
    d.rate("EP1", power_factor="0.95", case="insulated")
    d.seat("EP1", "XD1", "face")
    d.run("TB1.ac_out", "XD1.feed", "W14", size="14 AWG", length="6 ft")
    d.part(
        "panel",
        "QP1",
        "24 V board",
        circuit="dc",
        voltage="24 V",
        bus="50 A",
        places="3",
        bond="absent",
    )
    d.run("F4.load", "QP1.feed", "W15", poles="+", size="10 AWG", length="17 ft")
    d.run("WC2.3", "QP1.feed", "W16", size="10 AWG", length="17 ft")
    dc = {"circuit": "dc", "voltage": "24 V", "continuous": "yes"}
    loads = (("EA1", "data logger", "12 W"), ("EA2", "radio", "30 W"), ("EA3", "sensors", "80 W"))
    for place, (name, title, watts) in enumerate(loads, start=1):
        fuse = f"F{place + 4}"
        d.part("fuse", fuse, rating="7.5 A", type="ato", voltage="32 V", interrupting="1 kA")
        d.seat(fuse, "QP1", str(place))
        d.part("load", name, title, power=watts, **dc)
        d.run(f"{fuse}.load", f"{name}.in", f"W{place + 20}", size="14 AWG", length="12 ft")


def main() -> None:
    """Write every sample, its parts where the program arranges them."""
    made = {
        "vaccination-trailer": trailer_with_habits(trailer()),
        "vaccination-trailer-as-sketched": trailer_as_sketched(),
        "beekeepers-trailer": bee_trailer(),
        "weather-station": weather_station(),
        "mountain-hut": hut_with_habits(hut()),
        "mountain-hut-as-sketched": hut_as_sketched(),
    }
    for name, draft in made.items():
        save(lay_out(draft.design), FOLDER / f"{name}.linework")


if __name__ == "__main__":
    main()
