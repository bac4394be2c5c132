"""The levers: what can be moved, what follows, what an interlock holds, which state it is."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from linework.analysis import analyse
from linework.bench.levers.levers import Levers
from linework.bench.process.levers import lever_board
from linework.bench.states.shown import liveliest, number_of, report_of, reports_of
from linework.bench.states.text import links_text
from linework.circuit import expand
from linework.design import Draft
from linework.design.edits import add_interlock
from linework.storage import load
from linework.study.report import state_key
from tests.bench.benches import verdict
from tests.enumeration import all_states

SAMPLE = Path(__file__).resolve().parents[3] / "samples" / "vaccination-trailer.linework"


def shown(name: str, qtbot: QtBot) -> Levers:
    design, analysis, board = verdict(name)
    levers = Levers()
    qtbot.addWidget(levers)
    levers.resize(1300, 90)
    levers.set_board(board)
    levers.set_choice(board.rest(), by_hand=False)
    levers.moved.connect(lambda: levers.show_analysis(design, analysis))
    levers.show_analysis(design, analysis)
    levers.show()
    return levers


def test_every_permitted_choice_has_the_key_that_the_analysis_gives_it() -> None:
    design = load(SAMPLE)
    board, circuit = lever_board(design), expand(design, {})
    states = [s for s in all_states(circuit).states if s.passing is None]
    assert len(states) > 20
    for state in states:
        assert board.state_key(dict(state.free)) == state_key(design, circuit, state)


def test_a_lever_for_each_free_selector_with_words_for_its_positions(qtbot: QtBot) -> None:
    levers = shown("two_sources", qtbot)
    words = {
        key[0]: [button.text() for button in segments.buttons]
        for key, segments in levers.segments.items()
    }
    assert words == {"G1": ["stopped", "running"], "QT1": ["shore", "off", "set"]}


def test_moving_a_lever_moves_the_state(qtbot: QtBot) -> None:
    levers = shown("two_sources", qtbot)
    assert levers.key == "G1=stopped QT1=shore"
    with qtbot.waitSignal(levers.moved):
        QTest.mouseClick(levers.segments["QT1", "lever"].buttons[2], Qt.MouseButton.LeftButton)
    assert levers.key == "G1=stopped QT1=set"
    assert levers.pinned
    with qtbot.waitSignal(levers.moved):
        QTest.mouseClick(levers.segments["G1", "set"].buttons[1], Qt.MouseButton.LeftButton)
    assert levers.key == "G1=running QT1=set"
    assert "generator" in levers.state.text()
    assert "G1" in levers.fed.text()


def test_arrow_keys_move_a_lever_which_is_one_stop_for_tab(qtbot: QtBot) -> None:
    levers = shown("two_sources", qtbot)
    segments = levers.segments["QT1", "lever"]
    stops = [b for b in segments.buttons if b.focusPolicy() & Qt.FocusPolicy.TabFocus]
    assert [b.text() for b in stops] == ["shore"]
    for button in segments.buttons:
        QTest.keyClick(button, Qt.Key.Key_Right)
    assert levers.key == "G1=stopped QT1=set"
    assert [b.isChecked() for b in segments.buttons] == [False, False, True]
    QTest.keyClick(segments.buttons[2], Qt.Key.Key_Left)
    assert levers.key == "G1=stopped QT1=off"


def test_the_state_is_numbered_and_its_links_are_counted(qtbot: QtBot) -> None:
    levers = shown("two_sources", qtbot)
    _, analysis, _ = verdict("two_sources")
    states = analysis.walked()
    number = number_of(states, report_of(analysis, levers.key, ""))
    assert f"state {number} of {len(states)}" in levers.state.text()
    # The supply is linked off site and the panel's link is fitted: two, by the drawing.
    assert levers.links.accessibleDescription() == "Neutral-ground links: 2 (GS1, QP1)"


def test_over_unknown_cases_the_links_are_told_as_either(qtbot: QtBot) -> None:
    levers = shown("small", qtbot)
    design, analysis, _ = verdict("small")
    levers.set_choice({("G1", "set"): "running"})
    assert levers.links.accessibleDescription() == "Neutral-ground links: 0 or 1 (G1)"
    assert links_text(design, []) == "No live AC neutral."
    names = [levers.cases.itemText(n) for n in range(levers.cases.count())]
    assert levers.cases.isVisible()
    assert sorted(names) == ["G1 neutral: floating", "G1 neutral: joined to the frame"]
    with qtbot.waitSignal(levers.moved):
        levers.cases.activated.emit(names.index("G1 neutral: floating"))
    report = report_of(analysis, levers.key, levers.case)
    assert report is not None
    assert report.case == "G1 neutral: floating"


def test_followers_move_by_themselves(qtbot: QtBot) -> None:
    design = load(SAMPLE)
    analysis, levers = analyse(design), Levers()
    qtbot.addWidget(levers)
    levers.set_board(lever_board(design))
    best = liveliest(analysis)
    assert best is not None
    levers.set_choice({(part, name): word for part, name, word in best.free})
    levers.show_analysis(design, analysis)
    label = levers.followers["TB1", "relay"]
    assert label.text() in ("passing through (moves by itself)", "passing through")
    assert levers.segments.keys().isdisjoint(levers.followers.keys())


def test_an_outlet_is_called_after_what_it_belongs_to() -> None:
    board = lever_board(load(SAMPLE))
    plugs = {lever.designation: lever.words for lever in board.levers if lever.key[1] == "plug"}
    assert plugs["XP1"] == ("unplugged", "XD1, shore")
    assert plugs["XP2"] == ("unplugged", "XD3, generator")


@pytest.fixture
def locked() -> Draft:
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="30 A", neutral="bonded")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("breaker", "QF2", rating="20 A")
    draft.run("GS1.out", "QF1.line", size="12 AWG", length="3 ft")
    draft.run("GS1.out", "QF2.line", size="12 AWG", length="3 ft")
    ends = [("QF1", "breaker", "closed"), ("QF2", "breaker", "closed")]
    draft.design.apply(add_interlock(draft.design, ends))
    return draft


def test_an_interlock_holds_a_lever_and_says_which_to_move_first(
    locked: Draft, qtbot: QtBot
) -> None:
    levers = Levers()
    qtbot.addWidget(levers)
    levers.set_board(lever_board(locked.design))
    first, second = ("QF1", "breaker"), ("QF2", "breaker")
    levers.set_choice({first: "closed", second: "open"})
    with qtbot.waitSignal(levers.refused) as heard:
        levers.move_lever(second, "closed")
    assert heard.args is not None
    assert "QF1" in heard.args[0]
    assert levers.choice[second] == "open"
    assert levers.segments[second].held == "open"
    levers.move_lever(first, "open")
    levers.move_lever(second, "closed")
    assert (levers.choice[first], levers.choice[second]) == ("open", "closed")


def test_levers_never_rest_where_an_interlock_forbids(locked: Draft, qtbot: QtBot) -> None:
    levers = Levers()
    qtbot.addWidget(levers)
    levers.set_board(lever_board(locked.design))
    shut = [key for key, position in levers.choice.items() if position == "closed"]
    assert len(shut) == 1


def test_a_position_survives_another_board(qtbot: QtBot) -> None:
    _, _, board = verdict("two_sources")
    levers = Levers()
    qtbot.addWidget(levers)
    levers.set_board(board)
    levers.set_choice({("G1", "set"): "running", ("QT1", "lever"): "2"})
    _, _, smaller = verdict("small")
    levers.set_board(smaller)
    assert levers.choice == {("G1", "set"): "running"}
    levers.set_board(board)
    assert levers.choice == {("G1", "set"): "running", ("QT1", "lever"): "1"}


def test_a_state_with_the_same_circuits_is_told_by_the_number_of_the_one_shown() -> None:
    _, analysis, _ = verdict("two_sources")
    first = analysis.reports[0]
    same = replace(first, key="the same by another name")
    assert report_of(analysis, first.key, "") is first
    assert number_of(analysis.walked(), same) == 1
    assert number_of(analysis.walked(), replace(first, circuits=("another",))) == 0
    assert number_of(analysis.walked(), None) == 0
    assert reports_of(analysis, "no such state") == []
    assert report_of(None, "G1=stopped", "") is None


def test_no_levers_is_said(qtbot: QtBot) -> None:
    levers = Levers()
    qtbot.addWidget(levers)
    levers.set_board(lever_board(Draft().design))
    levers.show_analysis(Draft().design, None)
    assert levers.key == ""
    assert levers.segments == {}


def test_where_nothing_will_come_the_reason_stands_and_no_waiting(qtbot: QtBot) -> None:
    design, analysis, board = verdict("two_sources")
    levers = Levers()
    qtbot.addWidget(levers)
    levers.set_board(board)
    levers.show_analysis(design, None)
    assert "being worked out" in levers.state.text()
    levers.show_analysis(design, None, "The checking stopped.")
    assert levers.state.accessibleDescription() == "The checking stopped."
    levers.set_choice(board.rest())
    broken = [
        replace(r, solved=False, cause="no such row") if r.key == levers.key else r
        for r in analysis.reports
    ]
    levers.show_analysis(design, replace(analysis, reports=tuple(broken)))
    assert "no such row" in levers.links.accessibleDescription()


def test_what_is_new_is_shown_in_use_and_comes_after_the_last(qtbot: QtBot) -> None:
    _, _, smaller = verdict("small")
    _, _, board = verdict("two_sources")
    levers = Levers()
    qtbot.addWidget(levers)
    levers.set_board(smaller)
    assert levers.choice == {("G1", "set"): "running"}
    levers.set_choice({("G1", "set"): "stopped"})
    box = levers._row.boxes["G1", "set"]
    levers.set_board(board)
    assert levers.choice == {("G1", "set"): "stopped", ("QT1", "lever"): "1"}
    assert levers._row.boxes["G1", "set"] is not box, "another title"
    levers.set_board(board)
    assert list(levers._row.boxes) == [("G1", "set"), ("QT1", "lever")]


def test_the_bar_has_one_height_whatever_it_holds_and_closes_where_it_must(qtbot: QtBot) -> None:
    design = load(SAMPLE)
    levers = Levers()
    qtbot.addWidget(levers)
    levers.resize(2600, 100)
    with qtbot.waitActive(levers):
        levers.show()
    high = levers.height()
    levers.set_board(lever_board(design))
    assert not any(box.is_closed for box in levers._row.boxes.values())
    lever = levers._row.boxes["QT1", "lever"]
    lever.take_focus()
    levers.resize(900, 100)
    assert all(box.is_closed for box in levers._row.boxes.values() if box.segments)
    assert levers.height() == high
    assert lever.button is not None
    assert lever.button.hasFocus(), "the hand stays on its lever"
    QTest.keyClick(lever.button, Qt.Key.Key_Right)
    assert levers.choice["QT1", "lever"] == "off"
    levers.resize(2600, 100)
    assert lever.segments is not None
    assert lever.segments.held_button().hasFocus()
