"""The whole mountain hut drawn from nothing in a real window, by pointer and keys alone."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from linework.bench import looks
from linework.bench.filing import Reply
from linework.bench.window import BenchWindow
from linework.storage import load
from tests.bench.copyist import Copyist, drawn_alike

pytestmark = pytest.mark.window

HUT = Path(__file__).resolve().parents[1] / "samples" / "mountain-hut.linework"


@pytest.fixture
def copyist(qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Copyist]:
    for name in ("XDG_STATE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "HOME"):
        monkeypatch.setenv(name, str(tmp_path))
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    looks.dress(app, "light")
    bench = BenchWindow(ask=lambda title, text, replies: Reply.NO)
    qtbot.addWidget(bench)
    bench.setGeometry(0, 0, 1280, 900)
    with qtbot.waitExposed(bench):
        bench.show()
    bench.judge.start()
    yield Copyist(bench)
    bench.judge.stop()
    bench.filing.document.close()
    app.setStyleSheet("")


@pytest.mark.timeout(1800)
def test_the_whole_hut_is_drawn_from_nothing(
    copyist: Copyist, capsys: pytest.CaptureFixture[str]
) -> None:
    assert QGuiApplication.platformName() == "xcb"
    hut = load(HUT)
    copyist.draw(hut)
    assert drawn_alike(copyist.design, hut) == []
    judging = copyist.bench.judging
    copyist.wait(lambda: judging.up_to_date)
    assert judging.analysis is not None
    assert judging.analysis.silent, "the sample is sound, and so is what was drawn"
    with capsys.disabled():
        print(f"\nThe whole hut from nothing: {copyist.tally()}")
