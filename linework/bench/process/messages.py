"""What the window and its analysis process say to each other, and how it travels.

Each message is a pickle behind its length. Both ends are this program, started by itself; files
are never read in this way.
"""

from __future__ import annotations

import pickle
import struct
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, BinaryIO

from linework.bench.states import LeverBoard
from linework.design import Change

if TYPE_CHECKING:
    from linework.analysis import Analysis

_LENGTH = struct.Struct(">Q")


@dataclass(frozen=True)
class Request:
    """Judge the design in these bytes of a file; the state of the key ``shown`` first.

    ``known``: the window has the whole analysis of these bytes already and only wants to see
    the shown state.
    """

    number: int
    shown: str
    data: bytes
    known: bool = False


@dataclass(frozen=True)
class Begun:
    """Work on a request goes on: "shown", "all" or "mends"."""

    number: int
    phase: str


@dataclass(frozen=True)
class Judged:
    """The analysis for a request, without mends: they come one by one when they are proven.

    ``cautions``: ids of the rules whose findings are never accepted away.
    """

    number: int
    analysis: Analysis
    board: LeverBoard
    cautions: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Mended:
    """The proven change that cures the finding of this fingerprint."""

    number: int
    fingerprint: str
    title: str
    change: Change


@dataclass(frozen=True)
class Done:
    """All that was asked has been told."""

    number: int


@dataclass(frozen=True)
class Failed:
    """A request that could not be answered: a sentence, and the program's own account of it."""

    number: int
    text: str
    details: str


Answer = Begun | Judged | Mended | Done | Failed


def packed(message: object) -> bytes:
    """A message as it travels."""
    body = pickle.dumps(message, pickle.HIGHEST_PROTOCOL)
    return _LENGTH.pack(len(body)) + body


def read_from(stream: BinaryIO) -> object | None:
    """The next message of a stream; None at its end, also in the middle of a message."""
    head = stream.read(_LENGTH.size)
    if len(head) < _LENGTH.size:
        return None
    (length,) = _LENGTH.unpack(head)
    body = stream.read(length)
    return _opened(body) if len(body) == length else None


class Inbox:
    """Puts messages together out of the pieces in which they arrive."""

    def __init__(self) -> None:
        self._held = bytearray()

    def feed(self, piece: bytes) -> Iterator[object]:
        """Every message that is whole now."""
        self._held += piece
        while len(self._held) >= _LENGTH.size:
            (length,) = _LENGTH.unpack_from(self._held)
            end = _LENGTH.size + length
            if len(self._held) < end:
                return
            body = bytes(self._held[_LENGTH.size : end])
            del self._held[:end]
            yield _opened(body)


def _opened(body: bytes) -> object:
    # Only ever from our own process, which this one started (see the module's text).
    return pickle.loads(body)  # noqa: S301
