"""The smaller pieces of the window: where things float, how rows break, menus, the job's questions,
copying, interlocks, the parts tree."""

from __future__ import annotations

import re
from itertools import combinations

import pytest
from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QLabel, QWidget
from pytestqt.qtbot import QtBot

from linework.bench.card.answers import typed
from linework.bench.card.wires import read_wires, wires_text
from linework.bench.file.jobform import JobForm
from linework.bench.file.startcard import StartCard, samples
from linework.bench.frame.actions import items
from linework.bench.frame.clipping import copied, pasted
from linework.bench.frame.commands import Commands
from linework.bench.frame.floating import place_beside, regrown
from linework.bench.frame.interlocking import interlock, unlock
from linework.bench.looks.colors import palette_of, style_sheet
from linework.bench.looks.flow import Flow
from linework.bench.margin.tree import PartsTree
from linework.bench.paper.runform import RunForm
from linework.bench.process.levers import lever_board
from linework.bench.states.shown import report_of
from linework.design import Design, Draft, EditError
from linework.design.edits import add_note, remove, reroute
from linework.design.history import History
from linework.kinds import Band, kinds
from linework.picture.inks import Ink
from linework.picture.model import flatten
from linework.sheet.compose import compose
from linework.storage import dumps, loads
from linework.wiring import Pole
from tests.bench.benches import small, two_sources, verdict

ROOM = QRect(0, 0, 1000, 700)


# floating


@pytest.mark.parametrize("x", [20, 480, 940])
@pytest.mark.parametrize("y", [20, 330, 640])
def test_the_card_lies_in_the_window_and_off_its_part(x: int, y: int) -> None:
    part = QRect(x, y, 40, 40)
    place = place_beside(part, QSize(300, 250), ROOM, [])
    assert ROOM.contains(place)
    assert not place.intersects(part)


def test_the_card_keeps_off_what_else_is_drawn_where_it_can() -> None:
    part = QRect(480, 330, 40, 40)
    others = [QRect(530, 100, 400, 500)]
    place = place_beside(part, QSize(300, 250), ROOM, others)
    assert not place.intersects(others[0])


def test_a_card_that_says_more_stays_where_it_lay() -> None:
    room, part = QRect(0, 0, 1000, 700), QRect(500, 300, 60, 40)
    lain = QRect(600, 200, 300, 200)
    taller = regrown(lain, QSize(300, 260), part, room)
    assert taller is not None
    assert taller.topLeft() == lain.topLeft()
    above = QRect(400, 80, 300, 200)
    grown = regrown(above, QSize(300, 260), part, room)
    assert grown is not None
    assert grown.bottom() == above.bottom(), "it does not grow over its part"
    assert regrown(above, QSize(300, 400), part, room) is None


def test_a_card_larger_than_the_window_is_cut_to_it() -> None:
    place = place_beside(QRect(10, 10, 40, 40), QSize(3000, 2500), ROOM, [])
    assert ROOM.contains(place)


def test_a_row_breaks_where_there_is_no_room(qtbot: QtBot) -> None:
    holder = QWidget()
    qtbot.addWidget(holder)
    flow = Flow(holder, gap_x=10, gap_y=5)
    for _ in range(4):
        piece = QLabel("x")
        piece.setFixedSize(100, 20)
        flow.addWidget(piece)
    assert flow.heightForWidth(430) == 20
    assert flow.heightForWidth(429) == 45
    assert flow.heightForWidth(100) == 95
    holder.resize(210, 100)
    holder.show()
    xs = [flow.itemAt(n).geometry().x() for n in range(4)]  # type: ignore[union-attr]
    assert xs == [0, 110, 0, 110]


# menus


def test_every_menu_line_has_a_command_and_no_key_twice() -> None:
    for item in items():
        assert callable(getattr(Commands, f"do_{item.does}"))
    keys = [QKeySequence(k).toString() for item in items() for k in item.keys]
    assert all(keys)
    assert len(keys) == len(set(keys))


def test_every_command_is_in_a_menu() -> None:
    known = {f"do_{item.does}" for item in items()}
    assert {name for name in dir(Commands) if name.startswith("do_")} == known


def test_no_two_lines_of_a_menu_share_their_letter() -> None:
    from linework.bench.frame.actions import MENUS, Item, Sub

    for menu in MENUS:
        labels = [e.label for e in menu.entries if isinstance(e, Item | Sub)]
        letters = [label[label.index("&") + 1].lower() for label in labels]
        lines = zip(letters, labels, strict=True)
        assert [pair for pair in combinations(lines, 2) if pair[0][0] == pair[1][0]] == []


