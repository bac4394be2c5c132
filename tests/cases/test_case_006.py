# 50 amp plug but 30 amp breaker, diy.stackexchange.com, question 281784
"""A plasma cutter with a 50 A plug on a single outlet behind 30 A."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.drawn import service


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", circuit="ac240", rating="30 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", circuit="ac240", configuration="6-50")
    d.run("QF1.load", "XD1.feed", "w", size="10 AWG", length="40 ft", installation="conduit_steel")
    cutter = {"circuit": "ac240", "power": "7.2 kW", "configuration": "6-50"}
    d.part("plug_load", "EP1", "plasma cutter", **cutter)
    d.seat("EP1", "XD1", "face")
    return d


CASE = Case(
    "overcurrent",
    "fine",
    drawn,
    never=(Never("OUTLET_UNDER_OCPD"), Never("OCPD_OVER_CONDUCTOR"), Never("PLUG_MISMATCH")),
    surprising=True,
    scope=("overcurrent",),
)


def test_it_is_sound() -> None:
    CASE.holds()
