from __future__ import annotations

from itertools import pairwise

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QFocusEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from linework.bench.paper.hits import Hit
from linework.bench.paper.scene import SheetScene
from linework.bench.paper.sync import Sync
from linework.design import Design, End, History, Part, Run, pole_map
from linework.design.edits import add_note, add_part, add_run, rate, seat
from linework.sheet.parts.places import placing_of, seat_of
from linework.wiring import Pole
from tests.bench.hands import ALT, MIDDLE, SHIFT, Hand, hand_on, small

FREE = (2600, 1500)
# The offscreen platform says this of every menu that pops up.
asking = pytest.mark.qt_log_ignore("does not support (raise|grabbing)", extend=True)


@pytest.fixture
def hand(qtbot: QtBot) -> Hand:
    return hand_on(qtbot)


def new_part(hand: Hand, kind: str) -> Part:
    known = {p.id for p in small().parts}
    (part,) = [p for p in hand.design.parts if p.kind == kind and p.id not in known]
    return part


def copy_of(design: Design) -> Design:
    return design.snapshot()


def undone(hand: Hand, before: Design) -> None:
    """One edit was made: one undo takes it all back."""
    assert not hand.design.same_as(before)
    hand.view.history.undo()
    assert hand.design.same_as(before)


# placing from the strip


def test_a_part_dropped_on_bare_paper_lies_there_on_the_grid_and_is_chosen(hand: Hand) -> None:
    before = copy_of(hand.design)
    hand.drop("lamp", (FREE[0] + 7, FREE[1] - 9))
    part = new_part(hand, "lamp")
    assert (part.x, part.y) == FREE
    assert part.designation
    assert hand.view.selection == (part.id,)
    assert hand.overlays() == []
    undone(hand, before)


def test_a_ghost_follows_a_part_from_the_strip_and_goes_when_it_is_carried_off(hand: Hand) -> None:
    before = copy_of(hand.design)
    hand.carry("lamp", FREE)
    assert "GhostItem" in hand.overlays()
    hand.carry_off()
    assert hand.overlays() == []
    assert hand.design.same_as(before)


def test_something_else_dragged_over_the_sheet_is_not_taken(hand: Hand) -> None:
    from PySide6.QtCore import QMimeData
    from PySide6.QtGui import QDragEnterEvent

    data = QMimeData()
    data.setText("lamp")
    at = hand.pixel(FREE).toPoint()
    enter = QDragEnterEvent(
        at, Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton, Qt.KeyboardModifier(0)
    )
    enter.setAccepted(True)
    QApplication.sendEvent(hand.view.viewport(), enter)
    assert not enter.isAccepted()
    assert hand.overlays() == []


def test_a_breaker_dropped_on_a_panel_takes_the_nearest_free_place(hand: Hand) -> None:
    before = copy_of(hand.design)
    hand.carry("breaker", hand.place("QP1", "3"))
    assert "FieldItem" in hand.overlays()
    assert "QP1" in hand.hint()
    hand.drop("breaker", hand.place("QP1", "3"))
    part = new_part(hand, "breaker")
    (found,) = hand.design.seats_of(part.id)
    assert (found.host, found.place) == ("QP1", "3")
    undone(hand, before)


def test_a_breaker_dropped_on_a_taken_place_goes_to_the_next_free_one(hand: Hand) -> None:
    hand.drop("breaker", hand.place("QP1", "1"))
    (found,) = hand.design.seats_of(new_part(hand, "breaker").id)
    assert found.place == "2"


def test_a_full_panel_says_that_it_is_full(qtbot: QtBot) -> None:
    design = small()
    design.apply(rate(design, "QP1", {"places": "1"}))
    hand = hand_on(qtbot, design)
    before = copy_of(design)
    hand.carry("breaker", hand.middle("QP1"))
    assert "place 1 of QP1 is taken" in hand.hint()
    hand.drop("breaker", hand.middle("QP1"))
    assert hand.design.same_as(before)
    assert hand.said == ["place 1 of QP1 is taken"]
    assert hand.hint() == "place 1 of QP1 is taken", "where the pointer is"


@pytest.mark.parametrize("kind", ["outlet", "breaker"])
def test_what_sits_on_a_generator_is_seated_there(hand: Hand, kind: str) -> None:
    hand.drop(kind, hand.middle("G1"))
    (found,) = hand.design.seats_of(new_part(hand, kind).id)
    assert found.host == "G1"