# colours


@pytest.mark.parametrize("look", ["light", "dark", "contrast"])
def test_the_style_sheet_is_filled_from_the_palette_alone(look: str) -> None:
    palette = palette_of(look)
    text = style_sheet(palette)
    assert not re.findall(r"\{[a-z-]+\}", text)
    named = set(re.findall(r"#[0-9a-fA-F]{3,8}\b(?=[ ;])", text))
    assert named <= {palette.color(ink) for ink in Ink}


# first questions


def test_the_first_questions_make_settings(qtbot: QtBot) -> None:
    design = Design()
    form = JobForm(design, whole=False)
    qtbot.addWidget(form)
    form.family.setCurrentIndex(1)
    form.family.activated.emit(1)
    assert form.voltage.currentText() == "230 V"
    form.place.setCurrentIndex(form.place.findData("boat"))
    form.job.setText("Ketch")
    form.try_it()
    assert form.result() == QDialog.DialogCode.Accepted
    assert form.change is not None
    design.apply(form.change)
    settings = design.settings
    assert (
        settings.family,
        settings.place,
        settings.voltage,
        settings.frequency,
        settings.job,
    ) == (
        "INT",
        "boat",
        "230 V",
        "50 Hz",
        "Ketch",
    )


def test_a_voltage_without_unit_is_refused_in_the_form(qtbot: QtBot) -> None:
    form = JobForm(Design(), whole=True)
    qtbot.addWidget(form)
    form.show()
    form.voltage.setCurrentText("120")
    form.try_it()
    assert form.change is None
    assert form.fault.isVisible()
    assert "120" in form.fault.text()


def test_another_family_keeps_a_voltage_that_was_written(qtbot: QtBot) -> None:
    form = JobForm(Design(), whole=False)
    qtbot.addWidget(form)
    form.voltage.setCurrentText("48 V")
    form.family.setCurrentIndex(1)
    form.family.activated.emit(1)
    assert form.voltage.currentText() == "48 V"


# typed answers


def test_three_figures_are_told_from_a_wire_size() -> None:
    power = kinds()["generator"].declared["power"]
    from linework.kinds import RUN_RATINGS

    assert typed(power, " 4 kVA/5 kVA / 6 kVA ") == Band("4 kVA", "5 kVA", "6 kVA")
    assert typed(power, "") is None
    assert typed(power, "1,5  kVA") == "1.5 kVA"
    assert typed(RUN_RATINGS["size"], "4/0 AWG") == "4/0 AWG"


def test_wires_are_written_and_read_alike() -> None:
    poles = ((Pole.L, Pole.N), (Pole.PE, Pole.PE))
    assert read_wires(wires_text(poles)) == poles
    assert read_wires("l>n, pe") == poles
    assert read_wires("  ") is None
    with pytest.raises(EditError, match="Q>L"):
        read_wires("Q>L")


# a run by the keyboard


def run_form(qtbot: QtBot, design: Design, *chosen: str) -> RunForm:
    form = RunForm(design, compose(design), chosen)
    qtbot.addWidget(form)
    return form


def test_a_run_is_drawn_between_the_chosen_parts(qtbot: QtBot) -> None:
    draft = two_sources()
    draft.part("outlet", "XD1")
    draft.part("breaker", "QF2", rating="15 A")
    draft.seat("QF2", "QP1", "2")
    design = draft.design
    form = run_form(qtbot, design, "QF2", "XD1")
    assert form.start.currentText() == "QF2: load"
    assert form.goal.currentText() == "XD1: feed"
    assert form.fault.text() == ""
    form.try_it()
    assert form.change is not None
    design.apply(form.change)
    (run,) = design.runs_at("XD1")
    assert (run.a.part, run.b.part) == ("QF2", "XD1")


def test_the_form_says_why_two_terminals_cannot_be_joined(qtbot: QtBot) -> None:
    draft = two_sources()
    draft.part("battery", "GB1")
    form = run_form(qtbot, draft.design, "GB1", "GS1")
    assert "never joined to alternating" in form.fault.text()
    assert not form._yes.isEnabled()
    wired = draft.design.part("GS1")
    assert wired.kind == "supply"
    for number in range(form.goal.count()):
        form.goal.setCurrentIndex(number)
        assert bool(form.fault.text()) is not form._yes.isEnabled(), form.goal.currentText()


# copying


