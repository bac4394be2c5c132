# RV Electricity - Does ground size in extension cord matter?,
# https://www.rvtravel.com/rv-electricity-ground-size-matter/
"""A 50 A cord with three 6 AWG and a ground of 8 AWG."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.drawn import branch, chassis


def drawn() -> Draft:
    d = Draft(place="recreational")
    d.part("supply", "GS1", "pedestal", circuit="split", breaker="50 A", prospective="4 kA")
    d.part("outlet", "XD1", circuit="split", configuration="14-50")
    d.seat("XD1", "GS1", "1")
    d.part("plug", "XP1", circuit="split", configuration="14-50")
    d.seat("XP1", "XD1", "face")
    d.part("panel", "QP1", circuit="split", main="50 A", bus="50 A", bond="absent")
    d.run(
        "XP1.cord",
        "QP1.feed",
        "c",
        size="6 AWG",
        ground_size="8 AWG",
        length="30 ft",
        installation="cord",
    )
    branch(d, "QP1", "1", "11", "1200 W")
    chassis(d, "QP1")
    return d


CASE = Case(
    "grounding",
    "fine",
    drawn,
    never=(Never("EGC_UNDERSIZED"), Never("NEUTRAL_OVERLOAD"), Never("OCPD_OVER_CONDUCTOR")),
    surprising=True,
)


def test_it_is_sound() -> None:
    CASE.holds()