def test_an_outlet_dropped_on_a_breaker_sits_behind_it(hand: Hand) -> None:
    hand.drop("breaker", FREE)
    breaker = new_part(hand, "breaker")
    hand.drop("outlet", hand.middle(breaker.id))
    (found,) = hand.design.seats_of(new_part(hand, "outlet").id)
    assert (found.host, found.place) == (breaker.id, "load")


def test_a_plug_in_load_dropped_on_an_outlet_is_plugged_in(hand: Hand) -> None:
    hand.drop("plug_load", hand.middle("XD1"))
    (found,) = hand.design.seats_of(new_part(hand, "plug_load").id)
    assert (found.host, found.place) == ("XD1", "face")


def test_a_hand_moved_plug_may_go_to_several_outlets(hand: Hand) -> None:
    hand.drop("plug", hand.middle("XD1"))
    plug = new_part(hand, "plug")
    hand.drop("outlet", FREE)
    other = new_part(hand, "outlet")
    hand.drag(hand.middle(plug.id), hand.middle(other.id))
    assert {s.host for s in hand.design.seats_of(plug.id)} == {"XD1", other.id}
    before = copy_of(hand.design)
    hand.drag(hand.middle(plug.id), hand.middle(other.id))
    assert hand.design.same_as(before), "a second time it is there already"


def test_a_part_dropped_on_a_run_goes_into_it(hand: Hand) -> None:
    before = copy_of(hand.design)
    run = hand.design.runs_at("G1")[0]
    at = hand.middle(run.id)
    hand.carry("breaker", at)
    assert hand.hint() == "into this run"
    hand.drop("breaker", at)
    part = new_part(hand, "breaker")
    ends = {run.a.part for run in hand.design.runs_at(part.id)}
    ends |= {run.b.part for run in hand.design.runs_at(part.id)}
    assert ends == {"G1", "QP1", part.id}
    carried = {p for r in hand.design.runs_at(part.id) for p, _ in pole_map(hand.design, r)}
    assert carried == {Pole.L, Pole.N, Pole.PE}
    undone(hand, before)


def test_what_takes_no_run_through_lies_on_the_paper_even_over_a_run(hand: Hand) -> None:
    hand.drop("lamp", hand.middle(hand.design.runs_at("G1")[0].id))
    assert hand.design.runs_at(new_part(hand, "lamp").id) == []


# direct current


def test_a_breaker_put_into_a_battery_lead_becomes_a_direct_current_breaker(qtbot: QtBot) -> None:
    design = small()
    design.apply(
        add_part(design, "panel", at=(1500, 1500), part_id="QP2", ratings={"circuit": "dc"})
    )
    design.apply(add_run(design, End("GB1", "dc"), End("QP2", "feed"), run_id="W7"))
    hand = hand_on(qtbot, design)
    before = copy_of(design)
    hand.drop("breaker", hand.middle("W7"))
    part = new_part(hand, "breaker")
    assert part.ratings["circuit"] == "dc"
    for run in hand.design.runs_at(part.id):
        assert {p for p, _ in pole_map(hand.design, run)} == {Pole.POS, Pole.NEG}
    undone(hand, before)


def test_a_fuse_put_into_an_ac_run_carries_what_the_run_carries(hand: Hand) -> None:
    hand.drop("fuse", hand.middle(hand.design.runs_at("G1")[0].id))
    assert new_part(hand, "fuse").ratings["circuit"] == "ac"


def test_a_breaker_in_a_direct_current_board_becomes_a_direct_current_breaker(qtbot: QtBot) -> None:
    design = small()
    design.apply(
        add_part(design, "panel", at=(1500, 1500), part_id="QP2", ratings={"circuit": "dc"})
    )
    hand = hand_on(qtbot, design)
    hand.drop("breaker", hand.place("QP2", "2"))
    assert new_part(hand, "breaker").ratings["circuit"] == "dc"


def test_a_new_lamp_joined_to_a_battery_takes_direct_current_in_the_same_edit(hand: Hand) -> None:
    hand.drop("lamp", FREE)
    lamp = new_part(hand, "lamp")
    before = copy_of(hand.design)
    hand.drag(hand.anchor("GB1", "dc"), hand.anchor(lamp.id, "in"))
    assert hand.design.part(lamp.id).ratings["circuit"] == "dc"
    (run,) = hand.design.runs_at(lamp.id)
    assert pole_map(hand.design, run) == ((Pole.POS, Pole.POS), (Pole.NEG, Pole.NEG))
    assert hand.view.selection == (run.id,)
    undone(hand, before)


