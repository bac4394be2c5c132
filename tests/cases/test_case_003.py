# GFCIs on 2 wire circuits, https://forum.nachi.org/t/gfcis-on-2-wire-circuits/37538
"""An old two-wire circuit: a GFCI outlet and one behind it, both marked "no equipment ground"."""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.cases.case import Case, Expected, Never
from tests.cases.drawn import service
from tests.cases.judged import Judged


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", rating="15 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", configuration="5-15", ground_fault="class_a", marked="no_ground")
    d.part("outlet", "XD2", configuration="5-15", marked="no_ground")
    d.run("QF1.load", "XD1.feed", "a", poles="L N", size="14 AWG", length="50 ft")
    d.run("XD1.onward", "XD2.feed", "b", poles="L N", size="14 AWG", length="10 ft")
    return d


CASE = Case(
    "gfci",
    "fine",
    drawn,
    expected=(Expected("EGC_ABSENT_ALLOWED", "note", at="XD1 XD2"),),
    never=(
        Never("GFCI_ABSENT"),
        Never("EGC_OPEN", up_to=Level.NOTE),
        Never("FAULT_NOT_CLEARED"),
    ),
    surprising=True,
)


def test_it_is_allowed_and_said() -> None:
    CASE.holds()


def test_the_tester_reads_open_ground() -> None:
    reading = next(x for x in Judged(drawn()).report("GS1=live").readings if x.owner == "XD1")
    assert reading.picture == "open_ground"
    assert reading.ground_whole is False
