"""Where parts stand: one answer is enough for all that is wired to it for good."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft, PlaceKind
from linework.study.stands import place_of, place_of_run, places
from linework.study.wires.ratings import low_voltage
from tests.findings.told import found

HOUSE, TRAILER = PlaceKind.BUILDING, PlaceKind.RECREATIONAL


def house_and_trailer(**inlet: str) -> Draft:
    """A house whose outlet feeds a trailer by a cord, with a board, a charger and a bank in it."""
    d = Draft(place="building")
    d.part("supply", "GS1", breaker="100 A", prospective="4 kA")
    d.part("panel", "QP1", main="100 A", bus="100 A", bond="absent")
    d.run("GS1.out", "QP1.feed", "W1", size="3 AWG", length="20 ft", terminals="75")
    d.part("breaker", "QF1", rating="30 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", configuration="TT-30", area="outside")
    d.run("QF1.load", "XD1.feed", "W2", size="10 AWG", length="20 ft")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration="TT-30", **inlet)
    d.run("XP1.cord", "XI1.outside", "c", size="10 AWG", length="25 ft", installation="cord")
    d.part("panel", "QP2", main="30 A", bond="absent")
    d.run("XI1.inside", "QP2.feed", "W3", size="10 AWG", length="5 ft")
    d.part("breaker", "QF2", rating="15 A", interrupting="10 kA")
    d.seat("QF2", "QP2", "1")
    d.part("charger", "TB1", current="30 A")
    d.run("QF2.load", "TB1.ac_in", "W4", size="14 AWG", length="5 ft")
    d.part("battery", "GB1", fault_current="3 kA")
    d.part("fuse", "F1", rating="40 A", type="class_t")
    d.seat("F1", "GB1", "post")
    d.run("F1.load", "TB1.dc", "W5", size="8 AWG", length="4 ft")
    return d


def test_what_is_wired_to_an_inlet_for_good_stands_where_it_does() -> None:
    d = house_and_trailer(stands="recreational").design
    there = {p.designation for p in d.parts if place_of(d, p.id) is TRAILER}
    assert there == {"XI1", "QP2", "QF2", "TB1", "GB1", "F1"}
    assert places(d) == {HOUSE, TRAILER}
    runs = {run.designation: place_of_run(d, run) for run in d.runs}
    assert {name for name, place in runs.items() if place is TRAILER} == {"c", "W3", "W4", "W5"}


def test_without_an_answer_all_stands_in_the_place_of_the_design() -> None:
    d = house_and_trailer().design
    assert places(d) == {HOUSE}


def test_an_answer_that_is_taken_back_is_forgotten() -> None:
    d = house_and_trailer(stands="recreational")
    assert place_of(d.design, "GB1") is TRAILER
    d.rate("XI1", stands=None)
    assert place_of(d.design, "GB1") is HOUSE


def test_the_nearest_of_two_answers_counts() -> None:
    d = house_and_trailer(stands="recreational")
    d.rate("QP1", stands="field")
    assert place_of(d.design, "XD1") is PlaceKind.FIELD
    assert place_of(d.design, "TB1") is TRAILER


@pytest.mark.parametrize(("answer", "low"), [("recreational", True), ("here", False)])
def test_the_wires_of_a_trailer_keep_to_the_table_of_vehicles(answer: str, low: bool) -> None:
    d = house_and_trailer(stands=answer).design
    run = next(run for run in d.runs if run.designation == "W5")
    assert low_voltage(d, run) is low


def test_a_house_with_a_trailer_is_judged_by_both() -> None:
    draft = house_and_trailer(stands="recreational")
    rooms = {f.subjects: f.clause for f in found(draft, "working-space")}
    assert rooms == {("QP1",): "110.26(A)", ("QP2",): "551.45(B)"}
    assert not analyse(house_and_trailer().design).gaps


def test_a_boat_at_a_house_is_held_to_what_boats_need() -> None:
    """The leakage device of its inlet, stranded wires, the drop by the formula of ABYC E-11."""
    draft = house_and_trailer(stands="boat")
    for run in ("W2", "W4"):
        draft.rate_run(run, stranding="solid")
    draft.part("motor", "MA1", circuit="dc", power="120 W", critical="yes")
    draft.run("F1.load", "MA1.in", "W6", size="14 AWG", length="10.5 ft", insulation="105")
    assert {f.subjects for f in found(draft, "inlet-leakage-missing")} == {("XI1",)}
    assert {f.subjects for f in found(draft, "wire-not-for-boats")} == {("W4",)}
    drops = {f.subjects: f.clause for f in found(draft, "voltage-drop-high")}
    assert drops["MA1", "W6"] == "ABYC E-11"
    draft.rate("XI1", stands="recreational")
    assert not found(draft, "inlet-leakage-missing") + found(draft, "wire-not-for-boats")


@pytest.mark.parametrize(("answer", "told"), [("recreational", False), ("here", True)])
def test_the_attached_cord_of_a_trailer_at_a_house_leaves_through_its_wall(
    answer: str, told: bool
) -> None:
    """NFPA 70 (2023) 551.46(A)."""
    draft = house_and_trailer(stands=answer)
    draft.rate_run("c", hidden="hole")
    assert bool(found(draft, "cord-concealed")) is told


def test_what_is_said_to_stand_here_does_whatever_it_is_wired_to() -> None:
    d = house_and_trailer()
    d.rate("QP1", stands="field")
    assert place_of(d.design, "GS1") is PlaceKind.FIELD
    d.part("panel", "QP3", stands="here")
    d.run("QP1.feed", "QP3.feed", "W9", size="3 AWG", length="20 ft")
    assert place_of(d.design, "QP3") is HOUSE