def test_a_part_that_is_wired_for_ac_already_keeps_its_circuit(hand: Hand) -> None:
    before = copy_of(hand.design)
    hand.press(hand.anchor("GB1", "dc"))
    hand.move(hand.anchor("XD1", "onward"))
    assert "no conductor fits both" in hand.hint()
    hand.release(hand.anchor("XD1", "onward"))
    assert hand.design.same_as(before)
    assert "no conductor fits both" in hand.said[0]


# joining


def test_terminals_light_up_while_a_run_is_drawn(hand: Hand) -> None:
    from linework.bench.paper.overlay import LitItem

    hand.press(hand.anchor("XD1", "onward"))
    (lit,) = [i for i in hand.view.sheet_scene.items() if isinstance(i, LitItem)]
    spots = {(spot.x, spot.y): spot.asks for spot in lit.lit}
    assert hand.anchor("G1", "out") in spots
    assert hand.anchor("GB1", "dc") not in spots
    assert spots[hand.anchor("XB1", "tie")] is True, "neutral or ground wire: it must be asked"
    assert spots[hand.anchor("G1", "out")] is False
    hand.release(hand.anchor("XD1", "onward"))
    assert hand.overlays() == []


def test_a_run_from_terminal_to_terminal_is_one_edit(hand: Hand) -> None:
    hand.drop("lamp", FREE)
    lamp = new_part(hand, "lamp")
    before = copy_of(hand.design)
    hand.drag(hand.anchor("XD1", "onward"), hand.anchor(lamp.id, "in"))
    (run,) = hand.design.runs_at(lamp.id)
    assert (run.a, run.b) == (End("XD1", "onward"), End(lamp.id, "in"))
    undone(hand, before)


def test_let_go_on_the_body_of_a_part_the_run_takes_the_terminal_that_fits(hand: Hand) -> None:
    hand.drop("inverter_charger", (2000, 1500))
    inverter = new_part(hand, "inverter_charger")
    hand.drag(hand.anchor("GB1", "dc"), hand.middle(inverter.id))
    (run,) = hand.design.runs_at(inverter.id)
    assert run.b == End(inverter.id, "dc")


def test_a_run_let_go_on_bare_paper_is_none(hand: Hand) -> None:
    before = copy_of(hand.design)
    hand.drag(hand.anchor("XD1", "onward"), FREE)
    assert hand.design.same_as(before)
    assert hand.overlays() == []


def test_a_run_let_go_on_another_run_says_what_to_do(hand: Hand) -> None:
    before = copy_of(hand.design)
    hand.drag(hand.anchor("XD1", "onward"), hand.middle(hand.design.runs_at("G1")[0].id))
    assert hand.design.same_as(before)
    assert "junction box" in hand.said[0]


@asking
def test_minus_to_chassis_is_asked_and_joined_as_answered(hand: Hand) -> None:
    before = copy_of(hand.design)
    hand.drag(hand.anchor("GB1", "dc"), hand.anchor("XB1", "tie"))
    assert hand.design.same_as(before), "unlike poles are never joined without asking"
    assert hand.view._menu is not None
    (action,) = hand.view._menu.actions()
    assert action.text() == "minus to chassis or hull"
    action.trigger()
    hand.view._menu.close()
    (run,) = [r for r in hand.design.runs if r.a.part == "GB1"]
    assert run.poles == ((Pole.NEG, Pole.BODY),)
    undone(hand, before)


@asking
def test_neutral_or_ground_wire_to_chassis_is_a_question(hand: Hand) -> None:
    before = copy_of(hand.design)
    hand.drag(hand.anchor("G1", "out"), hand.anchor("XB1", "tie"))
    assert hand.design.same_as(before), "nothing before it is answered"
    menu = hand.view._menu
    assert menu is not None
    labels = [action.text() for action in menu.actions()]
    assert labels == ["ground wire to chassis or hull", "neutral to chassis or hull"]
    menu.actions()[1].trigger()
    menu.close()
    (run,) = [r for r in hand.design.runs if r.b.part == "XB1"]
    assert run.poles == ((Pole.N, Pole.BODY),)


