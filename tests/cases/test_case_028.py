# shore power and inverter switching (reply 5), https://www.boatbanter.com/269286-post5.html
"""A boat's selector opens both conductors of shore or inverter before it closes the others.

Present though not told: the leakage breaker at the inlet, AC ground tied to DC negative, breakers.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.drawn import CORD


def drawn() -> Draft:
    d = Draft(place="boat")
    d.part("supply", "GS1", "shore", breaker="30 A", prospective="2 kA")
    d.part("outlet", "XD1", configuration="L5-30")
    d.seat("XD1", "GS1", "1")
    d.part("plug", "XP1", configuration="L5-30")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration="L5-30")
    d.run("XP1.cord", "XI1.outside", "cord", length="50 ft", **CORD)
    d.part("breaker", "QF1", "ELCI", rating="30 A", poles="all", ground_fault="rcd_30")
    d.run("XI1.inside", "QF1.line", "s", size="10 AWG", length="9 ft")
    d.part("transfer_switch", "QT1", poles="all", first="shore", second="inverter")
    d.run("QF1.load", "QT1.in1", "s2", size="10 AWG", length="1 ft")
    d.part("inverter", "TB1", power="2 kVA", dc_voltage="12 V", neutral="bonded")
    d.part("breaker", "QF2", rating="20 A")
    d.run("TB1.ac_out", "QF2.line", "i", size="12 AWG", length="5 ft")
    d.run("QF2.load", "QT1.in2", "i2", size="12 AWG", length="1 ft")
    d.part("panel", "QP1", bond="absent")
    d.run("QT1.load", "QP1.feed", "o0", size="10 AWG", length="2 ft")
    d.part("breaker", "QF3", rating="20 A")
    d.seat("QF3", "QP1", "1")
    d.part("load", "EA1", power="1500 W")
    d.run("QF3.load", "EA1.in", "o", size="12 AWG", length="18 ft")
    d.part("battery", "GB1", voltage="12 V", capacity="400 Ah", chemistry="agm")
    d.part("fuse", "F1", rating="250 A", type="class_t", interrupting="20 kA")
    lead = {"size": "2/0 AWG", "insulation": "105", "terminals": "75"}
    d.run("GB1.dc", "F1.line", "dc1", length="0.5 ft", **lead)
    d.part("battery_disconnect", "QB1", rating="300 A")
    d.run("F1.load", "QB1.line", "dc2", length="1 ft", **lead)
    d.run("QB1.load", "TB1.dc", "dc3", length="3 ft", **lead)
    d.part("body", "XB1", name="engine")
    d.run("QP1.ground", "XB1.tie", "e", size="6 AWG", length="4 ft", installation="jumper")
    minus = {"size": "1 AWG", "length": "4 ft", "installation": "jumper"}
    d.run("GB1.dc", "XB1.tie", "m", poles="->body", **minus)
    return d


CASE = Case(
    "sources",
    "fine",
    drawn,
    never=(
        Never("SOURCES_PARALLEL"),
        Never("NG_BOND_MULTIPLE"),
        Never("NG_BOND_MISSING"),
        Never("NEUTRALS_JOINED"),
    ),
    scope=("sources", "bonding"),
)


def test_it_is_sound() -> None:
    CASE.holds()
