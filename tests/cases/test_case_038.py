# What size wire do I need to run power to my shed?,
# https://diybuildsnet.pages.dev/what-size-wire-do-i-need-to-run-power-to-my-shed
"""Two LED lamps at the end of 1,000 ft of 14 AWG behind 15 A.

The situation takes the small fault current for a note or a warning. Here it is a danger: 1.3 times
its rating need not open a breaker within an hour (UL 489: 1.35 times), and 60 V stay on the lamp.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import service
from tests.cases.reading import evidence


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", rating="15 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("lamp", "EL1", type="led", power="28 W")
    d.run("QF1.load", "EL1.in", "w", size="14 AWG", length="1000 ft")
    return d


CASE = Case(
    "voltage-drop",
    "fine",
    drawn,
    expected=(
        Expected(
            "FAULT_CURRENT_LOW",
            "note warning danger",
            at="w",
            number=Number(20.0, 5.0, evidence("least fault current")),
        ),
    ),
    never=(Never("VDROP_HIGH"), Never("OCPD_OVER_CONDUCTOR")),
    surprising=True,
    scope=("voltage-drop",),
    doubtful=True,
)


def test_the_drop_is_small_and_so_is_the_fault_current() -> None:
    CASE.holds()