@asking
def test_a_question_that_is_not_answered_joins_nothing(hand: Hand) -> None:
    before = copy_of(hand.design)
    hand.drag(hand.anchor("G1", "out"), hand.anchor("XB1", "tie"))
    assert hand.view._menu is not None
    hand.view._menu.close()
    assert hand.design.same_as(before)


@asking
def test_with_the_asking_key_even_a_plain_run_is_asked(hand: Hand) -> None:
    hand.drop("lamp", FREE)
    lamp = new_part(hand, "lamp")
    hand.drag(hand.anchor("XD1", "onward"), hand.anchor(lamp.id, "in"), ALT)
    assert hand.design.runs_at(lamp.id) == []
    assert hand.view._menu is not None
    assert [a.text() for a in hand.view._menu.actions()] == ["hot, neutral, ground wire"]
    hand.view._menu.close()


def test_a_run_drawn_from_the_pins_of_a_plug_to_an_outlet_is_a_place_to_go(hand: Hand) -> None:
    hand.drop("plug", FREE)
    plug = new_part(hand, "plug")
    hand.drag(hand.anchor(plug.id, "pins"), hand.middle("XD1"))
    assert [s.host for s in hand.design.seats_of(plug.id)] == ["XD1"]
    assert hand.design.runs_at(plug.id) == []


# moving


def test_a_part_is_moved_on_the_grid_by_one_edit(hand: Hand) -> None:
    before = copy_of(hand.design)
    x, y = hand.middle("GB1")
    hand.drag((x, y), (x + 208, y - 90))
    part = hand.design.part("GB1")
    assert (part.x, part.y) == (700, 1500)
    assert hand.view.selection == ("GB1",)
    undone(hand, before)


def test_a_ghost_is_shown_and_the_part_stays_until_it_is_let_go(hand: Hand) -> None:
    x, y = hand.middle("G1")
    item = hand.view.sheet_scene.items_by_key["G1#0"]
    before = item.pos()
    hand.press((x, y))
    hand.move((x + 300, y + 300))
    assert hand.overlays() == ["GhostItem", "LinesItem"]
    assert item.pos() == before
    hand.release((x + 300, y + 300))
    assert hand.overlays() == []
    assert item.pos() != before


@pytest.mark.parametrize("way", ["escape", "focus", "other button"])
def test_dropping_a_drag_leaves_everything_as_it_was(hand: Hand, way: str) -> None:
    before, look = copy_of(hand.design), hand.view.sheet_scene.fingerprint()
    x, y = hand.middle("G1")
    hand.press((x, y))
    hand.move((x + 300, y + 300))
    if way == "escape":
        hand.key(Qt.Key.Key_Escape)
    elif way == "focus":
        QApplication.sendEvent(hand.view, QFocusEvent(QEvent.Type.FocusOut))
    else:
        hand.press((x + 300, y + 300), MIDDLE)
    assert hand.overlays() == []
    hand.move((x + 400, y + 400))
    hand.release((x + 400, y + 400))
    assert hand.design.same_as(before)
    assert hand.view.sheet_scene.fingerprint() == look
    assert hand.view.history.undo_title == ""


def test_escape_drops_a_run_that_is_being_drawn(hand: Hand) -> None:
    before = copy_of(hand.design)
    hand.press(hand.anchor("XD1", "onward"))
    hand.move(FREE)
    hand.key(Qt.Key.Key_Escape)
    assert hand.overlays() == []
    hand.release(hand.anchor("XB1", "tie"))
    assert hand.design.same_as(before)


def test_an_edit_by_somebody_else_drops_what_the_hand_is_doing(hand: Hand) -> None:
    from linework.design.edits import remove

    x, y = hand.middle("G1")
    hand.press((x, y))
    hand.move((x + 300, y + 300))
    hand.view.history.do(remove(hand.design, ["G1"]))
    assert hand.overlays() == []
    hand.release((x + 300, y + 300))
    assert "G1" not in hand.design
    assert hand.view.selection == ()


