# How can I safely connect a subpanel in a detached garage to the main with a 3-wire feeder,
# diy.stackexchange.com, question 76067
"""An old three-wire feeder to a garage whose board joins neutral, ground bar and rods."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never
from tests.cases.drawn import service
from tests.cases.judged import Judged


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", circuit="split", rating="60 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("panel", "QP2", "garage", circuit="split", bond="fitted")
    d.run(
        "QF1.load",
        "QP2.feed",
        "f",
        poles="L1 L2 N",
        size="6 AWG",
        terminals="75",
        length="90 ft",
        installation="conduit_pvc",
    )
    d.part("electrode", "XE2", "rods")
    d.run("QP2.ground", "XE2.ground", "gec2", size="6 AWG", length="8 ft", installation="jumper")
    d.part("breaker", "QF2", rating="20 A", interrupting="10 kA")
    d.seat("QF2", "QP2", "1")
    d.part("outlet", "XD1", configuration="5-20", ground_fault="class_a")
    d.run("QF2.load", "XD1.feed", "b", size="12 AWG", length="30 ft")
    return d


CASE = Case(
    "bonding",
    "fine",
    drawn,
    expected=(Expected("NEW_WORK_NEEDS_4_WIRE", "note", at="f"),),
    never=(Never("NG_BOND_MULTIPLE"), Never("EGC_OPEN"), Never("FAULT_NOT_CLEARED")),
    surprising=True,
)


def test_it_is_sound() -> None:
    CASE.holds()


def test_a_fourth_wire_would_make_the_second_link_wrong() -> None:
    d = drawn()
    d.run_poles("f", "L1 L2 N PE")
    Judged(d).finds("NG_BOND_MULTIPLE", "danger", at="QP1 QP2")
