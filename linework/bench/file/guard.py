"""Nothing fails unseen: every uncaught error is caught here, told once, and work goes on.

An exception in a slot, a timer or an overridden event reaches ``sys.excepthook`` and the program
runs on; so the hooks are laid before anything else.
"""

from __future__ import annotations

import faulthandler
import platform
import sys
import threading
import traceback
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from types import TracebackType
from typing import Any, TextIO

from platformdirs import user_state_path
from PySide6.QtCore import (
    QMessageLogContext,
    QObject,
    Qt,
    QtMsgType,
    Signal,
    qInstallMessageHandler,
    qVersion,
)

import linework
from linework.words import say

HARMLESS = ("This plugin does not support propagateSizeHints",)
"""What the offscreen platform says of every window."""


@dataclass(frozen=True)
class Fault:
    """An error nobody expected: a sentence, and the program's own account of it."""

    text: str
    details: str


class Guard(QObject):
    """Catches what nobody else caught. ``caught`` (Fault) is emitted in the window's thread."""

    caught = Signal(object)
    _from_anywhere = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._telling = False
        self._deaths: TextIO | None = None
        self._log_before = faulthandler.is_enabled()
        self._before: tuple[Any, Any, Any] | None = None
        # Queued: a dialog must not open inside a paint event or in a thread of its own.
        self._from_anywhere.connect(self._tell, Qt.ConnectionType.QueuedConnection)

    def install(self) -> None:
        """Lay all hooks."""
        self._log_deaths()
        old = qInstallMessageHandler(self._qt_message)
        self._before = (sys.excepthook, threading.excepthook, old)
        sys.excepthook = self._exception
        threading.excepthook = self._in_thread

    def remove(self) -> None:
        """Put back what was there before."""
        if self._before is not None:
            sys.excepthook, threading.excepthook, old = self._before
            qInstallMessageHandler(old)
            self._before = None
        self._log_no_deaths()

    def _log_deaths(self) -> None:
        """Where the process dies of itself, say in which line; into a file: there is no window."""
        folder = user_state_path("linework", appauthor=False)
        with suppress(OSError):
            folder.mkdir(parents=True, exist_ok=True)
            # Open as long as the hooks lie: the handler writes into it when the process dies.
            self._deaths = (folder / "last-crash.txt").open("w", encoding="utf-8")
            faulthandler.enable(self._deaths)

    def _log_no_deaths(self) -> None:
        deaths, self._deaths = self._deaths, None
        if deaths is not None:
            faulthandler.disable()
            deaths.close()
            if self._log_before:
                faulthandler.enable(sys.__stderr__ or sys.stderr)

    def _exception(
        self, sort: type[BaseException], fault: BaseException, trace: TracebackType | None
    ) -> None:
        if issubclass(sort, KeyboardInterrupt):
            sys.__excepthook__(sort, fault, trace)
            return
        lines = "".join(traceback.format_exception(sort, fault, trace))
        sys.stderr.write(lines)
        self._from_anywhere.emit(Fault(f"{sort.__name__}: {fault}", lines))

    def _in_thread(self, told: threading.ExceptHookArgs) -> None:
        if told.exc_value is not None:
            self._exception(told.exc_type, told.exc_value, told.exc_traceback)

    def _qt_message(self, sort: QtMsgType, context: QMessageLogContext, text: str) -> None:
        if any(text.startswith(known) for known in HARMLESS):
            return
        sys.stderr.write(f"Qt: {text}\n")
        if sort in (QtMsgType.QtCriticalMsg, QtMsgType.QtFatalMsg):
            place = f"{context.file or '?'}:{context.line}"
            self._from_anywhere.emit(Fault(f"Qt: {text}", place))

    def _tell(self, fault: Fault) -> None:
        """One at a time: what fails while a fault is told is in the error stream only."""
        if self._telling:
            return
        self._telling = True
        try:
            self.caught.emit(fault)
        finally:
            self._telling = False


def account(fault: Fault, write_state: Callable[[], str]) -> str:
    """What a person can copy or save and send: versions, the error, where the work is kept."""
    return "\n".join(
        [
            f"linework {linework.__version__}, Python {platform.python_version()}, Qt {qVersion()}",
            platform.platform(),
            write_state(),
            "",
            fault.text,
            "",
            fault.details,
        ]
    )


def sentence(fault: Fault) -> str:
    """What is said of it in the dialog."""
    return say(
        "Something failed that should not have: {fault}. The drawing is as it was before this"
        " step. The findings shown may not be right until the drawing was judged again.",
        fault=fault.text,
    )