def test_all_that_is_chosen_moves_together(hand: Hand) -> None:
    hand.view.history.do(add_note(hand.design, "spare", (2600, 1800)))
    note = hand.design.notes[0]
    before = copy_of(hand.design)
    hand.view.select(("GB1", "XB1", note.id))
    x, y = hand.middle("GB1")
    hand.drag((x, y), (x + 100, y))
    assert hand.design.part("GB1").x == 600
    assert hand.design.part("XB1").x == 1600
    assert hand.design.notes[0].x == 2700
    undone(hand, before)


def test_what_sits_in_a_part_moves_with_it(hand: Hand) -> None:
    before = placing_of(hand.design, hand.design.part("QF1"))
    x = hand.middle("QP1")[0]
    hand.drag((x, hand.place("QP1", "4")[1] + 60), (x, hand.place("QP1", "4")[1] + 160))
    after = placing_of(hand.design, hand.design.part("QF1"))
    assert (after.x, after.y) == (before.x, before.y + 100)
    assert seat_of(hand.design, hand.design.part("QF1")) is not None


def test_a_seated_part_is_dragged_to_another_place(hand: Hand) -> None:
    before = copy_of(hand.design)
    hand.drag(hand.middle("QF1"), hand.place("QP1", "3"))
    (found,) = hand.design.seats_of("QF1")
    assert (found.host, found.place) == ("QP1", "3")
    undone(hand, before)


def test_a_seated_part_let_go_where_it_sits_stays(hand: Hand) -> None:
    before = copy_of(hand.design)
    x, y = hand.middle("QF1")
    hand.drag((x, y), (x + 30, y + 10))
    assert hand.design.same_as(before)


def test_a_seated_part_dragged_onto_the_paper_is_taken_out(hand: Hand) -> None:
    before = copy_of(hand.design)
    hand.drag(hand.middle("QF1"), FREE)
    assert hand.design.seats_of("QF1") == []
    part = hand.design.part("QF1")
    assert abs(part.x - FREE[0]) <= 50
    assert abs(part.y - FREE[1]) <= 50
    assert part.x % 25 == part.y % 25 == 0
    undone(hand, before)


def test_a_part_is_not_dragged_into_a_taken_place(hand: Hand) -> None:
    hand.drop("plug_load", hand.middle("XD1"))
    hand.drop("plug_load", FREE)
    loose = next(
        p for p in hand.design.parts if p.kind == "plug_load" and not hand.design.seats_of(p.id)
    )
    before = copy_of(hand.design)
    hand.drag(hand.middle(loose.id), hand.middle("XD1"))
    assert hand.design.same_as(before)
    assert "taken" in hand.said[-1]


def test_a_guide_shows_when_terminals_come_level(hand: Hand) -> None:
    from linework.bench.paper.guides import guides

    layout = hand.view.sheet_scene.layout
    assert layout is not None
    x, y = hand.anchor("G1", "out")
    found = guides(layout.drawings, [(x + 300, y)], frozenset({"XD1"}))
    assert ((x + 300, y), (x, y)) in found
    assert all(a[0] == b[0] or a[1] == b[1] for a, b in found)
    assert guides(layout.drawings, [(x + 301, y + 1)], frozenset()) == ()


# choosing


def test_a_click_chooses_and_a_click_on_paper_chooses_nothing(hand: Hand) -> None:
    hand.click(hand.middle("G1"))
    assert hand.view.selection == ("G1",)
    hand.click(hand.middle(hand.design.runs_at("G1")[0].id))
    assert hand.view.selection == (hand.design.runs_at("G1")[0].id,)
    hand.click(FREE)
    assert hand.view.selection == ()
    assert hand.chosen == [("G1",), (hand.design.runs_at("G1")[0].id,), ()]


def test_the_adding_key_adds_and_takes_out(hand: Hand) -> None:
    hand.click(hand.middle("G1"))
    hand.click(hand.middle("GB1"), SHIFT)
    assert hand.view.selection == ("G1", "GB1")
    hand.click(hand.middle("G1"), SHIFT)
    assert hand.view.selection == ("GB1",)


def test_a_click_on_a_terminal_chooses_its_part(hand: Hand) -> None:
    hand.click(hand.anchor("XB1", "tie"))
    assert hand.view.selection == ("XB1",)
    assert hand.overlays() == []


def test_the_smaller_of_two_parts_is_met(hand: Hand) -> None:
    hand.click(hand.middle("QF1"))
    assert hand.view.selection == ("QF1",)


