"""A lock file beside an open design, so that a second opener is told who holds it.

The file names the holder: process, host, program. The system's lock on it says whether he
lives: it falls with the process, so a lock that was left behind is found out without guessing
by process numbers. Where a shared folder was locked from another host the system may not know;
then the name in the file counts.
"""

from __future__ import annotations

import json
import os
import platform
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import linework
from linework.storage import system
from linework.storage.errors import Holder, Locked, StorageError
from linework.words import say

_MOST_BYTES = 4096
_TRIES, _PAUSE_S = 5, 0.02


class Lock:
    """A lock that is held. Give it back with ``release``; it falls with the process too."""

    def __init__(self, handle: int, path: Path) -> None:
        self._handle: int | None = handle
        self._path = path

    def release(self) -> None:
        """Give the lock back; once is enough, twice does no harm."""
        handle, self._handle = self._handle, None
        if handle is None:
            return
        system.closed_and_gone(handle, self._path)


def lock_file(path: Path) -> Path:
    """The lock file of a design: beside the file itself, hidden."""
    target = Path(os.path.realpath(path))
    return target.with_name(f".{target.name}.lock")


@contextmanager
def lock(path: Path) -> Iterator[Lock]:
    """Hold the lock of a file for a while, see ``take``."""
    held = take(path)
    try:
        yield held
    finally:
        held.release()


def take(path: Path) -> Lock:
    """Take the lock of a file. A lock that was left behind is taken over.

    Locked, with a message that names the holder, if another window or program has it.
    StorageError if no lock can be laid there, as in a folder that cannot be written.
    """
    beside = lock_file(path)
    found = Holder(0, "", "")
    for _ in range(_TRIES):
        handle = _open(beside, path)
        found = _holder(handle)
        # Without its name it was given back just before, and locks nothing.
        if system.locked(handle) and system.is_named(handle, beside):
            if not _is_elsewhere(found):
                _sign(handle)
                return Lock(handle, beside)
            system.closed(handle)
            break
        system.closed(handle)
        time.sleep(_PAUSE_S)  # somebody may only be asking who holds it
    raise Locked(_told(path, found, beside), found)


def holder(path: Path) -> Holder | None:
    """Who has a file open; None if nobody has, or a lock was only left behind."""
    try:
        handle = system.opened(lock_file(path), os.O_RDONLY)
    except (FileNotFoundError, NotADirectoryError):
        return None
    except OSError:
        return Holder(0, "", "")
    try:
        found = _holder(handle)
        lives = not system.locked(handle) or _is_elsewhere(found)
        return found if lives else None
    finally:
        system.closed(handle)


def _open(beside: Path, path: Path) -> int:
    try:
        return system.opened(beside, os.O_RDWR | os.O_CREAT)
    except (OSError, ValueError) as fault:
        raise StorageError(_unlockable(path, fault)) from fault


def _unlockable(path: Path, fault: OSError | ValueError) -> str:
    return say(
        "{path} cannot be kept for you alone: no lock file can be written beside it ({reason}). "
        "Work on a copy in another folder.",
        path=path,
        reason=getattr(fault, "strerror", None) or fault,
    )


def _sign(handle: int) -> None:
    text = json.dumps(
        {
            "pid": os.getpid(),
            "host": platform.node(),
            "program": f"linework {linework.__version__}",
        }
    )
    with suppress(OSError):  # on a full disk the lock holds, only without a name
        os.ftruncate(handle, 0)
        os.lseek(handle, 0, os.SEEK_SET)
        os.write(handle, text.encode())


def _holder(handle: int) -> Holder:
    try:
        os.lseek(handle, 0, os.SEEK_SET)
        found = json.loads(os.read(handle, _MOST_BYTES))
    except (ValueError, RecursionError):
        found = None
    if not isinstance(found, dict):
        return Holder(0, "", "")
    pid, host, program = found.get("pid"), found.get("host"), found.get("program")
    return Holder(
        pid if isinstance(pid, int) else 0,
        host if isinstance(host, str) else "",
        program if isinstance(program, str) else "",
    )


def _is_elsewhere(found: Holder) -> bool:
    return found.host not in ("", platform.node())


def _told(path: Path, found: Holder, beside: Path) -> str:
    if found.pid == os.getpid() and not _is_elsewhere(found):
        return say("{path} is open in this program already.", path=path)
    if not found.host:
        return say("{path} is open in another program. Close it there.", path=path)
    if _is_elsewhere(found):
        return say(
            "{path} is open in {program}, process {pid} on {host}. Close it there. If nobody works "
            "there any more, delete {beside} and open it again.",
            path=path,
            program=found.program,
            pid=found.pid,
            host=found.host,
            beside=beside,
        )
    return say(
        "{path} is open in {program}, process {pid} on this machine. Close it there.",
        path=path,
        program=found.program,
        pid=found.pid,
    )
