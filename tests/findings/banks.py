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