def test_a_copy_has_its_own_ids_and_names_and_keeps_its_runs_and_seats() -> None:
    design = two_sources().design
    text = copied(design, ("QP1", "EL1"))
    change, ids = pasted(design, text, 1)
    assert len(ids) == 3
    design.apply(change)
    names = sorted(p.designation for p in design.parts)
    assert names == ["EL1", "EL2", "G1", "GS1", "QF1", "QF2", "QP1", "QP2", "QT1"]
    assert len(design.runs) == 5
    assert len(design.seats) == 2
    board = design.by_designation("QP2")
    assert [design.part(s.part).designation for s in design.seated_in(board.id)] == ["QF2"]
    assert loads(dumps(design), "x").same_as(design)


def test_pasting_twice_and_taking_it_back() -> None:
    design = small().design
    text = copied(design, ("EL1",))
    for _ in range(2):
        change, _ = pasted(design, text, 1)
        design.apply(change)
    assert sorted(p.designation for p in design.parts if p.kind == "lamp") == ["EL1", "EL2", "EL3"]
    before = design.snapshot()
    change, _ = pasted(design, text, 1)
    design.apply(change)
    design.apply(change.inverse())
    assert design.same_as(before)


def test_copies_do_not_lie_on_one_another_or_lie_where_the_hand_points() -> None:
    design = small().design
    text = copied(design, ("EL1",))
    for _ in range(3):
        design.apply(pasted(design, text, 1)[0])
    lamps = [(p.x, p.y) for p in design.parts if p.kind == "lamp"]
    assert len(set(lamps)) == 4
    change, (lamp,) = pasted(design, text, 1, at=(2000, 1500))
    design.apply(change)
    assert (design.part(lamp).x, design.part(lamp).y) == (2000, 1500)


def test_copies_are_numbered_in_the_order_of_what_was_copied() -> None:
    draft = Draft(place="field")
    for number in range(1, 13):
        draft.part("lamp", f"EL{number}", title=f"lamp {number}")
    design = draft.design
    design.apply(pasted(design, copied(design, tuple(p.id for p in design.parts)), 1)[0])
    for number in range(1, 13):
        assert design.by_designation(f"EL{12 + number}").title == f"lamp {number}"


def test_bends_notes_and_interlocks_are_copied_along() -> None:
    draft = two_sources()
    draft.part("breaker", "QF8", at=(700, 900), rating="20 A")
    draft.part("breaker", "QF9", at=(700, 1200), rating="20 A")
    design = draft.design
    design.apply(interlock(design, ("QF8", "QF9")))
    design.apply(add_note(design, "feeds the pump", (300, 400)))
    design.apply(reroute(design, "W3", [(1100, 500), (1100, 700)]))
    (note,) = design.notes
    chosen = ("QT1", "QP1", "QF8", "QF9", note.id)
    change, ids = pasted(design, copied(design, chosen), 2, at=None)
    assert change.title == "paste"
    design.apply(change)
    assert len(design.notes) == 2
    assert {n.sheet for n in design.notes} == {1, 2}
    held = [{part for part, _, _ in lock.excludes} for lock in design.interlocks]
    assert len(held) == 2
    assert {"QF8", "QF9"} in held
    assert all(parts == {"QF8", "QF9"} or parts <= set(ids) for parts in held)
    old, new = (r for r in design.runs if r.route)
    (ax, ay), (bx, by) = old.route[0], new.route[0]
    board = design.by_designation("QP2")
    first = design.by_designation("QP1")
    assert (bx - ax, by - ay) == (board.x - first.x, board.y - first.y)
    # what is copied out of one drawing goes into another that knows nothing of it
    other = small().design
    other.apply(pasted(other, copied(design, chosen), 1)[0])
    assert other.by_designation("QT1").kind == "transfer_switch"
    assert loads(dumps(other), "x").same_as(other)


def test_what_is_no_drawing_is_not_pasted() -> None:
    for text in ("", "hello", "{}"):
        with pytest.raises(EditError):
            pasted(small().design, text, 1)
    with pytest.raises(EditError):
        copied(small().design, ())


# interlocks


def test_chosen_breakers_are_interlocked_and_freed() -> None:
    draft = two_sources()
    draft.rate("QP1", main="30 A")
    design = draft.design
    with pytest.raises(EditError):
        interlock(design, ("QF1", "G1"))
    design.apply(interlock(design, ("QF1", "QP1")))
    (lock,) = design.interlocks
    assert {(part, position) for part, _, position in lock.excludes} == {
        ("QF1", "closed"),
        ("QP1", "closed"),
    }
    design.apply(unlock(design, ("QF1",)))
    assert design.interlocks == []
    with pytest.raises(EditError):
        unlock(design, ("QF1",))


