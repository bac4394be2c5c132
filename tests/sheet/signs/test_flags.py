"""Flags: told apart without colour, at what they concern, covering nothing."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

from linework.design import Accepted
from linework.findings.model import Finding, Level
from linework.picture.geometry import Box
from linework.picture.measure import bounds
from linework.picture.model import Polyline, Text
from linework.sheet.lettering.labels import Room
from linework.sheet.signs.flags import LOOKS, flag_box, flag_items, place_flags

FRAME = Box(0, 0, 2000, 1500)


def finding(number: int, level: Level, *subjects: str) -> Finding:
    return Finding(
        "rule", "title", level, subjects, subjects, (), (), "text", (), "", "", "", number=number
    )


def _outline(level: str) -> tuple[tuple[int, int], ...]:
    return next(i.points for i in flag_items(level, 1) if isinstance(i, Polyline) and i.closed)


def _sign(level: str, number: int) -> str:
    return next(item.text for item in flag_items(level, number) if isinstance(item, Text))


def test_the_levels_differ_in_shape() -> None:
    corners = [len(_outline(level)) for level in ("note", "warning", "danger")]
    assert corners[0] == 4
    assert _outline("warning") != _outline("danger")
    forked, pointed = _outline("danger"), _outline("warning")
    assert forked[2][0] < forked[1][0]
    assert pointed[2][0] > pointed[1][0]


def test_the_levels_differ_in_what_is_written() -> None:
    assert _sign("danger", 7) == "7 !!"
    assert _sign("warning", 7) == "7 !"
    assert _sign("note", 7) == "7"


def test_an_accepted_flag_is_hollow_and_ticked() -> None:
    opened, accepted = flag_items("danger", 3), flag_items("danger", 3, accepted=True)
    assert len(accepted) == len(opened) + 1
    cloth = next(item for item in accepted if isinstance(item, Polyline) and item.closed)
    assert cloth.fill != LOOKS["danger"].ink


def test_the_box_holds_the_flag() -> None:
    for level in LOOKS:
        for accepted in (False, True):
            inked = bounds(flag_items(level, 28, accepted))
            assert inked is not None
            assert flag_box(level, 28, accepted).grown(2).contains(inked)


def test_flags_stand_near_their_subject_and_on_nothing() -> None:
    room = Room(FRAME)
    symbol = Box(900, 700, 1100, 800)
    label = Box(1110, 600, 1500, 700)
    room.take([symbol, label])
    found = [finding(number, level, "G1") for number, level in enumerate(Level, start=1)]
    placed, lost = place_flags(found, {"G1": (symbol,)}, room)
    assert lost == ()
    assert [flag.number for flag in placed] == [1, 2, 3]
    for flag in placed:
        assert symbol.holds(*flag.foot)
        assert flag.foot[1] in (symbol.top, symbol.bottom)
        assert not flag.box.overlaps(symbol)
        assert not flag.box.overlaps(label)
    for one, other in combinations(placed, 2):
        assert not one.box.overlaps(other.box)


def test_many_flags_of_one_subject_hang_in_rows_on_one_staff() -> None:
    room = Room(FRAME)
    found = [finding(number, Level.NOTE, "G1") for number in range(1, 9)]
    placed, _ = place_flags(found, {"G1": (Box(900, 700, 1100, 800),)}, room)
    assert len({flag.foot for flag in placed}) == 1
    assert len({flag.box.top for flag in placed}) == 3


def test_a_flag_stands_at_the_first_subject_of_this_sheet() -> None:
    room = Room(FRAME)
    near = {"QF1": (Box(200, 200, 300, 300),)}
    placed, lost = place_flags([finding(1, Level.DANGER, "elsewhere", "QF1")], near, room)
    assert len(placed) == 1
    assert lost == ()
    assert place_flags([finding(2, Level.DANGER, "elsewhere")], near, room) == ((), ())


def test_a_flag_without_room_is_told() -> None:
    room = Room(Box(0, 0, 60, 60))
    near = {"QF1": (Box(10, 10, 50, 50),)}
    assert place_flags([finding(4, Level.WARNING, "QF1")], near, room) == ((), (4,))


def test_a_flag_is_lifted_over_writing_on_a_longer_staff() -> None:
    """Three lines of writing close over, under and beside a symbol; above them is room."""
    room = Room(FRAME)
    symbol = Box(900, 700, 1100, 800)
    sides = [Box(0, 500, 890, 1000), Box(1110, 500, 2000, 1000), Box(900, 810, 1100, 1000)]
    room.take([symbol, *sides, Box(900, 610, 960, 690), Box(1040, 610, 1100, 690)])
    placed, lost = place_flags([finding(4, Level.NOTE, "G1")], {"G1": (symbol,)}, room)
    assert lost == ()
    assert placed[0].box.bottom < 620


def test_an_accepted_finding_is_shown_as_such() -> None:
    room = Room(FRAME)
    accepted = Accepted("a", "rule", ("QF1",), "measured", "A. Person", "2025-05-01", "")
    found = replace(finding(1, Level.DANGER, "QF1"), accepted=accepted)
    ((flag,), _) = place_flags([found], {"QF1": (Box(200, 200, 300, 300),)}, room)
    ticks = [i for i in flag.group.items if isinstance(i, Polyline) and not i.closed]
    assert len(ticks) == 1
