"""Going through what was assumed, in the window, by the keyboard alone."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from linework.bench.card.row import ChoiceRow, TextRow
from linework.bench.frame.window import BenchWindow
from linework.design import Run
from linework.findings.questions import Question
from linework.storage import dumps
from tests.bench.benches import two_sources


@pytest.fixture
def bench(empty_bench: BenchWindow, tmp_path) -> BenchWindow:
    file = tmp_path / "two.linework"
    file.write_bytes(dumps(two_sources().design))
    empty_bench.filing.open(file)
    return empty_bench


def run_question(bench: BenchWindow, key: str, value: str) -> Question:
    runs = bench.history.design.runs
    names = tuple(run.designation for run in runs)
    return Question(key, key, value, "from memory", tuple(run.id for run in runs), names)


def given(bench: BenchWindow, key: str) -> list[object]:
    return [run.ratings.get(key) for run in bench.history.design.runs]


def test_one_answer_is_given_to_all_as_one_edit(bench: BenchWindow, qtbot: QtBot) -> None:
    slip = bench.assumed
    slip.begin((run_question(bench, "ambient", "30 degC"), run_question(bench, "material", "x")))
    assert isinstance(slip.row, TextRow)
    slip.row.one.setText("45 degC")
    qtbot.keyClick(slip.row.one, Qt.Key.Key_Return)
    assert set(given(bench, "ambient")) == {"45 degC"}
    assert slip.at == 1
    bench.menus.actions["undo"].trigger()
    assert set(given(bench, "ambient")) == {None}


def test_a_wrong_text_is_refused_and_nothing_changes(bench: BenchWindow, qtbot: QtBot) -> None:
    slip = bench.assumed
    slip.begin((run_question(bench, "ambient", "30 degC"),))
    assert isinstance(slip.row, TextRow)
    slip.row.one.setText("warm")
    qtbot.keyClick(slip.row.one, Qt.Key.Key_Return)
    assert slip.at == 0
    assert "warm" in slip.row.fault.text()
    assert set(given(bench, "ambient")) == {None}


def test_it_is_so_writes_what_was_taken(bench: BenchWindow, qtbot: QtBot) -> None:
    slip = bench.assumed
    slip.begin((run_question(bench, "material", "copper"),))
    assert isinstance(slip.row, ChoiceRow)
    qtbot.mouseClick(slip.so, Qt.MouseButton.LeftButton)
    assert set(given(bench, "material")) == {"copper"}
    assert not slip.isVisible()


def test_later_and_back_change_nothing_and_the_end_puts_it_away(
    bench: BenchWindow, qtbot: QtBot
) -> None:
    slip, before = bench.assumed, dumps(bench.history.design)
    slip.begin((run_question(bench, "material", "copper"), run_question(bench, "ambient", "x")))
    assert slip.count.text() == "Question 1 of 2"
    assert not slip.back.isEnabled()
    qtbot.mouseClick(slip.later, Qt.MouseButton.LeftButton)
    assert slip.count.text() == "Question 2 of 2"
    qtbot.keyClick(slip, Qt.Key.Key_PageUp)
    assert slip.at == 0
    qtbot.keyClick(slip, Qt.Key.Key_PageDown)
    qtbot.keyClick(slip, Qt.Key.Key_PageDown)
    assert not slip.isVisible()
    assert dumps(bench.history.design) == before


def test_what_is_gone_meanwhile_is_passed_over(bench: BenchWindow) -> None:
    slip = bench.assumed
    gone = Question("material", "material", "copper", "x", ("nothing",), ("W9",))
    slip.begin((gone, run_question(bench, "ambient", "30 degC")))
    assert slip.at == 1


def test_the_command_asks_what_the_analysis_assumed(bench: BenchWindow, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: bench.judging.up_to_date, timeout=60_000)
    bench.menus.actions["assumed"].trigger()
    slip, design = bench.assumed, bench.history.design
    assert slip.isVisible()
    assert len(slip.questions) > 3
    for question in slip.questions:
        for subject in question.subjects:
            element = design.get(subject)
            values = (
                design.run_values(element) if isinstance(element, Run) else design.values(element)  # type: ignore[arg-type]
            )
            assert not values.given(question.key)
    qtbot.keyClick(slip, Qt.Key.Key_Escape)
    assert not slip.isVisible()
