# RV electrical: inverter installation,
# http://klenger.powweb.com/RV_General/Electrical_Inverter/index.html
"""A vehicle fed from its own inverter, its battery charger still on."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never
from tests.cases.drawn import chassis


def drawn() -> Draft:
    d = Draft(place="recreational")
    d.part("battery", "GB1", voltage="12 V", capacity="200 Ah", fault_current="4 kA")
    d.part("fuse", "F1", rating="250 A", type="class_t", interrupting="20 kA")
    d.part("battery_disconnect", "QB1", rating="300 A")
    d.part("inverter", "TB1", power="2 kVA", dc_voltage="12 V", neutral="floating")
    lead = {"size": "2/0 AWG", "insulation": "90", "terminals": "75"}
    d.run("GB1.dc", "F1.line", "d1", length="0.5 ft", **lead)
    d.run("F1.load", "QB1.line", "d2", length="1 ft", **lead)
    d.run("QB1.load", "TB1.dc", "d", length="4 ft", **lead)
    d.part("supply", "GS1", "shore", breaker="30 A", prospective="2 kA")
    d.part("transfer_switch", "QT1", poles="all", first="shore", second="inverter")
    d.run("GS1.out", "QT1.in1", "g", size="10 AWG", length="30 ft")
    d.part("breaker", "QF1", rating="20 A")
    d.run("TB1.ac_out", "QF1.line", "a", size="10 AWG", length="8 ft")
    d.run("QF1.load", "QT1.in2", "a2", size="10 AWG", length="1 ft")
    d.part("panel", "QP1", main="30 A", bond="absent")
    d.run("QT1.load", "QP1.feed", "p", size="10 AWG", length="8 ft")
    d.part("breaker", "QF2", rating="15 A")
    d.seat("QF2", "QP1", "1")
    d.part("charger", "TB2", current="55 A", dc_voltage="12 V")
    d.run("QF2.load", "TB2.ac_in", "c", size="14 AWG", length="6 ft")
    d.part("fuse", "F2", rating="60 A", type="maxi")
    d.run("TB2.dc", "F2.load", "b", size="6 AWG", length="5 ft")
    d.run("F2.line", "QB1.load", "b2", size="6 AWG", length="1 ft")
    chassis(d, "QP1")
    return d


CASE = Case(
    "energy",
    "fault",
    drawn,
    expected=(Expected("CHARGER_LOOP", "warning", at="TB2", state="QT1=inverter"),),
    never=(Never("SOURCES_PARALLEL"), Never("CHARGER_LOOP", state="QT1=shore")),
    scope=("energy",),
)


def test_the_battery_charges_itself_on_the_inverter() -> None:
    CASE.holds()