def test_an_interlock_is_shown_moves_as_levers_and_goes_with_undo() -> None:
    draft = two_sources()
    draft.rate("QP1", main="30 A")
    history = History(draft.design)
    levers, before = set(lever_board(history.design).rest()), history.design.snapshot()
    history.do(interlock(history.design, ("QF1", "QP1")))
    (lock,) = history.design.interlocks
    assert lock.id in {flat.tag for flat in flatten(compose(history.design).picture.items)}
    board = lever_board(history.design)
    locked = {("QF1", "breaker"), ("QP1", "main")}
    assert set(board.rest()) - levers == locked
    held = board.rest() | dict.fromkeys(locked, "open") | {("QF1", "breaker"): "closed"}
    assert "QF1" in board.why_not(held, ("QP1", "main"), "closed")
    history.undo()
    assert history.design.same_as(before)
    history.redo()
    assert history.design.interlocks == [lock]
    history.do(unlock(history.design, (lock.id,)))
    assert history.design.interlocks == []
    history.undo()
    assert history.design.interlocks == [lock]


# the parts tree


def test_the_tree_lists_every_part_run_and_finding_with_what_is_known(qtbot: QtBot) -> None:
    design, analysis, _ = verdict("two_sources")
    tree = PartsTree()
    qtbot.addWidget(tree)
    tree.show_design(design, analysis, report_of(analysis, "G1=stopped QT1=shore", ""))
    ids = {item.data(0, 0x0100) for item in tree._all() if item.data(0, 0x0100)}
    assert {(p.id,) for p in design.parts} <= ids
    assert {(r.id,) for r in design.runs} <= ids
    assert {f.subjects for f in analysis.findings} <= ids
    told = {item.text(0): item.text(1) for item in tree._all()}
    assert "Takes" in told["EL1 lamp"]
    board = next(item for item in tree._all() if item.text(0).startswith("QP1"))
    assert [board.child(n).text(0) for n in range(board.childCount())] == ["QF1 breaker"]


def test_the_tree_follows_and_leads(qtbot: QtBot) -> None:
    design, analysis, _ = verdict("small")
    tree = PartsTree()
    qtbot.addWidget(tree)
    tree.show_design(design, analysis, None)
    heard: list[object] = []
    tree.chosen.connect(heard.append)
    tree.show_chosen(("EL1",))
    assert heard == []
    assert tree._current() == ("EL1",)
    line = next(item for item in tree._all() if item.data(0, 0x0100) == ("W1",))
    tree.list.setCurrentItem(line)
    assert heard == [("W1",)]
    assert tree.told.text() == line.text(1)
    with qtbot.waitSignal(tree.opened) as opened:
        tree.list.itemActivated.emit(line, 0)
    assert opened.args == ["W1"]
    tree.show_design(design, analysis, None)
    assert tree._current() == ("W1",)


def test_delete_in_the_tree_asks_to_remove_what_is_drawn_and_no_finding(qtbot: QtBot) -> None:
    design, analysis, board = verdict("two_sources")
    tree = PartsTree()
    qtbot.addWidget(tree)
    tree.show_design(design, analysis, report_of(analysis, board.state_key(board.rest()), ""))
    removed: list[object] = []
    tree.removed.connect(removed.append)
    for item in tree._all():
        tree.list.setCurrentItem(item)
        QTest.keyClick(tree.list, Qt.Key.Key_Delete)
    assert sorted(removed) == sorted((e.id,) for e in (*design.parts, *design.runs))


def test_the_hand_stays_at_its_height_when_its_line_is_gone(qtbot: QtBot) -> None:
    design = small().design
    tree = PartsTree()
    qtbot.addWidget(tree)
    tree.show_design(design, None, None)
    tree.show_chosen(("EL1",))
    line = tree._line_number()
    design.apply(remove(design, ("EL1",)))
    tree.show_design(design, None, None)
    assert tree._line_number() == line


def test_the_start_card_offers_the_samples(qtbot: QtBot) -> None:
    assert samples()
    card = StartCard(("/nonexistent/file.linework",))
    qtbot.addWidget(card)
    from PySide6.QtWidgets import QPushButton

    texts = [b.text() for b in card.findChildren(QPushButton)]
    assert "vaccination trailer" in texts
    assert "file.linework" not in texts
    button = next(b for b in card.findChildren(QPushButton) if b.text() == "vaccination trailer")
    with qtbot.waitSignal(card.sampled) as heard:
        button.click()
    assert heard.args == [next(p for p in samples() if p.stem == "vaccination-trailer")]
