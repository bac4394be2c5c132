"""Nothing fails unseen: slots, threads, Qt's own messages; one dialog, and the program runs on."""

from __future__ import annotations

import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QTimer, qCritical, qWarning
from PySide6.QtGui import QGuiApplication
from pytestqt.qtbot import QtBot

from linework.bench.file.guard import Fault, Guard, account, sentence
from linework.bench.file.trouble import TroubleDialog


@pytest.fixture
def guard(qtbot: QtBot) -> Iterator[Guard]:
    found = Guard()
    found.install()
    yield found
    found.remove()


def fail() -> None:
    raise ValueError("by a test")


def test_an_exception_in_a_slot_is_caught(
    guard: Guard, qtbot: QtBot, capsys: pytest.CaptureFixture[str]
) -> None:
    with qtbot.waitSignal(guard.caught, timeout=3000) as heard:
        QTimer.singleShot(0, fail)
    assert heard.args is not None
    assert heard.args[0].text == "ValueError: by a test"
    assert "in fail" in heard.args[0].details
    assert "by a test" in capsys.readouterr().err


def test_an_exception_in_a_thread_is_caught_in_the_windows_thread(
    guard: Guard, qtbot: QtBot, capsys: pytest.CaptureFixture[str]
) -> None:
    where: list[threading.Thread] = []
    guard.caught.connect(lambda _: where.append(threading.current_thread()))
    thread = threading.Thread(target=fail)
    thread.start()
    thread.join()
    qtbot.waitUntil(lambda: bool(where), timeout=3000)
    assert where == [threading.main_thread()]


@pytest.mark.no_qt_log
def test_a_grave_message_of_qt_is_told_and_a_warning_only_written(
    guard: Guard, qtbot: QtBot, capsys: pytest.CaptureFixture[str]
) -> None:
    heard: list[Fault] = []
    guard.caught.connect(heard.append)
    qWarning("a warning")
    qCritical("a grave one")
    qtbot.waitUntil(lambda: bool(heard), timeout=3000)
    assert [fault.text for fault in heard] == ["Qt: a grave one"]
    assert "a warning" in capsys.readouterr().err


def test_what_fails_while_it_is_told_opens_no_second_dialog(
    guard: Guard, qtbot: QtBot, capsys: pytest.CaptureFixture[str]
) -> None:
    heard: list[str] = []

    def tell(fault: Fault) -> None:
        heard.append(fault.text)
        guard._exception(KeyError, KeyError("again"), None)
        qtbot.wait(50)

    guard.caught.connect(tell)
    guard._exception(ValueError, ValueError("first"), None)
    qtbot.wait(150)
    assert heard == ["ValueError: first"]


def test_the_hooks_are_put_back(qtbot: QtBot) -> None:
    before = (sys.excepthook, threading.excepthook)
    guard = Guard()
    guard.install()
    assert sys.excepthook != before[0]
    guard.remove()
    assert (sys.excepthook, threading.excepthook) == before


def test_the_account_names_versions_the_error_and_where_the_work_is() -> None:
    fault = Fault("ValueError: x", "Traceback ...")
    text = account(fault, lambda: "kept aside")
    for word in ("linework", "Python", "Qt", "ValueError: x", "Traceback", "kept aside"):
        assert word in text
    assert "judged again" in sentence(fault)


def test_the_dialog_copies_and_saves(qtbot: QtBot, tmp_path: Path) -> None:
    dialog = TroubleDialog("Something failed", "It failed.", "the account")
    qtbot.addWidget(dialog)
    dialog.copy()
    assert QGuiApplication.clipboard().text() == "the account"
    target = tmp_path / "report.txt"
    dialog.keep(target)
    assert target.read_text() == "the account"
    dialog.keep(tmp_path / "missing" / "report.txt")
    assert "missing" in dialog.told.text()
