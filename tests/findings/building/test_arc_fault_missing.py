"""arc-fault-missing: circuits of rooms in buildings, a note."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.design.edits import change_settings
from linework.findings.model import Level
from tests.findings.camps import camp, levels
from tests.findings.grounding.test_link_on_feeder import farm
from tests.findings.told import found, number, places

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


def behind(first: str, laid: str = "house_cable", **breaker: str) -> Draft:
    """A second outlet on the onward terminals of the first, which has this protection."""
    d = room(**breaker)
    d.rate("XD1", arc_fault=first)
    d.rate_run("W3", installation=laid)
    d.part("outlet", "XD2", configuration="5-20")
    d.run("XD1.onward", "XD2.feed", "W9", size="12 AWG", length="6 ft")
    return d


def test_an_outlet_that_guards_guards_what_is_behind_it_and_not_the_wires_before() -> None:
    # NFPA 70 210.12(A) (from memory): an outlet type device in the first box
    assert levels(behind("none"), RULE) == {("XD1", "XD2"): Level.NOTE}
    (hit,) = found(behind("outlet"), RULE)
    assert (hit.level, hit.subjects) == (Level.NOTE, ("XD1", "W3"))
    assert number(hit, "wires before it") == pytest.approx(20 * 0.3048)


def test_in_metal_conduit_the_wires_before_it_may_be_bare() -> None:
    assert found(behind("outlet", "conduit_steel"), RULE) == []


def test_behind_a_breaker_that_guards_nothing_is_said_of_an_outlet_that_does() -> None:
    assert found(behind("outlet", arc_fault="combination"), RULE) == []


def test_an_outlet_that_guards_further_on_leaves_those_before_it_bare() -> None:
    d = behind("none")
    d.rate("XD2", arc_fault="outlet")
    assert levels(d, RULE) == {("XD1",): Level.NOTE, ("XD2", "W3", "W9"): Level.NOTE}


def test_the_nearest_board_tells_whether_people_live_there() -> None:
    d = camp(place="building")
    d.rate("QP1", lived_in="no")
    assert found(d, RULE) == []
    d.rate("QP1", lived_in="yes")
    assert levels(d, RULE) == {("XD1",): Level.WARNING}
    barn = farm("L1 L2 N PE", "absent")
    for n, board in ((1, "QP1"), (2, "QP2")):
        barn.part("breaker", f"QF{n}9", rating="15 A", interrupting="10 kA")
        barn.seat(f"QF{n}9", board, "5")
        barn.part("outlet", f"XD{n}", configuration="5-15")
        barn.run(f"QF{n}9.load", f"XD{n}.feed", size="14 AWG", length="9 ft")
    barn.rate("QP1", lived_in="yes")
    barn.rate("QP2", lived_in="no")
    assert levels(barn, RULE) == {("XD1",): Level.WARNING}
    barn.rate("QP2", lived_in="unknown")
    assert levels(barn, RULE) == {("XD1",): Level.WARNING, ("XD2",): Level.NOTE}


def test_the_outlets_of_a_set_are_in_no_room() -> None:
    d = room(arc_fault="combination")
    d.part("breaker", "QF9", rating="20 A")
    d.seat("QF9", "G1", "1")
    d.part("outlet", "XD9", configuration="5-20")
    d.seat("XD9", "QF9", "load")
    assert found(d, RULE) == []
