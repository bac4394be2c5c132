"""The parts tree."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from linework.bench.margin.tree import PartsTree
from linework.bench.states.shown import report_of
from linework.design.edits import remove
from tests.bench.benches import small, verdict


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


def test_what_comes_in_moves_no_line_and_closes_none(qtbot: QtBot) -> None:
    design, analysis, _ = verdict("two_sources")
    tree = PartsTree()
    qtbot.addWidget(tree)
    tree.resize(500, 170)
    with qtbot.waitActive(tree):
        tree.show()
    tree.show_design(design, None, None)
    board = next(item for item in tree._all() if item.text(0).startswith("QP1"))
    board.setExpanded(True)
    tree.show_chosen(("EL1",))
    lamp = tree.list.currentItem()
    bar = tree.list.verticalScrollBar()
    bar.setValue(3)
    tree.list.setFocus()
    for known in (analysis, replace(analysis, findings=analysis.findings[1:]), None):
        report = report_of(known, "G1=stopped QT1=shore", "")
        places = {item.text(0): tree.list.visualItemRect(item) for item in tree._all()[:9]}
        tree.show_design(design, known, report)
        assert {i.text(0): tree.list.visualItemRect(i) for i in tree._all()[:9]} == places
        assert tree.list.currentItem() is lamp
        assert board.isExpanded()
        assert bar.value() == 3
        assert tree.list.hasFocus()