def test_a_band_chooses_what_lies_wholly_inside(hand: Hand) -> None:
    hand.press((300, 1350))
    hand.move((1000, 1700))
    assert hand.overlays() == ["FieldItem"]
    hand.release((1000, 1700))
    assert hand.view.selection == ("GB1",)
    hand.drag((1300, 1700), (1700, 2100), SHIFT)
    assert hand.view.selection == ("GB1", "XB1")
    assert hand.overlays() == []
    hand.drag((480, 1350), (1000, 1700))
    assert hand.view.selection == (), "half inside is not inside"


def test_choosing_is_told_once_for_each_change(hand: Hand) -> None:
    hand.view.select(("G1",))
    hand.view.select(("G1",))
    hand.view.select(("G1", "nobody"))
    assert hand.chosen == [("G1",)]


# bends


@pytest.mark.parametrize("chosen", [True, False], ids=["chosen before", "straight away"])
def test_a_run_is_bent_and_keeps_its_bends(hand: Hand, chosen: bool) -> None:
    run = hand.design.runs_at("G1")[0]
    before = copy_of(hand.design)
    at = hand.middle(run.id)
    if chosen:
        hand.click(at)
    hand.drag(at, (at[0], at[1] + 300))
    bent = hand.design.get(run.id)
    assert isinstance(bent, Run)
    assert bent.route
    layout = hand.view.sheet_scene.layout
    assert layout is not None
    way = layout.ways[run.id]
    assert set(bent.route) <= set(way)
    assert all(a[0] == b[0] or a[1] == b[1] for a, b in pairwise(way))
    assert any(y == round((at[1] + 300) / 25) * 25 for _, y in way)
    undone(hand, before)


def test_the_bends_stay_when_an_end_is_moved(hand: Hand) -> None:
    run = hand.design.runs_at("G1")[0]
    at = hand.middle(run.id)
    hand.drag(at, (at[0], at[1] + 300))
    line = round((at[1] + 300) / 25) * 25
    for dx, dy in ((0, 200), (-100, -150)):
        middle = hand.middle("G1")
        hand.drag(middle, (middle[0] + dx, middle[1] + dy))
        hand.view.sync.settle()
        layout = hand.view.sheet_scene.layout
        assert layout is not None
        way = layout.ways[run.id]
        assert way[0] == hand.anchor("G1", "out")
        assert all(a[0] == b[0] or a[1] == b[1] for a, b in pairwise(way))
        assert any(a[1] == b[1] == line for a, b in pairwise(way)), "where the hand had put it"


def test_a_double_click_lays_a_bent_run_anew_and_opens_anything_else(hand: Hand) -> None:
    from linework.design.edits import reroute

    opened: list[object] = []
    hand.view.opened.connect(opened.append)
    run = hand.design.runs_at("G1")[0]
    hand.view.history.do(reroute(hand.design, run.id, [(900, 900), (1200, 900)]))
    hand.view.sync.settle()
    hand.double_click((1050, 900))
    found = hand.design.get(run.id)
    assert isinstance(found, Run)
    assert found.route == ()
    hand.double_click(hand.middle("GB1"))
    assert opened == ["GB1"]


# panning and zooming


def test_the_middle_button_and_the_space_bar_pan(hand: Hand) -> None:
    hand.view.zoom_by(3.0)
    before = copy_of(hand.design)
    corner = hand.pixel((0, 0))
    at = hand.middle("QP1")
    hand.press(at, MIDDLE)
    hand.move((at[0] + 100, at[1] + 60), MIDDLE)
    moved = hand.pixel((0, 0)) - corner
    assert (moved.x(), moved.y()) != (0, 0)
    hand.release(at, MIDDLE)
    assert hand.view.selection == ()
    assert hand.design.same_as(before)


def test_space_then_drag_moves_the_paper_and_nothing_else(hand: Hand) -> None:
    from PySide6.QtGui import QKeyEvent

    before = copy_of(hand.design)
    hand.view.zoom_by(2.0)
    space = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_Space, Qt.KeyboardModifier(0), " ")
    QApplication.sendEvent(hand.view, space)
    at = hand.middle("G1")
    corner = hand.pixel((0, 0))
    hand.press(at)
    hand.move((at[0] + 200, at[1] + 100))
    assert hand.pixel((0, 0)) != corner
    hand.release(at)
    up = QKeyEvent(QEvent.Type.KeyRelease, Qt.Key.Key_Space, Qt.KeyboardModifier(0), " ")
    QApplication.sendEvent(hand.view, up)
    assert hand.design.same_as(before)
    assert hand.view.selection == ()


