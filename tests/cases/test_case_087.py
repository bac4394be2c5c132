# RVelectricity - Shocked when touching your RV?, https://www.rvtravel.com/rv-electricity-dont-ignore-shock/
"""A vehicle on a cord with line and neutral exchanged, its ground whole."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never
from tests.cases.drawn import chassis, service
from tests.cases.judged import Judged


def drawn() -> Draft:
    d = Draft(place="recreational")
    service(d)
    d.part("breaker", "QF1", rating="20 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("panel", "QP2", main="30 A", bond="absent")
    d.part("outlet", "XD9", configuration="5-20")
    d.run("QF1.load", "XD9.feed", "h", size="12 AWG", length="10 ft")
    d.part("plug", "XP1", configuration="5-20")
    d.seat("XP1", "XD9", "face")
    d.run(
        "XP1.cord",
        "QP2.feed",
        "c",
        poles="L>N N>L PE",
        size="12 AWG",
        length="50 ft",
        installation="cord",
    )
    d.part("breaker", "QF2", rating="15 A", interrupting="10 kA")
    d.seat("QF2", "QP2", "1")
    d.part("outlet", "XD1", configuration="5-15")
    d.run("QF2.load", "XD1.feed", "o", size="14 AWG", length="10 ft")
    chassis(d, "QP2")
    return d


CASE = Case(
    "grounding",
    "fault",
    drawn,
    expected=(Expected("POLARITY_REVERSED", "warning danger", at="c"),),
    never=(Never("CASE_LIVE"), Never("EGC_OPEN"), Never("FAULT_NOT_CLEARED")),
    surprising=True,
)


def test_the_exchange_is_found_and_no_live_skin() -> None:
    CASE.holds()


def test_the_tester_reads_reversed() -> None:
    reading = next(x for x in Judged(drawn()).report("XP1=XD9").readings if x.owner == "XD1")
    assert reading.picture == "reversed"
