# Prevent dangerous RV "hot skin" condition,
# https://www.rvtravel.com/prevent-dangerous-rv-hot-skin-condition/
"""A camper on an extension cord whose ground wire is broken.

What leaks 1 to 10 mA is an electronic load with a filter of 47 nF: 2 mA. Its breaker, the house's
outlet and 10 ft of house wiring are drawn in.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import chassis, service
from tests.cases.reading import evidence


def drawn() -> Draft:
    d = Draft(place="recreational")
    service(d)
    d.part("breaker", "QF1", rating="20 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", configuration="5-20")
    d.run("QF1.load", "XD1.feed", "h", size="12 AWG", length="10 ft")
    d.part("plug", "XP1", configuration="5-15")
    d.seat("XP1", "XD1", "face")
    d.part("panel", "QP2", "camper", main="30 A", bond="absent")
    d.run(
        "XP1.cord",
        "QP2.feed",
        "c",
        size="14 AWG",
        length="50 ft",
        installation="cord",
        broken="PE",
    )
    d.part("breaker", "QF2", rating="15 A")
    d.seat("QF2", "QP2", "1")
    d.part("electronic_load", "EE1", "what leaks", power="100 W", filter="47 nF")
    d.run("QF2.load", "EE1.in", "l", size="14 AWG", length="10 ft")
    chassis(d, "QP2")
    return d


CASE = Case(
    "grounding",
    "fault",
    drawn,
    expected=(
        Expected("EGC_OPEN", "danger", at="c", state="XP1=XD1"),
        Expected(
            "CASE_LIVE",
            "danger",
            at="XB1",
            state="XP1=XD1",
            number=Number(60.0, 30.0, evidence("voltage before it is touched")),
        ),
    ),
    never=(Never("POLARITY_REVERSED"), Never("ELECTRODE_MISSING"), Never("GFCI_TRIPS_NORMAL")),
)


def test_it_is_told() -> None:
    CASE.holds()
