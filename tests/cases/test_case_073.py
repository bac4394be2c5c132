# Boat Doctor (October 2018),
# https://www.pressreader.com/usa/boating/20181001/282866551720657
"""A galvanic isolator with the ground wires of shore and boat on one of its studs."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never
from tests.cases.drawn import CORD


def drawn(stud: str = "shore") -> Draft:
    d = Draft(place="boat")
    d.part("supply", "GS1", "shore", breaker="30 A", prospective="2 kA")
    d.part("inlet", "XI1", configuration="L5-30")
    d.run("GS1.out", "XI1.outside", "s", length="50 ft", **CORD)
    d.part("galvanic_isolator", "RB1", rating="30 A")
    d.run("XI1.inside", "RB1.shore", "a", poles="PE>PE", size="10 AWG", length="2 ft")
    d.part("panel", "QP1", main="30 A", bond="absent")
    d.run("QP1.ground", f"RB1.{stud}", "b", size="10 AWG", length="4 ft")
    # the leakage device of the inlet, which is there though nobody speaks of it
    d.part("breaker", "QF9", rating="30 A", poles="all", ground_fault="rcd_30")
    d.run("XI1.inside", "QF9.line", "l", poles="L>L N>N", size="10 AWG", length="3 ft")
    d.run("QF9.load", "QP1.feed", "l2", poles="L>L N>N", size="10 AWG", length="3 ft")
    d.part("body", "XB1", name="engine")
    d.run("QP1.ground", "XB1.tie", "e", size="8 AWG", length="6 ft", installation="jumper")
    d.part("electrode", "XE1", "the engine in the water", resistance="5 ohm")
    d.run("QP1.ground", "XE1.ground", "w", size="8 AWG", length="6 ft", installation="jumper")
    d.part("breaker", "QF1", rating="15 A")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="600 W")
    d.run("QF1.load", "EA1.in", "m", size="14 AWG", length="15 ft")
    return d


CASE = Case(
    "grounding",
    "fault",
    drawn,
    expected=(Expected("ISOLATOR_BYPASSED", "warning note", at="RB1"),),
    never=(Never("EGC_OPEN"), Never("FAULT_NOT_CLEARED")),
)


def test_it_is_bypassed() -> None:
    CASE.holds()


def test_on_its_own_stud_it_is_not() -> None:
    Case("grounding", "fine", lambda: drawn("boat")).holds()
