# Why do the outlets in my solar-powered cottage read "open ground"?,
# https://diy.stackexchange.com/questions/172109/
"""A cottage whose board a plug feeds from a floating inverter or from a bonded generator."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import inverter
from tests.cases.judged import Judged
from tests.cases.reading import evidence


def drawn() -> Draft:
    d = Draft(place="building")
    inverter(d, "5 kVA", "floating")
    d.part("outlet", "XD1", circuit="split", configuration="L14-30")
    d.run("TB1.ac_out", "XD1.feed", "w1", poles="L>L1 N PE", size="6 AWG", length="15 ft")
    d.part("generator", "G1", circuit="split", power="6.5 kVA", neutral="bonded")
    d.part("breaker", "QF1", circuit="split", rating="30 A")
    d.seat("QF1", "G1", "1")
    d.part("outlet", "XD2", circuit="split", configuration="L14-30")
    d.seat("XD2", "QF1", "load")
    d.part("plug", "XP1", circuit="split", configuration="L14-30")
    d.seat("XP1", "XD1", "face")
    d.seat("XP1", "XD2", "face")
    d.part("panel", "QP1", circuit="split", bond="absent")
    d.run("XP1.cord", "QP1.feed", "w2", size="10 AWG", length="30 ft", installation="cord")
    d.part("breaker", "QF2", rating="15 A")
    d.seat("QF2", "QP1", "1")
    d.part("outlet", "XD3", configuration="5-15")
    d.run("QF2.load", "XD3.feed", "w3", size="14 AWG", length="40 ft")
    d.part("electrode", "XE1")
    d.run("QP1.ground", "XE1.ground", "gec", size="6 AWG", length="10 ft")
    return d


INVERTER, GENERATOR = "G1=stopped TB1=on XP1=XD1", "G1=running TB1=off XP1=XD2"

CASE = Case(
    "bonding",
    "fault",
    drawn,
    expected=(
        Expected(
            "NG_BOND_MISSING",
            "danger",
            at="TB1 QP1",
            state=INVERTER,
            number=Number(0.0, 0.0, evidence("{neutral_ground_link}s in circuit")),
        ),
        Expected("FAULT_NOT_CLEARED", "danger", at="XD3", state=INVERTER),
    ),
    never=(
        Never("EGC_OPEN"),
        Never("ELECTRODE_MISSING"),
        Never("NG_BOND_MISSING", state=GENERATOR),
    ),
    surprising=True,
)


def test_the_link_is_missing_on_the_inverter_only() -> None:
    CASE.holds()


def test_the_tester_reads_open_ground_there_and_correct_on_the_generator() -> None:
    judged = Judged(drawn())
    for state, picture, bonded in ((INVERTER, "open_ground", False), (GENERATOR, "correct", True)):
        readings = judged.report(*state.split()).readings
        reading = next(x for x in readings if x.owner == "XD3")
        assert (reading.picture, reading.ground_whole, reading.bonded) == (picture, True, bonded)
