# Generator & Interlock Kit - Float the Neutral?, diychatroom.com, thread 128453
"""A bonded set on an interlock with an unswitched neutral, no GFCI on the outlet in use."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import branch, generator_on_inlet, service
from tests.cases.reading import evidence, ground_share


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    generator_on_inlet(d, "bonded", "6.7 kVA", cord="40 ft", wire="15 ft")
    branch(d, "QP1", "5", "11", "1200 W")
    return d


GENERATOR = "G1=running QF2=closed XP1=XD1"

CASE = Case(
    "bonding",
    "fault",
    drawn,
    expected=(
        Expected(
            "NG_BOND_MULTIPLE",
            "warning danger",
            at="G1 QP1",
            state=GENERATOR,
            number=Number(2.0, 0.0, evidence("{neutral_ground_link}s on the ring")),
        ),
        Expected(
            "EGC_CARRIES_LOAD",
            "warning danger",
            at="cord w",
            state=GENERATOR,
            number=Number(50.0, 10.0, lambda j, _: ground_share(j, GENERATOR, "cord")),
        ),
    ),
    never=(
        Never("GFCI_TRIPS_NORMAL"),
        Never("SOURCES_PARALLEL"),
        Never("NG_BOND_MULTIPLE", state="QP1=closed XP1=unplugged"),
    ),
)


def test_two_links_on_the_generator_and_the_current_between_them() -> None:
    CASE.holds()
