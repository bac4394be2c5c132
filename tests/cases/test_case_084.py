# RVelectricity - J.A.M.: How to Neutral/Ground bond parallel generators,
# https://www.rvtravel.com/rv-electricity-jam-parallel-generator-bonding-basics/
"""Two sets joined by their own parallel kit, one bonding plug.

Sets made to run in parallel by their own kit are drawn as one source, here of 4 kVA.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Never
from tests.cases.test_case_069 import drawn as one_set


def drawn() -> Draft:
    return one_set(power="4 kVA")


CASE = Case(
    "bonding",
    "fine",
    drawn,
    never=(Never("SOURCES_PARALLEL"), Never("NG_BOND_MISSING"), Never("NG_BOND_MULTIPLE")),
    surprising=True,
)


def test_one_plug_bonds_both() -> None:
    CASE.holds()
