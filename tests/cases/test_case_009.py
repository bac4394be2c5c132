# Hooking up inverter output to shore power receptacles,
# https://tab-rv.vanillacommunity.com/discussion/16610/
"""A duplex receptacle with both tabs removed: one half on shore, the other on the inverter."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never
from tests.cases.drawn import CORD, chassis


def drawn() -> Draft:
    d = Draft(place="recreational")
    d.part("supply", "GS1", "shore", breaker="30 A", prospective="2 kA")
    d.part("outlet", "XD9", configuration="TT-30")
    d.seat("XD9", "GS1", "1")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XD9", "face")
    d.part("inlet", "XI1", configuration="TT-30")
    d.run("XP1.cord", "XI1.outside", "cord", length="25 ft", **CORD)
    d.part("panel", "QP1", main="30 A", bond="absent")
    d.run("XI1.inside", "QP1.feed", "sh", size="10 AWG", length="10 ft")
    chassis(d, "QP1")
    d.part("breaker", "QF1", rating="15 A")
    d.seat("QF1", "QP1", "1")
    d.part("split_outlet", "XD1", configuration="5-15", tabs="both")
    d.run("QF1.load", "XD1.feed", "a", size="14 AWG", length="12 ft")
    d.part("battery", "GB1", voltage="12 V", capacity="100 Ah")
    d.part("fuse", "F1", rating="60 A", type="class_t", interrupting="20 kA")
    d.part("inverter", "TB1", power="400 VA", dc_voltage="12 V", neutral="floating")
    lead = {"size": "6 AWG"}
    d.run("GB1.dc", "F1.line", "dc1", length="0.5 ft", **lead)
    d.run("F1.load", "TB1.dc", "dc2", length="3 ft", **lead)
    d.run("TB1.ac_out", "XD1.feed_2", "b", size="14 AWG", length="12 ft")
    # the DC side is not told and taken as sound: its minus is on the chassis
    d.run("GB1.dc", "XB1.tie", "m", poles="->body", size="6 AWG", length="2 ft")
    return d


CASE = Case(
    "sources",
    "fault",
    drawn,
    expected=(Expected("TWO_SOURCES_ONE_BOX", "warning danger note", at="XD1"),),
    never=(Never("SOURCES_PARALLEL"), Never("NEUTRALS_JOINED")),
    surprising=True,
)


def test_it_is_told() -> None:
    CASE.holds()
