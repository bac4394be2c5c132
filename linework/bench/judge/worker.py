"""The window's side of the analysis: one process, the newest design wins, a crash is told."""

from __future__ import annotations

import importlib
import sys
import threading
import time
from dataclasses import dataclass

from PySide6.QtCore import QObject, QProcess, QTimer, Signal

from linework.bench.judge.ownprocess import own_process
from linework.bench.process import Begun, Done, Failed, Inbox, Judged, Mended, Request, packed
from linework.words import say

PATIENCE_S = 4.0
"""An analysis of an older design that takes longer than this is broken off."""

MOST_CRASHES = 2
"""So many crashes on one design, and it is not tried again before the design changes."""

_KEPT_ERRORS = 4000


@dataclass(frozen=True)
class Trouble:
    """Why there is no analysis: a sentence, and the program's own account of it."""

    text: str
    details: str = ""


class Judge(QObject):
    """Sends designs to the analysis process and tells what comes back.

    ``judged`` (Judged), ``mended`` (Mended) and ``trouble`` (Trouble) are about the newest
    design only. ``working`` (str): "", "shown", "all" or "mends".
    """

    judged = Signal(object)
    mended = Signal(object)
    trouble = Signal(object)
    working = Signal(str)

    def __init__(self, parent: QObject | None = None, command: list[str] | None = None) -> None:
        super().__init__(parent)
        self._command = command or [sys.executable, "-m", "linework.bench.process.loop"]
        self._process: QProcess | None = None
        self._inbox = Inbox()
        self._errors = ""
        self._number = 0
        self._asked: tuple[str, bytes] | None = None
        self._known = False
        self._first = 0
        self._busy_with = 0
        self._since = 0.0
        self._crashes = 0
        self._closing = False
        self._impatient = QTimer(self, singleShot=True)
        self._impatient.timeout.connect(self._break_off)

    @property
    def known(self) -> bool:
        """Whether the whole analysis of the design that was asked about has come."""
        return self._known

    # asking

    def start(self) -> None:
        """Start the process; and get the modules that its answers need, out of the hand's way."""
        if self._process is None and not self._closing:
            self._begin()
            threading.Thread(
                target=importlib.import_module, args=("linework.analysis",), daemon=True
            ).start()

    def ask(self, data: bytes, shown: str) -> int:
        """Judge the design in these bytes, the state ``shown`` first. The request's number."""
        if self._asked is None or self._asked[1] != data:
            self._crashes, self._known, self._first = 0, False, self._number + 1
        self._asked = (shown, data)
        self._number += 1
        self._send()
        return self._number

    def forget(self) -> None:
        """What was told is not held any more: the next answer is to be whole."""
        self._known = False

    def again(self) -> None:
        """Try the last design again after a trouble."""
        self._crashes, self._known = 0, False
        if self._asked is not None:
            self._number += 1
            self._send()

    def _send(self) -> None:
        if self._asked is None:
            return
        self.start()
        if self._process is not None:
            shown, data = self._asked
            self._process.write(packed(Request(self._number, shown, data, self._known)))
            self._watch()

    def _watch(self) -> None:
        """An older request is worked on: let it, but not for long."""
        if self._busy_with and self._busy_with != self._number and not self._impatient.isActive():
            gone = time.monotonic() - self._since
            self._impatient.start(max(0, int(1000 * (PATIENCE_S - gone))))

    def _break_off(self) -> None:
        if self._busy_with and self._busy_with != self._number:
            self._end()
            self._send()

    # the process

    def _begin(self) -> None:
        process = own_process(self)
        process.readyReadStandardOutput.connect(self._read)
        process.readyReadStandardError.connect(self._read_errors)
        process.finished.connect(self._finished)
        process.errorOccurred.connect(self._not_started)
        self._process, self._inbox, self._errors = process, Inbox(), ""
        self._busy_with = 0
        process.start(self._command[0], self._command[1:])

    def _end(self) -> None:
        process, self._process = self._process, None
        self._busy_with = 0
        self._impatient.stop()
        if process is not None:
            process.blockSignals(True)
            process.kill()
            process.waitForFinished(2000)
            process.deleteLater()

    def stop(self) -> None:
        """End the process for good, as when the window closes."""
        self._closing = True
        self._end()

    def process_id(self) -> int:
        """The process's number, 0 where there is none."""
        return self._process.processId() if self._process is not None else 0

    # listening

    def _read(self) -> None:
        if self._process is None:
            return
        for message in self._inbox.feed(bytes(self._process.readAllStandardOutput().data())):
            self._take(message)

    def _take(self, message: object) -> None:
        number = getattr(message, "number", 0)
        if isinstance(message, Begun):
            self._busy_with, self._since = number, time.monotonic()
        elif isinstance(message, Done | Failed):
            self._busy_with = 0
            self._impatient.stop()
        if number < self._first:  # about an older drawing
            self._watch()
            return
        if isinstance(message, Begun):
            self.working.emit(message.phase)
        elif isinstance(message, Judged):
            self._known = self._known or not message.analysis.partial
            self.judged.emit(message)
        elif isinstance(message, Mended):
            self.mended.emit(message)
        elif isinstance(message, Done) and number == self._number:
            self.working.emit("")
        elif isinstance(message, Failed):
            self.forget()
            self.working.emit("")
            text = say("The drawing could not be judged: {fault}", fault=message.text)
            self.trouble.emit(Trouble(text, message.details))

    def _read_errors(self) -> None:
        if self._process is not None:
            told = bytes(self._process.readAllStandardError().data()).decode("utf-8", "replace")
            self._errors = (self._errors + told)[-_KEPT_ERRORS:]

    def _not_started(self, error: QProcess.ProcessError) -> None:
        if error is QProcess.ProcessError.FailedToStart:
            self._lost(
                say("The checking could not be started: {command}", command=self._command[0])
            )

    def _finished(self) -> None:
        self._read_errors()
        self._lost(say("The checking stopped in the middle of its work."))

    def _lost(self, what: str) -> None:
        """Tell it and start again, unless this very design keeps bringing it down."""
        process, self._process = self._process, None
        self._busy_with = 0
        self._impatient.stop()
        self.forget()
        if process is not None:
            process.deleteLater()
        if self._closing:
            return
        self.working.emit("")
        self._crashes += 1
        if self._crashes >= MOST_CRASHES:
            what += " " + say("It is not tried again until the drawing changes.")
            self.trouble.emit(Trouble(what, self._errors))
            return
        self.trouble.emit(Trouble(what + " " + say("It was started again."), self._errors))
        self._send()
