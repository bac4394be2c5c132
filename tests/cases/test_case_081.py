# Code Q&A (59): 125 V duplex on a 20 A circuit, https://www.ecmweb.com/nec/code-qa-59
"""A 15 A duplex outlet on a 20 A circuit."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.drawn import service


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", rating="20 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", configuration="5-15")
    d.run("QF1.load", "XD1.feed", "w", size="12 AWG", length="50 ft")
    return d


CASE = Case(
    "overcurrent",
    "fine",
    drawn,
    never=(Never("OUTLET_UNDER_OCPD"), Never("OCPD_OVER_CONDUCTOR")),
    surprising=True,
    scope=("overcurrent",),
)


def test_it_is_sound() -> None:
    CASE.holds()
