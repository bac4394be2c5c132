"""Where parts lie: at their own place, or in the place of the part they sit in."""

from __future__ import annotations

from dataclasses import replace

import pytest

from linework.design import Design, Draft, changed
from linework.design.edits.seats import places_of
from linework.kinds import kinds
from linework.sheet.parts.parts import draw_part, draw_parts
from linework.sheet.parts.places import position_of, sheet_of
from tests.sheet.samples import trailer


def _with(design: Design, name: str, **fields: object) -> Design:
    part = design.by_designation(name)
    copy = design.snapshot()
    copy.apply(changed("", [(part, replace(part, **fields))]))  # type: ignore[arg-type]
    return copy


def _seat_meets_place(design: Design, guest: str, host: str, place: str) -> bool:
    drawings = draw_parts(design)
    part = design.by_designation(guest)
    seat = drawings[part.id].anchors[design.kind(part).seat]
    at = drawings[design.by_designation(host).id].places[place]
    return seat[:2] == at[:2] and seat[2] != at[2]


@pytest.mark.parametrize("turn", range(4))
@pytest.mark.parametrize("mirror", [False, True])
def test_a_seated_part_meets_its_place_however_the_host_lies(turn: int, mirror: bool) -> None:
    design = _with(trailer(), "QP1", turn=turn, mirror=mirror)
    assert _seat_meets_place(design, "QF3", "QP1", "3")


def test_seats_within_seats_are_resolved() -> None:
    design = trailer()
    assert _seat_meets_place(design, "QF11", "G1", "1")
    assert _seat_meets_place(design, "XD11", "QF11", "load")


def test_a_seated_parts_own_place_is_ignored() -> None:
    design = trailer()
    moved = _with(design, "QF3", x=3000, y=100, turn=1)
    part = design.by_designation("QF3")
    assert position_of(moved, moved.part(part.id)) == position_of(design, part)


def test_a_seated_part_moves_with_its_host() -> None:
    before, after = trailer(), _with(trailer(), "G1", x=575, y=1000)
    for name in ("QF11", "XD11"):
        x, y = position_of(before, before.by_designation(name))
        assert position_of(after, after.by_designation(name)) == (x + 75, y + 100)


def test_a_hand_moved_plug_lies_at_its_own_place() -> None:
    design = trailer()
    assert position_of(design, design.by_designation("XP1")) == (1400, 1200)


def test_a_seated_part_is_on_its_hosts_sheet() -> None:
    design = _with(trailer(), "G1", sheet=3)
    assert sheet_of(design, design.by_designation("XD11")) == 3
    assert sheet_of(design, design.by_designation("QF1")) == 1


@pytest.mark.parametrize("key", sorted(kinds()))
def test_every_terminal_and_place_of_every_kind_has_an_anchor(key: str) -> None:
    draft = Draft()
    part = draft.part(key, "P1", at=(1000, 1000))
    drawing = draw_part(draft.design, part)
    terminals = draft.design.kind(part).terminals(draft.design.values(part))
    assert {terminal.name for terminal in terminals} <= set(drawing.anchors)
    assert {place.name for place in places_of(draft.design, part)} <= set(drawing.places)


def test_a_large_board_keeps_to_the_rows_that_are_used_and_some_spare() -> None:
    draft = Draft()
    draft.part("panel", "QP1", places="42")
    for number in ("7", "30"):
        draft.part("breaker", f"QF{number}")
        draft.seat(f"QF{number}", "QP1", number)
    drawing = draw_part(draft.design, draft.design.part("QP1"))
    assert set(drawing.places) == {"1", "2", "3", "4", "5", "6", "7", "30"}
    rows = [at[1] for at in drawing.places.values()]
    assert rows == sorted(rows)


def test_the_group_lies_at_the_origin_or_where_the_part_lies() -> None:
    design = trailer()
    part = design.by_designation("QT1")
    assert (draw_part(design, part).group.x, draw_part(design, part).group.y) == (0, 0)
    there = draw_part(design, part, at_origin=False).group
    assert (there.x, there.y) == (part.x, part.y)
    assert there.tag == part.id


def test_an_unknown_kind_is_a_box_with_the_terminals_that_runs_end_at() -> None:
    design = trailer()
    part = replace(design.by_designation("EX3"), kind="flux_gate")
    design.apply(changed("", [(design.part(part.id), part)]))
    drawing = draw_part(design, part)
    x, y, direction = drawing.anchors["in"]
    assert direction == "left"
    assert x == drawing.box.left or abs(x - drawing.box.left) <= 2
    assert drawing.box.top < y < drawing.box.bottom
