"""The analysis process: takes designs as the bytes of a file, answers with what was found.

Started by the window (``worker.Judge``) as ``python -m linework.bench.process.loop``. It reads
requests from its standard input and writes answers to its standard output; it ends when the
input ends. While one request is worked on, a newer one may come in; the older is left off at the
next step.
"""

from __future__ import annotations

import faulthandler
import os
import queue
import sys
import threading
import traceback
from collections.abc import Callable, Iterator
from functools import partial
from typing import BinaryIO

from linework.advice import Proof, settled, together, without_mends
from linework.analysis import Analysis, Memory, analyse
from linework.bench.process.levers import lever_board
from linework.bench.process.messages import (
    Answer,
    Begun,
    Done,
    Failed,
    Judged,
    Mended,
    Request,
    packed,
    read_from,
)
from linework.bench.states import LeverBoard
from linework.design import Design
from linework.findings.model import Finding, Mend
from linework.findings.registry import rules
from linework.storage import StorageError, loads_with_warnings
from linework.words import say

Stale = Callable[[], bool]


class Workbench:
    """Answers requests; keeps what it found out about the last design, and older studies."""

    def __init__(self) -> None:
        self._memory = Memory()
        self._data = b""
        self._design = Design()
        self._board = LeverBoard()
        self._whole: Analysis | None = None
        self._tried: set[str] = set()

    def answers(self, request: Request, stale: Stale) -> Iterator[Answer]:
        """Everything there is to say, the shown state first; it stops when ``stale``."""
        number = request.number
        try:
            self._take_up(request.data)
            if not request.known:
                self._tried.clear()  # the window holds nothing, mends neither
            yield from self._judged(request, stale)
            if stale():
                return
            yield Begun(number, "mends")
            yield from self._mends(number, stale)
        except StorageError as fault:
            yield Failed(number, str(fault), "")
        except Exception as fault:  # noqa: BLE001 - told in the window; the process goes on
            yield Failed(number, f"{type(fault).__name__}: {fault}", traceback.format_exc())
        else:
            yield Done(number)

    def _take_up(self, data: bytes) -> None:
        if data == self._data:
            return
        self._data, self._whole, self._tried = b"", None, set()
        self._design = loads_with_warnings(data, say("design"), strict=False).design
        self._board = lever_board(self._design)
        self._data = data

    def _judged(self, request: Request, stale: Stale) -> Iterator[Answer]:
        number = request.number
        if request.shown:
            yield Begun(number, "shown")
            first = analyse(self._design, shown=request.shown, memory=self._memory)
            yield Judged(number, without_mends(first), self._board, _cautions())
        if stale():
            return
        if self._whole is None:
            yield Begun(number, "all")
            self._whole = analyse(self._design, memory=self._memory)
        elif request.known:
            return
        yield Judged(number, without_mends(self._whole), self._board, _cautions())

    def _mends(self, number: int, stale: Stale) -> Iterator[Answer]:
        """The proofs of mends that were not tried yet, those of one place together."""
        whole = self._whole
        if whole is None:
            return
        proof = Proof(self._design, whole, self._memory)
        for members in together(self._design, whole):
            prints = {finding.fingerprint for finding in members}
            if prints <= self._tried:
                continue
            if stale():
                return
            self._tried |= prints
            for finding, mend in self._settled(proof, members):
                yield Mended(number, finding.fingerprint, mend.title, mend.edit(self._design))

    def _settled(self, proof: Proof, members: tuple[Finding, ...]) -> list[tuple[Finding, Mend]]:
        """What is offered; nothing where the proof itself fails: the verdict stands without."""
        try:
            return settled(proof, members)
        except Exception:  # noqa: BLE001 - a mend that cannot be proven is not offered
            traceback.print_exc()
            return []


def _cautions() -> frozenset[str]:
    return frozenset(rule.id for rule in rules().values() if rule.always_printed)


class _Mailbox:
    """Keeps the newest request only. ``None`` in it: the window is gone."""

    def __init__(self, stream: BinaryIO) -> None:
        self._queue: queue.SimpleQueue[Request | None] = queue.SimpleQueue()
        self.newest = -1
        threading.Thread(target=self._listen, args=(stream,), daemon=True).start()

    def _listen(self, stream: BinaryIO) -> None:
        while isinstance(message := read_from(stream), Request):
            self.newest = message.number
            self._queue.put(message)
        self._queue.put(None)

    def is_stale(self, number: int) -> bool:
        """Whether something newer than this request has come in."""
        return self.newest != number

    def next(self) -> Request | None:
        """Wait for a request and give the newest there is."""
        found = self._queue.get()
        while found is not None and found.number != self.newest:
            found = self._queue.get()
        return found


def serve(requests: BinaryIO, out: BinaryIO) -> None:
    """Answer requests until their stream ends."""
    box, bench = _Mailbox(requests), Workbench()
    while (request := box.next()) is not None:
        number = request.number
        for answer in bench.answers(request, partial(box.is_stale, number)):
            out.write(packed(answer))
            out.flush()


def main() -> None:
    """Serve on the standard streams; whatever else prints goes to the error stream."""
    faulthandler.enable()
    out = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    serve(sys.stdin.buffer, out)


if __name__ == "__main__":
    main()
