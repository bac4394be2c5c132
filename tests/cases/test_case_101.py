# Multiplus output requires RCD protection?, community forum of a maker, question 90448
"""A motorhome with a residual-current device at its inlet and none behind its inverter-charger."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never


def drawn() -> Draft:
    d = Draft(place="recreational", family="INT", voltage="230 V", frequency="50 Hz")
    d.part("supply", "GS1", "site", breaker="16 A", prospective="1 kA")
    d.part("outlet", "XD9", configuration="CEE16-3-6h")
    d.seat("XD9", "GS1", "1")
    d.part("plug", "XP1", configuration="CEE16-3-6h")
    d.seat("XP1", "XD9", "face")
    d.part("inlet", "XI1", configuration="CEE16-3-6h")
    size = {"size": "2.5 mm2"}
    d.run("XP1.cord", "XI1.outside", "lead", length="10 m", installation="cord", **size)
    d.part("breaker", "QF1", rating="16 A", ground_fault="rcd_30", poles="all")
    d.run("XI1.inside", "QF1.line", "i", length="2 m", **size)
    d.part("inverter_charger", "TB1", power="500 VA", neutral="relay", dc_voltage="12 V")
    d.run("QF1.load", "TB1.ac_in", "a", length="2 m", **size)
    d.part("breaker", "QF2", rating="10 A", poles="all")
    d.part("outlet", "XD1", configuration="CEE7-3")
    d.run("TB1.ac_out", "QF2.line", "b", size="1.5 mm2", length="1 m")
    d.run("QF2.load", "XD1.feed", "b2", size="1.5 mm2", length="5 m")
    d.part("body", "XB1", name="chassis")
    d.run("TB1.case", "XB1.tie", "c", size="16 mm2", length="1 m", installation="jumper")
    d.part("battery", "GB1", voltage="12 V", capacity="100 Ah")
    d.part("fuse", "F1", rating="80 A", type="class_t")
    d.run("GB1.dc", "F1.line", "dc1", size="25 mm2", length="0.1 m")
    d.run("F1.load", "TB1.dc", "dc2", size="25 mm2", length="1 m")
    return d


CASE = Case(
    "gfci",
    "fault",
    drawn,
    expected=(Expected("RCD_ABSENT", "warning danger", "TB1 XD1", "XP1=unplugged"),),
    never=(Never("RCD_ABSENT", state="GS1=live XP1=XD9"), Never("NG_BOND_MISSING")),
)


def test_it_is_told() -> None:
    CASE.holds()
