"""Starts the bench: hooks, then fonts and colors, then the window, then what was asked for."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication

from linework.bench import looks
from linework.bench.file import Guard, load_habits
from linework.words import say

SCREENSHOT_MS = 60_000
"""So long a picture of the window waits for the first verdict."""
_SETTLED_MS = 400


def run(argv: Sequence[str]) -> int:
    """Open the bench with a file or an empty sheet; return the exit code."""
    arguments = _parser().parse_args(list(argv))
    guard = Guard()
    guard.install()
    app = QApplication.instance() or QApplication(["linework"])
    assert isinstance(app, QApplication)
    app.setApplicationName("linework")
    app.setApplicationDisplayName("Linework")
    app.setDesktopFileName("linework")
    looks.dress(app, load_habits().look)
    try:
        return _opened(app, guard, arguments)
    finally:
        guard.remove()


def _opened(app: QApplication, guard: Guard, arguments: argparse.Namespace) -> int:
    # Late: a window needs an application, and its modules need the hooks to be laid.
    from linework.bench.frame import BenchWindow

    window = BenchWindow()
    guard.caught.connect(window.caught)
    app.styleHints().colorSchemeChanged.connect(lambda _: _follow_system(window))
    window.show()
    if arguments.screenshot:
        _picture_later(app, window, Path(arguments.screenshot))
    QTimer.singleShot(0, lambda: _begin(window, arguments))
    return app.exec()


def _begin(window, arguments: argparse.Namespace) -> None:
    """With the window up: the file that was named, else what a crash left behind."""
    window.judge.start()
    if arguments.file:
        window.filing.open(Path(arguments.file))
    elif not arguments.screenshot:
        window.filing.offer_recovery()


def _follow_system(window) -> None:
    if window.filing.habits.look == "system":
        window.wear("system")


def _picture_later(app: QApplication, window, target: Path) -> None:
    """Write a picture of the window after its first whole verdict, and leave."""

    def take() -> None:
        window.grab().save(str(target))
        window.judge.stop()
        app.quit()

    def look() -> None:
        if window.judging.up_to_date or not window.history.design.parts:
            window.judging.changed.disconnect(look)
            QTimer.singleShot(_SETTLED_MS, take)

    window.judging.changed.connect(look)
    QTimer.singleShot(SCREENSHOT_MS, take)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="linework", description=say("Draw a small power system."))
    parser.add_argument("file", nargs="?", help=say("the drawing to open"))
    parser.add_argument(
        "--screenshot", metavar="OUT.png", help=say("write a picture of the window and leave")
    )
    return parser
