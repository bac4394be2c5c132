"""A design without positions gets a readable sheet: on the grid, along the flow, no overlaps."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import settings as examples
from hypothesis import strategies as st

from linework.design import Design, Draft
from linework.picture.geometry import MODULE
from linework.sheet.arranging.arrange import arranged, arranged_on_sheets, lay_out, needs_arranging
from linework.sheet.compose import compose, compose_all
from linework.sheet.parts import sheet_numbers
from linework.sheet.parts.parts import draw_parts
from linework.sheet.parts.places import placing_of, seat_of
from linework.sheet.routing.routing import end_of
from tests.sheet.samples import at_random, trailer, unplaced


def _overlaps(design: Design) -> list[tuple[str, str]]:
    """Symbols that lie on each other, those that sit in one another aside."""
    drawings = draw_parts(design)

    def family(key: str) -> set[str]:
        found = set()
        while key and key not in found:
            found.add(key)
            key = drawings[key].host
        return found

    return [
        (one.id, other.id)
        for one, other in combinations(drawings.values(), 2)
        if one.sheet == other.sheet
        and one.box.grown(-3).overlaps(other.box.grown(-3))
        and not family(one.id) & family(other.id)
    ]


def test_only_what_was_never_drawn_is_arranged() -> None:
    assert needs_arranging(unplaced())
    assert not needs_arranging(trailer())
    assert not needs_arranging(Draft().design)


@pytest.mark.parametrize("rows", [1, 4, 12, 30])
def test_nothing_overlaps_and_all_lies_on_the_grid(rows: int) -> None:
    design = lay_out(unplaced(rows))
    assert _overlaps(design) == []
    for part in design.parts:
        at = placing_of(design, part)
        assert at.x % MODULE == 0
        assert at.y % MODULE == 0


@given(st.integers(0, 10_000))
@examples(max_examples=8)
def test_whatever_is_joined_nothing_overlaps(seed: int) -> None:
    assert _overlaps(lay_out(at_random(seed))) == []


def test_power_flows_from_left_to_right() -> None:
    design = lay_out(trailer())
    drawings = draw_parts(design)
    order = ["GS1", "XD1", "XP1", "XI1", "QT1", "QP1", "EX1"]
    xs = [drawings[name].x for name in order]
    assert xs == sorted(xs)


def test_a_load_stands_level_with_its_breaker() -> None:
    design = lay_out(unplaced(6))
    drawings = draw_parts(design)
    for row in range(1, 7):
        breaker, lamp = end_of(drawings, f"QF{row}", "load"), end_of(drawings, f"EL{row}", "in")
        assert breaker[1] == lamp[1]
        assert breaker[0] < lamp[0]


def test_grounding_lies_at_the_bottom() -> None:
    drawings = draw_parts(lay_out(unplaced(6)))
    others = [drawing for key, drawing in drawings.items() if key != "XE1"]
    assert all(drawings["XE1"].box.top > drawing.box.bottom for drawing in others)


def test_what_sits_in_a_part_has_no_position_of_its_own() -> None:
    design = unplaced(3)
    assert set(arranged(design)) == {
        part.id for part in design.parts if seat_of(design, part) is None
    }


def test_a_ring_of_power_does_not_hang_it() -> None:
    draft = Draft()
    for name in ("QT1", "QT2"):
        draft.part("transfer_switch", name)
    draft.run("QT1.load", "QT2.in1", size="10 AWG", length="3 ft")
    draft.run("QT2.load", "QT1.in1", size="10 AWG", length="3 ft")
    places = arranged(draft.design)
    assert places["QT1"] != places["QT2"]


def test_boards_that_are_too_high_one_below_the_other_lie_side_by_side() -> None:
    laid = lay_out(_boards(2))
    assert sheet_numbers(laid) == (1,)
    assert compose(laid).outside == ()
    drawings = draw_parts(laid, at_origin=False)
    assert drawings["QP2"].box.left > drawings["EL11"].box.right


def test_what_does_not_fit_goes_to_a_sheet_of_its_own_with_what_it_feeds() -> None:
    design = _boards(5)
    spots = arranged_on_sheets(design)
    laid = lay_out(design)
    assert sheet_numbers(laid) == tuple(range(1, max(spot.sheet for spot in spots.values()) + 1))
    assert len(sheet_numbers(laid)) > 1
    assert spots["GS1"].sheet == spots["QP1"].sheet == 1
    for board in range(1, 6):
        loads = {spots[f"EL{board}{row}"].sheet for row in range(1, 11)}
        assert loads == {spots[f"QP{board}"].sheet}
    assert all(sheet.outside == () for sheet in compose_all(laid))


def _boards(count: int) -> Design:
    """Boards of ten lamps each, one fed by the one before."""
    draft = Draft()
    draft.part("supply", "GS1")
    feed = "GS1.out"
    for board in range(1, count + 1):
        draft.part("panel", f"QP{board}", places="12")
        draft.run(feed, f"QP{board}.feed", size="6 AWG", length="9 ft")
        for row in range(1, 12):
            draft.part("breaker", f"QF{board}{row}", rating="20 A")
            draft.seat(f"QF{board}{row}", f"QP{board}", str(row))
        for row in range(1, 11):
            draft.part("lamp", f"EL{board}{row}", power="60 W")
            draft.run(f"QF{board}{row}.load", f"EL{board}{row}.in", size="12 AWG", length="9 ft")
        feed = f"QF{board}11.load"
    return draft.design


def test_arranging_twice_gives_the_same() -> None:
    design = trailer()
    assert arranged(design) == arranged(lay_out(design))
