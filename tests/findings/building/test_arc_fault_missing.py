"""arc-fault-missing: circuits of rooms in buildings, a note."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.design.edits import change_settings
from linework.findings.model import Level
from tests.findings.camps import camp, levels
from tests.findings.told import found, places

RULE = "arc-fault-missing"


def room(place: str = "building", area: str = "dry", **breaker: str) -> Draft:
    d = camp(place)
    d.rate("XD1", area=area)
    d.rate("QF2", **breaker)
    return d


@pytest.mark.parametrize(
    ("place", "area", "edition", "told"),
    [
        # NFPA 70 210.12: rooms of dwellings; kitchens since 2014 (from memory)
        ("building", "dry", "2023", True),
        ("building", "kitchen", "2023", True),
        ("building", "kitchen", "2011", False),
        ("building", "bath", "2023", False),
        ("building", "garage", "2023", False),
        ("building", "outside", "2023", False),
        ("recreational", "dry", "2023", False),
        ("field", "dry", "2023", False),
    ],
)
def test_where_it_is_asked_for(place: str, area: str, edition: str, told: bool) -> None:
    d = room(place, area)
    d.design.apply(change_settings(d.design, edition=edition))
    assert levels(d, RULE) == ({("XD1",): Level.NOTE} if told else {})


def test_an_arc_fault_breaker_is_silent() -> None:
    assert found(room(arc_fault="combination"), RULE) == []


def test_an_arc_fault_breaker_of_another_circuit_is_none() -> None:
    d = room()
    d.rate("QF1", arc_fault="combination")
    assert levels(d, RULE) == {("XD1",): Level.NOTE}


def test_one_note_tells_of_all_outlets() -> None:
    d = room()
    d.part("outlet", "XD2", configuration="5-20")
    d.run("XD1.onward", "XD2.feed", "W9", size="12 AWG", length="6 ft")
    (hit,) = found(d, RULE)
    assert hit.subjects == ("XD1", "XD2")


def test_larger_outlets_are_not_asked() -> None:
    d = room()
    d.rate("XD1", configuration="5-30")
    assert found(d, RULE) == []


def test_the_outlet_at_a_cords_end_is_in_no_room() -> None:
    draft = camp(place="building")
    (before,) = found(draft, RULE)
    draft.part("plug", "XP9", configuration="5-15")
    draft.seat("XP9", "XD1", "face")
    draft.part("outlet", "XD9", configuration="5-15")
    cord = {"size": "14 AWG", "length": "25 ft", "installation": "cord"}
    draft.run("XP9.cord", "XD9.feed", "lead", **cord)
    (after,) = found(draft, RULE)
    assert after.subjects == before.subjects == ("XD1",)
    assert ("XD9",) not in places(draft, "value-assumed")
