"""Figures of load calculations, held against other editions, examples and their own steps."""

from __future__ import annotations

import pytest

from linework.codes import CodesError, family
from linework.codes.tables import rows

RULES = family("NA", "2023").demands()


def test_the_same_figure_has_the_clause_of_its_edition() -> None:
    clauses = {
        year: family("NA", year).demands().figure("lighting").clause
        for year in ("2017", "2020", "2023")
    }
    assert clauses == {
        "2017": "NFPA 70 (2017) 220.12",
        "2020": "NFPA 70 (2020) 220.14(J)",
        "2023": "NFPA 70 (2023) 220.41",
    }


@pytest.mark.parametrize("year", ["2011", "2014", "2017", "2020", "2023"])
def test_every_edition_has_every_figure_once(year: str) -> None:
    demands = family("NA", year).demands()
    keys = {row["id"] for row in rows("na/demand_220")}
    for key in keys:
        assert demands.figure(key).value > 0.0  # type: ignore[arg-type]
        valid = [
            row
            for row in rows("na/demand_220")
            if row["id"] == key and row["first_edition"] <= year <= (row["last_edition"] or "9999")
        ]
        assert len(valid) == 1, key


@pytest.mark.parametrize(
    ("circuits", "supply_a"), [(1, 15.0), (2, 30.0), (5, 30.0), (6, 50.0), (12, 50.0)]
)
def test_the_supply_of_a_vehicle(circuits: int, supply_a: float) -> None:
    # as M35 of the clauses tells it, whose numbers are from memory
    found = RULES.vehicle_supply(circuits)
    assert (found.value, found.confirmed) == (supply_a, False)


def test_no_circuits_have_no_row() -> None:
    with pytest.raises(CodesError):
        RULES.vehicle_supply(0)


def test_ranges_count_with_note_1_of_their_table() -> None:
    assert RULES.ranges_va(1, 12_000.0).value == 8000.0
    # a larger part of a kilowatt counts as one
    assert RULES.ranges_va(1, 12_400.0).value == 8000.0
    assert RULES.ranges_va(1, 12_500.0).value == pytest.approx(8400.0)


def test_another_family_says_that_it_has_none() -> None:
    with pytest.raises(CodesError, match="how loads are added up"):
        family("INT", "").demands()
