"""Boxes and what they hold."""

from __future__ import annotations

import pytest

from linework.codes.tables import rows
from linework.design import Draft
from linework.findings.model import Level
from linework.kinds import Answer
from linework.kinds.boxes import BOXES
from tests.findings.camps import levels
from tests.findings.told import cured, found, gaps, number

RULE = "box-overfilled"


def joint(size: str, conductors: int, **box: Answer) -> Draft:
    """A junction box in which so many conductors end, none of them a ground wire."""
    draft = Draft(place="building")
    draft.part("junction_box", "XJ1", circuit="split", **box)
    sides = iter("abcd")
    while conductors > 0:
        side = next(sides)
        draft.part("junction_box", f"XJ{side}", circuit="split")
        poles = ["L1", "L2", "N"][: min(conductors, 3)]
        draft.run(f"XJ1.{side}", f"XJ{side}.a", poles=" ".join(poles), size=size, length="3 ft")
        conductors -= 3
    return draft


@pytest.mark.parametrize(
    ("box", "size", "most"),
    [
        ("square 4 x 1-1/2", "12 AWG", 9),
        ("square 4 x 1-1/4", "12 AWG", 8),
        ("round/octagonal 4 x 1-1/2", "14 AWG", 7),
    ],
)
def test_how_many_a_box_holds(box: str, size: str, most: int) -> None:
    # nine 12 AWG need 4 x 1-1/2 square, seven 14 AWG fit 4 x 1-1/2 round (trade magazine,
    # ecmweb.com/content/code-calculations-9)
    assert found(joint(size, most, box=box, clamps="no"), RULE) == []
    over = joint(size, most + 1, box=box, clamps="no")
    assert levels(over, RULE) == {("XJ1",): Level.WARNING}


def test_the_volume_marked_in_a_plastic_box() -> None:
    assert found(joint("12 AWG", 8, volume="18 in3", clamps="no"), RULE) == []
    (hit,) = found(joint("12 AWG", 9, volume="18 in3", clamps="no"), RULE)
    assert number(hit, "volume needed") == 20.25
    assert hit.mend is None


def test_of_a_box_of_which_nothing_is_said_nothing_is_told() -> None:
    draft = joint("6 AWG", 12)
    assert found(draft, RULE) == []
    assert gaps(draft, RULE) == []


def test_clamps_that_decide_are_asked_for() -> None:
    # nine 12 AWG take 20.25 in3; clamps inside take 2.25 more than the 21 there are
    draft = joint("12 AWG", 9, box="square 4 x 1-1/2")
    assert [gap.where for gap in gaps(draft, RULE)] == [("XJ1",)]
    draft.rate("XJ1", clamps="yes")
    assert number(found(draft, RULE)[0], "volume needed") == 22.5


def outlet(box: str) -> Draft:
    """An outlet at which a cable ends and another goes on: four conductors, two ground wires."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="20 A", prospective="3 kA", outage="no")
    draft.part("outlet", "XD1", configuration="5-20", ground_fault="class_a", box=box)
    draft.rate("XD1", clamps="no")
    draft.part("outlet", "XD2", configuration="5-20")
    draft.run("GS1.out", "XD1.feed", "W1", size="12 AWG", length="20 ft")
    draft.run("XD1.onward", "XD2.feed", "W2", size="12 AWG", length="20 ft")
    return draft


def test_an_outlet_takes_the_room_of_two_conductors() -> None:
    # 314.16(B): 4 + 1 for both ground wires + 2 for the yoke, of 2.25 in3 each: 15.75
    (hit,) = found(outlet("device 3 x 2 x 2-3/4"), RULE)
    assert number(hit, "volume needed") == 15.75
    assert cured(outlet("device 3 x 2 x 2-3/4"), hit).silent
    assert found(outlet("device 3 x 2 x 3-1/2"), RULE) == []


def test_outlets_that_share_a_box_fill_it_together() -> None:
    # 314.16(B): 2 conductors, 1 for the ground wire, 2 for each yoke: 7 of 2.25 in3; what runs
    # between the two stays in the box and does not count
    draft = outlet("device 3 x 2 x 2-1/2")
    for part in ("XD1", "XD2"):
        draft.rate(part, shared_box="hall")
    (hit,) = found(draft, RULE)
    assert (hit.subjects, number(hit, "volume needed")) == (("XD1", "XD2"), 15.75)
    draft.rate("XD1", box="device 3 x 2 x 3-1/2")
    assert found(draft, RULE) == []


def test_a_cord_at_the_face_stays_outside() -> None:
    draft = outlet("device 3 x 2 x 3-1/2")
    draft.part("load", "EA1", power="60 W")
    draft.run("XD1.face", "EA1.in", "W3", size="10 AWG", length="6 ft")
    assert found(draft, RULE) == []


def test_conductors_thicker_than_the_table_are_not_checked() -> None:
    assert [gap.where for gap in gaps(joint("2 AWG", 3, volume="100 in3"), RULE)] == [("XJ1",)]


def test_the_boxes_that_can_be_chosen_are_those_of_the_table() -> None:
    table = {(row["box_kind"], row["trade_size_in"]) for row in rows("na/box_volumes_314_16_A")}
    assert {(kind, size) for kind, sizes in BOXES.items() for size in sizes} <= table