def test_the_wheel_zooms_about_the_pointer(hand: Hand) -> None:
    at = hand.middle("QP1")
    before, zoom = hand.pixel(at), hand.view.zoom
    hand.wheel(at, 3)
    after = hand.pixel(at)
    assert hand.view.zoom == pytest.approx(zoom * 1.2**3)
    assert abs(after.x() - before.x()) <= 2
    assert abs(after.y() - before.y()) <= 2


def test_zoom_has_limits_and_control_zero_shows_the_page(hand: Hand) -> None:
    whole = hand.view.zoom
    hand.view.zoom_by(1000.0)
    assert hand.view.zoom == pytest.approx(12.0)
    hand.view.zoom_by(1e-6)
    assert hand.view.zoom == pytest.approx(0.05)
    hand.key(Qt.Key.Key_0, "0", Qt.KeyboardModifier.ControlModifier)
    assert hand.view.zoom == pytest.approx(whole)
    box = hand.view.visible_box
    assert box.left < 0
    assert box.right > 4200
    assert box.top < 0
    assert box.bottom > 2970


# what lies under the pointer


def test_hovering_tells_what_is_there(hand: Hand) -> None:
    told: list[Hit] = []
    hand.view.hovered.connect(told.append)
    hand.hover(hand.middle("GB1"))
    hand.hover(hand.anchor("GB1", "dc"))
    hand.hover(FREE)
    assert [(h.sort, h.element, h.terminal) for h in told] == [
        ("part", "GB1", ""),
        ("terminal", "GB1", "dc"),
        ("paper", "", ""),
    ]


def test_a_click_on_a_flag_tells_its_number(hand: Hand) -> None:
    from linework.analysis import analyse

    analysis = analyse(hand.design)
    hand.view.show_analysis(analysis)
    told: list[object] = []
    hand.view.flagged.connect(told.append)
    layout = hand.view.sheet_scene.layout
    assert layout is not None
    key = next(key for key in layout.items if key.startswith("flag-"))
    hand.click(layout.items[key][0].center)
    assert told == [int(key.removeprefix("flag-"))]
    assert hand.view.selection == ()


def test_an_own_tool_takes_the_presses_until_it_is_taken_away(hand: Hand) -> None:
    seen: list[str] = []

    def probe(surface: object, spot: object, found: Hit) -> None:
        seen.append(found.element)

    hand.view.set_active_tool(probe)
    hand.click(hand.middle("G1"))
    assert seen == ["G1"]
    assert hand.view.selection == ()
    hand.view.set_active_tool(None)
    hand.click(hand.middle("G1"))
    assert hand.view.selection == ("G1",)


def test_after_all_this_the_scene_is_still_the_one_from_scratch(hand: Hand) -> None:
    hand.drop("lamp", FREE)
    hand.drag(hand.anchor("XD1", "onward"), hand.anchor(new_part(hand, "lamp").id, "in"))
    hand.drag(hand.middle("G1"), (800, 1100))
    hand.view.history.undo()
    hand.view.sync.settle()
    scene = SheetScene()
    Sync(scene, History(hand.design))
    assert hand.view.sheet_scene.fingerprint() == scene.fingerprint()


def test_a_breaker_seated_and_joined_by_hand_makes_a_circuit(hand: Hand) -> None:
    hand.drop("breaker", hand.place("QP1", "2"))
    breaker = new_part(hand, "breaker")
    hand.drop("lamp", FREE)
    lamp = new_part(hand, "lamp")
    hand.drag(hand.anchor(breaker.id, "load"), hand.middle(lamp.id))
    (run,) = hand.design.runs_at(lamp.id)
    assert {run.a, run.b} == {End(breaker.id, "load"), End(lamp.id, "in")}


def test_a_seat_edit_made_elsewhere_is_followed(hand: Hand) -> None:
    hand.drop("breaker", FREE)
    breaker = new_part(hand, "breaker")
    hand.view.history.do(seat(hand.design, breaker.id, "QP1", "4"))
    assert hand.middle(breaker.id)[1] == pytest.approx(hand.place("QP1", "4")[1], abs=60)
