"""What only some systems have, each with the others' way beside it: here and nowhere else.

Two families are told apart by what they offer, not by name. The POSIX ones (Linux, macOS) lock a
file with ``flock``, let a file that is open lose its name, and force a folder onto the disk. The
other (Windows) locks bytes of a file with ``msvcrt.locking``, keeps the name of a file as long as
anybody has it open, and has no folders that could be opened.
"""

from __future__ import annotations

import contextlib
import errno
import importlib
import os
import stat
from pathlib import Path
from typing import Any


def _offered(module: str) -> Any | None:
    try:
        return importlib.import_module(module)
    except ImportError:
        return None


_FCNTL, _MSVCRT = _offered("fcntl"), _offered("msvcrt")

_ALWAYS = getattr(os, "O_BINARY", 0) | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_NOINHERIT", 0)
"""Bytes as they are, and no handle for a process that is started."""

_LOCKED_BYTE = 2**30
"""Far behind the text of a lock file: bytes that are locked there can be read by nobody else."""

_NO_LOCKS = (errno.ENOLCK, errno.EOPNOTSUPP, errno.EINVAL)
_CANNOT_SYNC_FOLDERS = (errno.EINVAL, errno.ENOTSUP)


def opened(path: Path, flags: int, mode: int = 0o666) -> int:
    """A handle of a file; OSError also where its name is a link, on systems that can tell."""
    return os.open(path, flags | _ALWAYS | getattr(os, "O_NOFOLLOW", 0), mode)


def locked(handle: int) -> bool:
    """Whether the open file is locked for this handle now; the lock falls with the process.

    Also true where the file system knows no locks. A second handle is refused, that of the same
    process too.
    """
    try:
        if _FCNTL is not None:
            _FCNTL.flock(handle, _FCNTL.LOCK_EX | _FCNTL.LOCK_NB)
        elif _MSVCRT is not None:
            os.lseek(handle, _LOCKED_BYTE, os.SEEK_SET)
            _MSVCRT.locking(handle, _MSVCRT.LK_NBLCK, 1)
    except OSError as fault:
        return fault.errno in _NO_LOCKS
    return True


def closed(handle: int) -> None:
    """Close a handle of ``locked`` that another shall have the file of at once."""
    if _FCNTL is None and _MSVCRT is not None:
        with contextlib.suppress(OSError):  # it had no lock
            os.lseek(handle, _LOCKED_BYTE, os.SEEK_SET)
            _MSVCRT.locking(handle, _MSVCRT.LK_UNLCK, 1)
    os.close(handle)


def closed_and_gone(handle: int, path: Path) -> None:
    """Take away a locked file that bears this name, and close its handle."""
    if _FCNTL is None:
        closed(handle)
        with contextlib.suppress(OSError):  # who has opened it meanwhile keeps it
            path.unlink()
        return
    # Unlinked while it is still held: who opens it now notices that it has lost its name.
    with contextlib.suppress(OSError):
        if is_named(handle, path):
            path.unlink()
    os.close(handle)


def is_named(handle: int, path: Path) -> bool:
    """Whether an open file still is the one of that name: where it cannot lose it, always."""
    if _FCNTL is None:
        return True
    try:
        return os.path.samestat(os.fstat(handle), path.stat())
    except FileNotFoundError:
        return False


def made_alike(handle: int, old: os.stat_result) -> None:
    """Give an open file the owner and the mode of another, as far as the system knows such."""
    if hasattr(os, "fchown") and (old.st_uid, old.st_gid) != (os.geteuid(), os.getegid()):
        with contextlib.suppress(OSError):
            os.fchown(handle, old.st_uid, old.st_gid)
    if hasattr(os, "fchmod"):
        os.fchmod(handle, stat.S_IMODE(old.st_mode))


def linked(path: Path, other: Path) -> bool:
    """Give a file a second name; false where system or file system know no such thing."""
    try:
        os.link(path, other)
    except (OSError, AttributeError, NotImplementedError):
        return False
    return True


def forced(handle: int) -> None:
    """Force what was written onto the disk itself. OSError where the disk does not confirm it."""
    full = getattr(_FCNTL, "F_FULLFSYNC", None)
    if _FCNTL is not None and full is not None:
        # There fsync leaves it in the memory of the drive.
        with contextlib.suppress(OSError):
            _FCNTL.fcntl(handle, full)
            return
    os.fsync(handle)


def forced_folder(folder: Path) -> None:
    """Force the names in a folder onto the disk, where a folder can be opened. OSError as above."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(handle)
    except OSError as fault:
        if fault.errno not in _CANNOT_SYNC_FOLDERS:
            raise
    finally:
        os.close(handle)
