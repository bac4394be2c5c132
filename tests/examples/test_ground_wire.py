"""Published examples of ground wires raised with their circuit (NFPA 70, 250.122(B))."""

from __future__ import annotations

import pytest

from linework.codes import family, size_of
from tests.examples.published import published


@published("058", "Code Talk episode 32 notes: equipment grounding", "inwindustrialtraining.com")
def test_a_feeder_of_300_a() -> None:
    # 250 raised to 350 kcmil: ratio 1.4, 58,436 cmil, 2 AWG.
    need = family("NA", "2023").ground_wire(300, "350 kcmil", minimum_size="250 kcmil")
    assert float(need.cmil) == pytest.approx(58436, abs=1)
    assert need.size == "2 AWG"
    assert need.met_by("2 AWG")
    assert not need.met_by("3 AWG")


@published("060", "Proportionately increase equipment grounding conductor", "mepanet.com/287")
def test_a_branch_of_20_a() -> None:
    # 12 raised to 1/0 AWG: the ground wire is 1/0 too, by exact equality.
    need = family("NA", "2023").ground_wire(20, "1/0 AWG", minimum_size="12 AWG")
    assert need.cmil == size_of("1/0 AWG").cmil
    assert need.size == "1/0 AWG"
    assert need.met_by("1/0 AWG")
    assert not need.met_by("1 AWG")
