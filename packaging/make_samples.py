"""Writes the files of samples/: run it from the checkout after a sample's design changed.

The scenarios are our own inventions. Positions are tenths of a paper millimetre.
"""

from __future__ import annotations

from pathlib import Path

from linework.design import Draft
from linework.kinds import Band
from linework.storage import save

SAMPLES = Path(__file__).resolve().parent.parent / "samples"


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
    d.part("supply", "GS1", "shore", at=(450, 425), breaker="30 A", neutral="bonded")
    d.part("outlet", "XD1", configuration="TT-30")
    d.seat("XD1", "GS1", "1")
    d.part("plug", "XP1", "shore cord", at=(950, 425), configuration="TT-30")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", "shore inlet", at=(1350, 425), configuration="TT-30")
    d.part(
        "generator",
        "G1",
        "generator",
        at=(450, 1075),
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
    d.part("plug", "XP2", "generator cord", at=(1225, 1250), configuration="L5-30")
    d.seat("XP2", "XD3", "face")
    d.part("inlet", "XI2", "generator inlet", at=(1575, 1250), configuration="L5-30")
    cord = {"size": "10 AWG", "installation": "cord"}
    d.run("XP1.cord", "XI1.outside", "W1", length="25 ft", **cord)
    d.run("XP2.cord", "XI2.outside", "W2", length="25 ft", **cord)


def _boards(d: Draft) -> None:
    d.part(
        "transfer_switch",
        "QT1",
        at=(1850, 525),
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
        at=(2300, 425),
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
        at=(2300, 1425),
        power="2 kVA",
        dc_voltage="12 V",
        charge="60 A",
        neutral="relay",
        bond_allowed="no",
        neutral_through="switched",
        transfer="30 A",
    )
    d.part("panel", "QP2", "vaccine board", at=(2950, 1175), bus="60 A", bond="absent", places="4")
    d.part("breaker", "QF3", rating="20 A", interrupting="10 kA")
    d.part("breaker", "QF4", rating="20 A", interrupting="10 kA")
    d.seat("QF3", "QP1", "1")
    d.seat("QF4", "QP1", "2")
    d.run("QF4.load", "TB1.ac_in", "W7", size="12 AWG", length="6 ft")
    d.run("TB1.ac_out", "QP2.feed", "W8", size="12 AWG", length="4 ft")


def _battery(d: Draft) -> None:
    d.part(
        "battery",
        "GB1",
        at=(325, 1975),
        voltage="12 V",
        capacity="300 Ah",
        chemistry="lithium",
        fault_current=Band("4 kA", "7 kA", "12 kA"),
    )
    d.part("fuse", "F1", at=(625, 1975), rating="225 A", type="class_t", interrupting="20 kA")
    d.part("battery_disconnect", "QB1", at=(900, 1975), rating="300 A", voltage="48 V")
    lead = {"size": "4/0 AWG", "terminals": "75", "insulation": "90"}
    d.run("GB1.dc", "F1.line", "W10", length="0.6 ft", **lead)
    d.run("F1.load", "QB1.line", "W18", length="1 ft", **lead)
    d.run("QB1.load", "TB1.dc", "W11", length="4 ft", **lead)
    d.part("fuse", "F2", at=(1200, 2125), rating="30 A", type="class_t", interrupting="20 kA")
    d.run("QB1.load", "F2.line", "W12", size="6 AWG", length="1 ft")
    d.part(
        "panel",
        "QP3",
        "12 V board",
        at=(1600, 1975),
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
        at=(425, 2475),
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
        at=(775, 2475),
        circuit="dc",
        rating="32 A",
        poles="all",
        voltage="150 V",
        direct="yes",
    )
    d.part(
        "solar_controller",
        "TC1",
        at=(1075, 2475),
        type="mppt",
        current="30 A",
        dc_voltage="12 V",
        pv_voltage="100 V",
        pv_current="35 A",
    )
    d.part("fuse", "F5", at=(1200, 2275), rating="40 A", type="class_t", interrupting="20 kA")
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
        at=(3300, 425),
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
    d.part(
        "load", "EA1", "vaccine refrigerator", at=(3625, 1175), power="250 W", power_factor="0.85"
    )
    d.run("QF5.load", "EA1.in", "W14", size="14 AWG", length="12 ft")
    d.part("outlet", "XD4", "bench outlets", at=(3600, 1375), configuration="5-20")
    d.run("QF6.load", "XD4.feed", "W15", size="12 AWG", length="16 ft")
    d.part(
        "plug_load",
        "EP1",
        "laptops",
        at=(3850, 1375),
        power="180 W",
        power_factor="0.95",
        configuration="5-15",
        case="insulated",
    )
    d.seat("EP1", "XD4", "face")
    dc = {"circuit": "dc", "voltage": "12 V"}
    d.part("lamp", "EL1", "cabin lights", at=(2350, 1975), power="60 W", **dc)
    d.part("motor", "MA2", "fans", at=(2350, 2175), power="48 W", start_current="8 A", **dc)
    d.run("F3.load", "EL1.in", "W16", size="12 AWG", length="10 ft")
    d.run("F4.load", "MA2.in", "W17", size="12 AWG", length="10 ft")


def _grounding(d: Draft) -> None:
    d.part("body", "XB1", "trailer frame", at=(2700, 2225), name="trailer frame")
    jumper = {"size": "8 AWG", "installation": "jumper"}
    d.run("QP1.ground", "XB1.tie", "W20", length="3 ft", **jumper)
    d.run("TB1.case", "XB1.tie", "W21", length="3 ft", **jumper)
    d.run("G1.frame", "XB1.tie", "W22", length="4 ft", **jumper)
    d.part("body", "XB2", at=(850, 2700), name="trailer frame")
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


def main() -> None:
    """Write every sample."""
    save(trailer().design, SAMPLES / "vaccination-trailer.linework")
    save(trailer_as_sketched().design, SAMPLES / "vaccination-trailer-as-sketched.linework")


if __name__ == "__main__":
    main()
