"""A change of the design is told once to each piece, whatever was opened, left and opened again."""

from __future__ import annotations

from pathlib import Path

from pytestqt.qtbot import QtBot

from linework.bench.file.filing import Reply
from linework.bench.frame.window import BenchWindow
from linework.design import History
from linework.design.edits import retitle
from linework.storage import dumps
from tests.bench.benches import small, two_sources


def listeners(history: History) -> int:
    return len(history._listeners)


def test_one_listener_a_document_and_none_when_it_is_left(qtbot: QtBot, tmp_path: Path) -> None:
    files = [tmp_path / "a.linework", tmp_path / "b.linework"]
    for file, draft in zip(files, (small(), two_sources()), strict=True):
        file.write_bytes(dumps(draft.design))
    window = BenchWindow(ask=lambda title, text, replies: Reply.NO)
    qtbot.addWidget(window)
    left = [window.history]
    assert listeners(window.history) == 1
    for file in (*files, files[0], files[0]):
        assert window.filing.open(file)
        assert listeners(window.history) == 1
        assert [listeners(history) for history in left] == [0] * len(left)
        left.append(window.history)
    window.filing.new(None)
    assert listeners(window.history) == 1
    window.close()
    assert listeners(window.history) == 0


def test_each_change_is_told_once(qtbot: QtBot, tmp_path: Path) -> None:
    file = tmp_path / "a.linework"
    file.write_bytes(dumps(small().design))
    window = BenchWindow(ask=lambda title, text, replies: Reply.NO)
    qtbot.addWidget(window)
    assert window.filing.open(file)
    assert window.filing.open(file)
    told: list[object] = []
    window.filing.drawn.connect(told.append)
    change = retitle(window.history.design, window.history.design.by_designation("G1").id, "other")
    window.history.do(change)
    assert told == [change]
    window.history.undo()
    assert told == [change, change.inverse()]
    window.judge.stop()
