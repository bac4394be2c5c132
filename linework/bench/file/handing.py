"""Writes the drawing set in a process of its own, so that the hand goes on drawing meanwhile."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from PySide6.QtCore import QByteArray, QObject, QProcess, Signal

from linework.bench.judge import own_process
from linework.storage import SUFFIX
from linework.words import say


class HandingOver(QObject):
    """``done`` (which files were written, in words) or ``failed`` (why not); one at a time."""

    done = Signal(str)
    failed = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._process: QProcess | None = None
        self._folder: tempfile.TemporaryDirectory[str] | None = None
        self._target = Path()

    @property
    def busy(self) -> bool:
        """Whether a set is being written."""
        return self._process is not None

    def write(self, data: bytes, target: Path) -> None:
        """Begin to write the set of the design in these bytes of a file."""
        self._folder = tempfile.TemporaryDirectory(prefix="linework-")
        self._target = target
        source = Path(self._folder.name) / f"design{SUFFIX}"
        source.write_bytes(data)
        process = own_process(self)
        process.finished.connect(self._finished)
        process.errorOccurred.connect(self._not_started)
        self._process = process
        process.start(sys.executable, ["-m", "linework", "export", str(source), "-o", str(target)])

    def cancel(self) -> None:
        """Break off; no file, or the old one, is where the set would have been."""
        process = self._process
        if process is not None:
            self._clear()
            process.blockSignals(True)
            process.kill()
            process.waitForFinished(2000)

    def _not_started(self, error: QProcess.ProcessError) -> None:
        if error is QProcess.ProcessError.FailedToStart:
            self._clear()
            self.failed.emit(say("The drawing set was not written: the writer cannot be started."))

    def _finished(self, code: int) -> None:
        if self._process is None:
            return
        told = _text(self._process.readAllStandardError())
        written = _text(self._process.readAllStandardOutput())
        target = self._target
        self._clear()
        if code == 0:
            self.done.emit("; ".join(written.splitlines()))
        else:
            text = say(
                "The drawing set was not written to {path}: {reason}", path=target, reason=told
            )
            self.failed.emit(text)

    def _clear(self) -> None:
        process, self._process = self._process, None
        folder, self._folder = self._folder, None
        if process is not None:
            process.deleteLater()
        if folder is not None:
            folder.cleanup()


def _text(said: QByteArray) -> str:
    return bytes(said.data()).decode("utf-8", "replace").strip()
