# Neutral (White) to Ground (Green) Bond Switching, http://bluesea.com/viewresource/89
"""A boat's inverter-charger whose relay makes the link while it inverts.

The neutral buses are two boards, the shore's loads and the inverter's; the leakage breaker at the
inlet, breakers, loads, outlets, cord and the 12 V bank are ours, as the notes say they are there.
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
    d.part("breaker", "QF1", "at the inlet", rating="30 A", ground_fault="rcd_30", poles="all")
    d.run("XI1.inside", "QF1.line", "s1", size="10 AWG", length="1 ft")
    d.part("panel", "QP1", "shore loads", bond="absent")
    d.run("QF1.load", "QP1.feed", "s", size="10 AWG", length="10 ft")
    d.part("breaker", "QF2", rating="30 A")
    d.seat("QF2", "QP1", "1")
    d.part(
        "inverter_charger",
        "TB1",
        power="2 kVA",
        dc_voltage="12 V",
        neutral="relay",
        transfer="30 A",
        charge="50 A",
    )
    d.run("QF2.load", "TB1.ac_in", "i", size="10 AWG", length="6 ft")
    d.part("panel", "QP2", "inverter loads", main="30 A", bond="absent")
    d.run("TB1.ac_out", "QP2.feed", "o", size="10 AWG", length="6 ft")
    for number, board, place in ((3, "QP1", "2"), (4, "QP2", "1")):
        d.part("breaker", f"QF{number}", rating="15 A")
        d.seat(f"QF{number}", board, place)
        d.part("outlet", f"XD{number}", configuration="5-15", ground_fault="class_a")
        d.run(f"QF{number}.load", f"XD{number}.feed", f"w{number}", size="14 AWG", length="15 ft")
    d.part("battery", "GB1", voltage="12 V", capacity="400 Ah", fault_current="4 kA")
    d.part("fuse", "F1", rating="250 A", type="class_t", interrupting="20 kA")
    d.part("battery_disconnect", "QB1", rating="300 A")
    d.part("busbar", "WC1", "negative bus", bar="minus", rating="300 A")
    lead = {"size": "2/0 AWG", "insulation": "105", "terminals": "75"}
    d.run("GB1.dc", "F1.line", "p1", poles="+", length="0.5 ft", **lead)
    d.run("F1.load", "QB1.line", "p2", poles="+", length="1 ft", **lead)
    d.run("QB1.load", "TB1.dc", "p3", poles="+", length="4 ft", **lead)
    d.run("GB1.dc", "WC1.feed", "n1", poles="-", length="2 ft", **lead)
    d.run("WC1.1", "TB1.dc", "n2", poles="-", length="4 ft", **lead)
    d.part("busbar", "WC2", "ground bus", bar="ground", taps="6")
    tie = {"size": "10 AWG", "installation": "jumper"}
    d.run("XI1.inside", "WC2.feed", "e", poles="PE", length="10 ft", **tie)
    d.run("TB1.case", "WC2.1", "e2", length="6 ft", **tie)
    d.run("QP1.ground", "WC2.2", "e3", length="2 ft", **tie)
    d.run("QP2.ground", "WC2.3", "e4", length="2 ft", **tie)
    d.run("WC2.4", "WC1.2", "g", poles="PE>-", size="8 AWG", length="4 ft", installation="jumper")
    return d


CASE = Case(
    "bonding",
    "fine",
    drawn,
    never=(
        Never("NG_BOND_MISSING"),
        Never("NG_BOND_MULTIPLE"),
        Never("SOURCES_PARALLEL"),
        Never("CHASSIS_TO_DC_NEGATIVE"),
    ),
    scope=("bonding", "sources"),
)


def test_it_is_sound() -> None:
    CASE.holds()
