# Panel Interlock Kit, https://thebuildingcodeforum.com (found there by its title)
"""A floating set on an interlock with an unswitched neutral: grounded by the house's own rods."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.drawn import branch, generator_on_inlet, service


def drawn(neutral: str = "floating") -> Draft:
    d = Draft(place="building")
    service(d, main="100 A")
    generator_on_inlet(d, neutral, "7 kVA", cord="25 ft", wire="20 ft")
    branch(d, "QP1", "5", "11", "1200 W")
    return d


CASE = Case(
    "bonding",
    "fine",
    drawn,
    never=(
        Never("NG_BOND_MISSING", state="G1=running QF2=closed XP1=XD1"),
        Never("NG_BOND_MISSING", state="G1=running QP1=closed GS1=live"),
        Never("ELECTRODE_MISSING"),
        Never("SOURCES_PARALLEL"),
        Never("NG_BOND_MULTIPLE"),
    ),
    surprising=True,
)


def test_exactly_one_link_in_either_position() -> None:
    CASE.holds()
