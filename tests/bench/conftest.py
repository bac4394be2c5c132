"""No test of the bench touches the user's own files; a window of its own for who asks for it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from linework.bench import looks
from linework.bench.file.filing import Reply
from linework.bench.frame.window import BenchWindow
from linework.bench.paper import sync


@pytest.fixture(autouse=True)
def own_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    home = tmp_path / "home"
    home.mkdir()
    at_home(monkeypatch, home)
    return home


def at_home(monkeypatch: pytest.MonkeyPatch, home: Path) -> None:
    """Let a folder be the user's home."""
    for name in ("XDG_STATE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "HOME"):
        monkeypatch.setenv(name, str(home))


@pytest.fixture
def empty_bench(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> Iterator[BenchWindow]:
    """The bench in a window of 1280 x 900, with an empty sheet and its judge at work.

    The sheet is laid out anew as soon as the hand rests at all: a test rests after every gesture.
    """
    monkeypatch.setattr(sync, "_LEAST_REST_S", 0.01)
    monkeypatch.setattr(sync, "_REST_FACTOR", 0.0)
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    looks.dress(app, "light")
    bench = BenchWindow(ask=lambda title, text, replies: Reply.NO)
    qtbot.addWidget(bench)
    bench.setGeometry(0, 0, 1280, 900)
    with qtbot.waitExposed(bench):
        bench.show()
    bench.judge.start()
    yield bench
    bench.judge.stop()
    bench.filing.document.close()
    app.setStyleSheet("")
