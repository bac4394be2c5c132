from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from linework.design.edits import add_part
from tests.bench.hands import CONTROL, SHIFT, Hand, hand_on, small

FREE = (2600, 1500)


@pytest.fixture
def hand(qtbot: QtBot) -> Hand:
    return hand_on(qtbot)


@pytest.mark.parametrize(
    ("key", "keys", "shift"),
    [
        (Qt.Key.Key_Right, Qt.KeyboardModifier.NoModifier, (25, 0)),
        (Qt.Key.Key_Left, Qt.KeyboardModifier.NoModifier, (-25, 0)),
        (Qt.Key.Key_Up, Qt.KeyboardModifier.NoModifier, (0, -25)),
        (Qt.Key.Key_Down, SHIFT, (0, 100)),
    ],
)
def test_arrow_keys_move_what_is_chosen_by_grid_steps(hand: Hand, key, keys, shift) -> None:
    hand.view.select(("GB1",))
    before = hand.design.part("GB1")
    hand.key(key, keys=keys)
    after = hand.design.part("GB1")
    assert (after.x - before.x, after.y - before.y) == shift
    hand.view.history.undo()
    assert hand.design.part("GB1") == before


def test_r_turns_and_m_mirrors(hand: Hand) -> None:
    hand.view.select(("GB1",))
    hand.key(Qt.Key.Key_R, "r")
    assert hand.design.part("GB1").turn == 1
    hand.key(Qt.Key.Key_R, "R", SHIFT)
    assert hand.design.part("GB1").turn == 0
    hand.key(Qt.Key.Key_M, "m")
    assert hand.design.part("GB1").mirror
    hand.key(Qt.Key.Key_R, "r", CONTROL)
    assert hand.design.part("GB1").turn == 0, "with other keys it means something else"


def test_what_sits_in_another_part_is_not_turned_alone_and_it_is_said(hand: Hand) -> None:
    before = hand.design.snapshot()
    hand.view.select(("QF1",))
    hand.key(Qt.Key.Key_R, "r")
    assert hand.design.same_as(before)
    assert "turns with it" in hand.said[0]


@pytest.mark.parametrize("key", [Qt.Key.Key_Delete, Qt.Key.Key_Backspace])
def test_delete_removes_what_is_chosen_with_its_runs(hand: Hand, key) -> None:
    before = hand.design.snapshot()
    hand.view.select(("G1",))
    hand.key(key)
    assert "G1" not in hand.design
    assert all("G1" not in (r.a.part, r.b.part) for r in hand.design.runs)
    assert hand.view.selection == ()
    hand.view.history.undo()
    assert hand.design.same_as(before)


def test_delete_takes_a_place_away_from_a_plug(hand: Hand) -> None:
    hand.drop("plug", hand.middle("XD1"))
    (seat,) = [s for s in hand.design.seats if s.host == "XD1"]
    hand.view.select((seat.id,))
    hand.key(Qt.Key.Key_Delete)
    assert seat.id not in hand.design
    assert hand.design.part(seat.part)


def test_escape_lets_go_of_the_caret_and_then_of_what_is_chosen(hand: Hand) -> None:
    hand.click(FREE)
    assert hand.view.caret == FREE
    hand.view.select(("G1",))
    hand.key(Qt.Key.Key_Escape)
    assert hand.view.caret is None
    assert hand.view.selection == ("G1",)
    hand.key(Qt.Key.Key_Escape)
    assert hand.view.selection == ()


def test_everything_is_chosen_at_once(hand: Hand) -> None:
    hand.key(Qt.Key.Key_A, "a", CONTROL)
    wanted = {p.id for p in hand.design.parts} | {r.id for r in hand.design.runs}
    assert set(hand.view.selection) == wanted


def test_enter_opens_what_is_chosen(hand: Hand) -> None:
    told: list[object] = []
    hand.view.opened.connect(told.append)
    hand.view.select(("GB1",))
    hand.key(Qt.Key.Key_Return)
    assert told == ["GB1"]


def test_a_click_on_paper_and_words_place_a_rated_part(hand: Hand) -> None:
    hand.click(FREE)
    hand.key(Qt.Key.Key_3, "3")
    typed = hand.view.typed_place
    assert typed.isVisible()
    assert typed.line.text() == "3"
    typed.line.setText("30 A breaker")
    assert typed.list.item(0).text() == "breaker (Rating: 30 A)"
    press_in(hand, Qt.Key.Key_Return)
    assert not typed.isVisible()
    (part,) = [p for p in hand.design.parts if p.kind == "breaker" and p.id != "QF1"]
    assert (part.x, part.y, part.ratings["rating"]) == (*FREE, "30 A")
    assert hand.view.selection == (part.id,)
    assert hand.view.caret is None


