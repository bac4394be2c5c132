# Easy Generator to Home Hook Up,
# http://www.instructables.com/id/Easy-Generator-to-Home-Hook-Up/
"""A floating set that feeds a service board backwards through an interlocked breaker."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.drawn import branch, generator_on_inlet, service
from tests.cases.judged import Judged


def drawn(neutral: str = "floating") -> Draft:
    d = Draft(place="building")
    service(d)
    generator_on_inlet(d, neutral, "5.5 kVA", cord="25 ft", wire="15 ft")
    branch(d, "QP1", "5", "11", "1200 W")
    return d


CASE = Case(
    "sources",
    "fine",
    drawn,
    never=(
        Never("SOURCES_PARALLEL"),
        Never("LIVE_PINS"),
        Never("NO_INTERLOCK"),
        Never("OCPD_OVER_CONDUCTOR"),
        Never("NG_BOND_MISSING", state="QF2=closed XP1=XD1"),
    ),
)


def test_it_is_sound() -> None:
    CASE.holds()


def test_without_the_interlock_it_is_not() -> None:
    d = drawn()
    from linework.design.edits import drop_element

    d.design.apply(drop_element(d.design, d.design.interlocks[0].id))
    judged = Judged(d)
    judged.finds("SOURCES_PARALLEL", "danger", at="G1")
