"""Small sound designs on direct current that each test spoils in one property."""

from __future__ import annotations

from linework.design import Draft
from linework.kinds import Answer

THICK = {"size": "4/0 AWG", "terminals": "75", "insulation": "90"}
PLATE = {
    "voc": "22 V",
    "isc": "6 A",
    "vmp": "18 V",
    "imp": "5.5 A",
    "voc_per_degree": "-0.3 %",
    "coldest": "-20 degC",
}
"""A module of 99 W."""


def van(place: str = "vehicle", **array: Answer) -> Draft:
    """Two modules in series, their switch and controller, a fused bank of 12 V with its disconnect,
    lamps behind a fuse; minus joined to the chassis at the battery."""
    d = Draft(place=place)
    d.part("solar_array", "GP1", **({**PLATE, "series": "2", "strings": "1"} | array))
    d.part("isolator", "QB2", circuit="dc", rating="16 A", voltage="150 V", direct="yes")
    d.part("solar_controller", "TC1", current="20 A", pv_voltage="100 V", pv_current="30 A")
    d.run("GP1.dc", "QB2.line", "W1", size="10 AWG", length="10 ft")
    d.run("QB2.load", "TC1.pv", "W2", size="10 AWG", length="2 ft")
    d.part("battery", "GB1", capacity="100 Ah", chemistry="agm", fault_current="3 kA")
    d.part("fuse", "F1", rating="100 A", type="class_t", interrupting="20 kA")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="48 V")
    d.run("GB1.dc", "F1.line", "W3", length="1 ft", **THICK)
    d.run("F1.load", "QB1.line", "W4", length="1 ft", **THICK)
    d.part("fuse", "F2", rating="30 A", type="class_t", interrupting="20 kA")
    d.run("TC1.dc", "F2.load", "W5", size="8 AWG", length="4 ft")
    d.run("F2.line", "QB1.load", "W6", size="8 AWG", length="1 ft")
    d.part("fuse", "F3", rating="10 A", type="class_t", interrupting="20 kA")
    d.run("QB1.load", "F3.line", "W7", size="8 AWG", length="1 ft")
    d.part("lamp", "EL1", circuit="dc", voltage="12 V", power="40 W")
    d.run("F3.load", "EL1.in", "W8", size="12 AWG", length="8 ft")
    d.part("body", "XB1", name="chassis")
    tie = {"size": "4/0 AWG", "length": "1 ft", "installation": "jumper"}
    d.run("GB1.dc", "XB1.tie", "W9", poles="->body", **tie)
    frame = {"size": "8 AWG", "installation": "jumper"}
    d.run("GP1.frame", "TC1.case", "W17", length="12 ft", **frame)
    d.run("TC1.case", "XB1.tie", "W18", length="3 ft", **frame)
    return d


def one_by_one(**array: Answer) -> Draft:
    """The van with a bank of 24 V and its two modules drawn one by one, wired in series."""
    d = van(series="1", **array)
    for part, rating in (("GB1", "voltage"), ("TC1", "dc_voltage"), ("EL1", "voltage")):
        d.rate(part, **{rating: "24 V"})
    d.part("solar_array", "GP2", **(PLATE | array))
    d.cut("W1")
    wire = {"size": "10 AWG", "length": "10 ft"}
    d.run("GP1.dc", "QB2.line", "W1", poles="+", **wire)
    d.run("GP1.dc", "GP2.dc", "W11", poles="->+", **wire)
    d.run("GP2.dc", "QB2.line", "W12", poles="-", **wire)
    d.run("GP2.frame", "GP1.frame", "W13", size="8 AWG", length="3 ft", installation="jumper")
    return d


def with_inverter(d: Draft, **ratings: Answer) -> Draft:
    """A stand-alone inverter on the bank, with an outlet of its own board."""
    d.part("inverter", "TB1", **({"power": "600 VA", "neutral": "bonded"} | ratings))
    d.run("QB1.load", "TB1.dc", "W20", length="2 ft", **THICK)
    d.part("panel", "QP1", bond="absent")
    d.run("TB1.ac_out", "QP1.feed", "W21", size="12 AWG", length="4 ft")
    d.part("breaker", "QF1", rating="15 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="200 W")
    d.run("QF1.load", "EA1.in", "W22", size="14 AWG", length="10 ft")
    jumper = {"size": "8 AWG", "length": "2 ft", "installation": "jumper"}
    d.run("TB1.case", "XB1.tie", "W23", **jumper)
    return d


def motorhome() -> Draft:
    """The van with shore power: a charger on shore alone, and an outlet that a transfer switch
    feeds from shore or from a bonded inverter."""
    d = van("recreational")
    d.rate("F1", rating="200 A")
    d.part("supply", "GS1", breaker="30 A")
    d.part("outlet", "XD2", configuration="TT-30")
    d.seat("XD2", "GS1", "1")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XD2", "face")
    d.part("inlet", "XI1", configuration="TT-30")
    d.run("XP1.cord", "XI1.outside", "W40", size="10 AWG", length="25 ft", installation="cord")
    d.part("panel", "QP1", bond="absent", main="30 A", places="4")
    d.run("XI1.inside", "QP1.feed", "W41", size="10 AWG", length="5 ft")
    for place, (breaker, rating) in enumerate((("QF1", "15 A"), ("QF2", "20 A")), start=1):
        d.part("breaker", breaker, rating=rating, interrupting="10 kA")
        d.seat(breaker, "QP1", str(place))
    d.part("charger", "TB2", current="40 A")
    d.run("QF1.load", "TB2.ac_in", "W42", size="14 AWG", length="5 ft")
    d.part("fuse", "F8", rating="60 A", type="class_t", interrupting="20 kA")
    d.run("TB2.dc", "F8.load", "W43", size="6 AWG", length="4 ft")
    d.run("F8.line", "QB1.load", "W44", size="6 AWG", length="1 ft")
    d.part("inverter", "TB1", power="1 kVA", neutral="bonded")
    d.part("fuse", "F9", rating="150 A", type="class_t", interrupting="20 kA")
    d.run("QB1.load", "F9.line", "W45", length="1 ft", **THICK)
    d.run("F9.load", "TB1.dc", "W46", length="3 ft", **THICK)
    d.part("transfer_switch", "QT1", poles="all", first="shore", second="inverter", rating="30 A")
    d.run("QF2.load", "QT1.in1", "W47", size="12 AWG", length="4 ft")
    d.run("TB1.ac_out", "QT1.in2", "W48", size="12 AWG", length="4 ft")
    d.part("outlet", "XD1", configuration="5-20", ground_fault="class_a")
    d.run("QT1.load", "XD1.feed", "W49", size="12 AWG", length="10 ft")
    d.part("plug_load", "EP1", power="300 W", case="insulated")
    d.seat("EP1", "XD1", "face")
    jumper = {"size": "8 AWG", "length": "2 ft", "installation": "jumper"}
    for name, end in (("W50", "QP1.ground"), ("W51", "TB1.case"), ("W52", "TB2.case")):
        d.run(end, "XB1.tie", name, **jumper)
    return d