def press_in(hand: Hand, key: Qt.Key) -> None:
    from PySide6.QtTest import QTest

    QTest.keyClick(hand.view.typed_place.line, key)


def test_the_list_is_walked_with_the_arrow_keys(hand: Hand) -> None:
    hand.click(FREE)
    hand.key(Qt.Key.Key_Return)
    typed = hand.view.typed_place
    assert typed.list.count() > 3
    first = typed.list.currentRow()
    press_in(hand, Qt.Key.Key_Down)
    press_in(hand, Qt.Key.Key_Down)
    assert typed.list.currentRow() == first + 2
    press_in(hand, Qt.Key.Key_Up)
    assert typed.list.currentRow() == first + 1


def test_escape_closes_the_line_and_places_nothing(hand: Hand) -> None:
    before = hand.design.snapshot()
    hand.click(FREE)
    hand.key(Qt.Key.Key_B, "b")
    press_in(hand, Qt.Key.Key_Escape)
    assert not hand.view.typed_place.isVisible()
    assert hand.design.same_as(before)


def test_what_nobody_knows_is_said_and_places_nothing(hand: Hand) -> None:
    before = hand.design.snapshot()
    hand.click(FREE)
    hand.key(Qt.Key.Key_X, "x")
    typed = hand.view.typed_place
    typed.line.setText("xyzzy")
    assert "nothing of this name" in typed.list.item(0).text()
    press_in(hand, Qt.Key.Key_Return)
    assert hand.design.same_as(before)


def test_the_caret_moves_with_the_arrow_keys(hand: Hand) -> None:
    hand.click(FREE)
    hand.key(Qt.Key.Key_Right)
    hand.key(Qt.Key.Key_Down, keys=SHIFT)
    assert hand.view.caret == (FREE[0] + 25, FREE[1] + 100)


def test_letters_without_a_caret_do_nothing(hand: Hand) -> None:
    before = hand.design.snapshot()
    hand.key(Qt.Key.Key_B, "b")
    hand.key(Qt.Key.Key_Return)
    assert not hand.view.typed_place.isVisible()
    assert "click on the paper" in hand.said[0]
    assert hand.design.same_as(before)


def test_a_kind_is_placed_where_there_is_room_near_the_middle(hand: Hand) -> None:
    hand.view.place_kind("junction_box")
    hand.view.place_kind("junction_box")
    one, other = [p for p in hand.design.parts if p.kind == "junction_box"]
    assert (one.x, one.y) != (other.x, other.y)
    layout = hand.view.sheet_scene.layout
    assert layout is not None
    boxes = [layout.drawings[p.id].box for p in hand.design.parts if p.id != "QF1"]
    assert not any(a.overlaps(b) for n, a in enumerate(boxes) for b in boxes[n + 1 :])


def test_a_kind_is_placed_at_the_caret_where_there_is_one(hand: Hand) -> None:
    hand.click(FREE)
    hand.view.place_kind("lamp")
    (part,) = [p for p in hand.design.parts if p.kind == "lamp"]
    assert (part.x, part.y) == FREE


def test_elements_on_another_sheet_are_brought_into_view(qtbot: QtBot) -> None:
    design = small()
    design.apply(add_part(design, "lamp", at=(800, 800), sheet=2, part_id="EL1"))
    hand = hand_on(qtbot, design)
    hand.view.zoom_by(6.0)
    hand.view.bring_into_view(("EL1",))
    assert hand.view.sync.sheet == 2
    assert hand.view.viewport().rect().contains(hand.view.rect_of("EL1").center())
    assert hand.view.rect_of("G1").isEmpty()


def test_another_design_is_shown_in_the_same_view(hand: Hand) -> None:
    from linework.design import Design, History

    hand.view.select(("G1",))
    hand.view.set_history(History(Design()))
    assert hand.view.selection == ()
    layout = hand.view.sheet_scene.layout
    assert layout is not None
    assert layout.drawings == {}
    hand.drop("lamp", FREE)
    assert len(hand.design.parts) == 1
    assert len(layout.drawings) == 0
