"""The line to find in, and the menu on a right click, in the window."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtWidgets import QApplication, QMenu
from pytestqt.qtbot import QtBot

from linework.bench.frame.contextmenu import offered
from linework.bench.frame.window import BenchWindow
from linework.storage import dumps
from tests.bench.benches import two_sources


@pytest.fixture
def bench(empty_bench: BenchWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> BenchWindow:
    # a screen in memory cannot show what takes the keyboard for itself
    monkeypatch.setattr(QMenu, "popup", lambda menu, at: None)
    file = tmp_path / "two.linework"
    file.write_bytes(dumps(two_sources().design))
    empty_bench.filing.open(file)
    return empty_bench


def test_a_part_is_found_and_chosen_by_the_keys_alone(bench: BenchWindow, qtbot: QtBot) -> None:
    part, bar = bench.history.design.parts[0], bench.find_bar
    bench.menus.actions["find"].trigger()
    assert bar.isVisible()
    qtbot.keyClicks(bar.line, part.designation)
    assert bar.list.count()
    qtbot.keyClick(bar.line, Qt.Key.Key_Return)
    assert not bar.isVisible()
    assert bench.view.selection == (part.id,)


def test_down_marks_the_next_and_round_again(bench: BenchWindow, qtbot: QtBot) -> None:
    bar = bench.find_bar
    bar.begin()
    qtbot.keyClicks(bar.line, "a")
    rows = bar.list.count()
    assert rows > 1
    for step in range(1, rows + 1):
        qtbot.keyClick(bar.line, Qt.Key.Key_Down)
        assert bar.list.currentRow() == step % rows
    qtbot.keyClick(bar.line, Qt.Key.Key_Up)
    assert bar.list.currentRow() == rows - 1


def test_nothing_found_is_said_and_escape_leaves(bench: BenchWindow, qtbot: QtBot) -> None:
    bar, before = bench.find_bar, bench.view.selection
    bar.begin()
    qtbot.keyClicks(bar.line, "zebra")
    assert bar.told.text() == "Nothing of that is drawn."
    assert not bar.list.isVisible()
    qtbot.keyClick(bar.line, Qt.Key.Key_Return)
    assert bar.isVisible()
    qtbot.keyClick(bar.line, Qt.Key.Key_Escape)
    assert not bar.isVisible()
    assert bench.view.selection == before


def right_click(bench: BenchWindow, at: QPoint, key: bool = False) -> list[str]:
    reason = QContextMenuEvent.Reason
    view = bench.view
    event = QContextMenuEvent(
        reason.Keyboard if key else reason.Mouse, at, view.viewport().mapToGlobal(at)
    )
    QApplication.sendEvent(view if key else view.viewport(), event)
    menu = bench.right_click.menu
    assert menu is not None
    names = {action: name for name, action in bench.menus.actions.items()}
    found = [names[action] for action in menu.actions() if not action.isSeparator()]
    menu.deleteLater()
    return found


def test_a_right_click_chooses_what_is_there_and_offers_what_can_be_done(
    bench: BenchWindow,
) -> None:
    part = bench.history.design.parts[0]
    at = bench.view.rect_of(part.id).center()
    assert right_click(bench, at) == ["card", "cut", "copy", "duplicate", "remove", "guide"]
    assert bench.view.selection == (part.id,)
    ids = tuple(each.id for each in bench.history.design.parts[:2])
    bench.view.select(ids)
    assert "interlock" in right_click(bench, at)
    assert bench.view.selection == ids
    corner = bench.view.viewport().rect().bottomRight() - QPoint(4, 4)
    assert right_click(bench, corner)[:2] == ["paste", "choose_all"]
    assert bench.view.selection == ()


def test_its_key_opens_it_for_what_is_chosen(bench: BenchWindow) -> None:
    run = bench.history.design.runs[0]
    bench.view.select((run.id,))
    assert right_click(bench, QPoint(5, 5), key=True) == ["card", "remove", "guide"]
    assert bench.view.selection == (run.id,)


def test_every_command_that_a_menu_offers_is_in_the_bar(bench: BenchWindow) -> None:
    design = bench.history.design
    part, run = design.parts[0].id, design.runs[0].id
    for chosen in ((), (part,), (run,), (part, run)):
        names = {name for name in offered(design, chosen) if name}
        assert names <= set(bench.menus.actions)


def test_delete_takes_what_is_chosen_off(bench: BenchWindow) -> None:
    part = bench.history.design.parts[0]
    bench.view.select((part.id,))
    bench.menus.actions["remove"].trigger()
    assert bench.history.design.get(part.id) is None
    bench.menus.actions["undo"].trigger()
    assert bench.history.design.get(part.id) is not None
