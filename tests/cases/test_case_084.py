# RVelectricity - J.A.M.: How to Neutral/Ground bond parallel generators,
# https://www.rvtravel.com/rv-electricity-jam-parallel-generator-bonding-basics/
"""Two sets joined by their own parallel kit, one bonding plug.

Sets made to run in parallel by their own kit are drawn as one source, here of 4 kVA.
"""

from __future__ import annotations

from tests.cases.judged import Judged
from tests.cases.test_case_069 import drawn


def test_one_plug_bonds_both() -> None:
    judged = Judged(drawn(power="4 kVA"))
    judged.silent()
    judged.lacks("SOURCES_PARALLEL", "NG_BOND_MISSING", "NG_BOND_MULTIPLE")
