"""Bytes on the disk: a write leaves the old file or the new one whole, never a mixture.

The new bytes go to a file of their own in the same folder, are forced onto the disk, and take
the name of the old file in one step; then the folder is forced onto the disk too. A symbolic
link stays a link: the file that it leads to is replaced. Mode, owner and group are those of the
old file. (Further hard links to the old file keep the old content; extended attributes are lost.)
"""

from __future__ import annotations

import contextlib
import errno
import os
import secrets
import shutil
import stat
import time
from collections.abc import Mapping
from contextlib import ExitStack
from pathlib import Path

from linework.storage import system
from linework.storage.errors import StorageError
from linework.words import N_, say

_FRESH, _FRESH_END = ".linework-", ".part"
_LEFT_BEHIND_S = 3600.0
"""A fresh file this old belongs to a program that died while it wrote."""

_CURES = {
    errno.ENOSPC: N_("the disk is full; make room, or choose another place"),
    errno.EDQUOT: N_("your share of the disk is used up; make room, or choose another place"),
    errno.ENOENT: N_("there is no such folder or file; check the name"),
    errno.ENOTDIR: N_("a part of the path is not a folder; check the name"),
    errno.EISDIR: N_("this is a folder; add a name"),
    errno.EACCES: N_("you may not; ask for the right to, or choose another place"),
    errno.EPERM: N_("you may not; ask for the right to, or choose another place"),
    errno.EROFS: N_("nothing can be written there; choose another place"),
    errno.ENAMETOOLONG: N_("the name is too long; choose a shorter one"),
    errno.ELOOP: N_("its links lead in a circle; choose another name"),
    errno.EIO: N_("the disk reports a fault; choose another place and look after the disk"),
    errno.EFBIG: N_("the disk takes no file of this size; choose another place"),
}


def backup_of(path: Path) -> Path:
    """Where the version before the last save lies: beside the file itself, as NAME.bak."""
    target = _target(path)
    return target.with_name(f"{target.name}.bak")


def read_bytes(path: Path, most: int) -> bytes:
    """The content of a file, of which one byte more than ``most`` is read if there is more.

    StorageError where it is missing, unreadable or no plain file.
    """
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            raise StorageError(say("{path} is not a plain file and cannot be opened.", path=path))
        with path.open("rb") as file:
            return file.read(most + 1)
    except (OSError, ValueError) as fault:
        text = say("{path} cannot be read: {reason}.", path=path, reason=_reason(fault))
        raise StorageError(text) from fault


def write_bytes(data: bytes, path: Path, keep: bool = True) -> None:
    """Put a file in the place of the old one. ``keep``: the version before is kept as NAME.bak.

    StorageError, and the old file as it was, where that cannot be done.
    """
    write_several({path: data}, keep)


def write_several(files: Mapping[Path, bytes], keep: bool = False) -> None:
    """Put files in the places of the old ones, none of them before all lie whole on the disk.

    StorageError, and every old file as it was, where one of them cannot be written. (What the
    system refuses only while it gives the files their names comes too late for those before it:
    the text then names the file at which it stopped.)
    """
    with ExitStack() as fresh:
        staged = [_ready(data, path, fresh) for path, data in files.items()]
        for path, made in zip(files, staged, strict=True):
            _put(made, path, keep)
    for folder in dict.fromkeys(_target(path).parent for path in files):
        _confirmed(folder, next(path for path in files if _target(path).parent == folder))
        _clear(folder)


def _ready(data: bytes, path: Path, undo: ExitStack) -> Path:
    """The new bytes beside the old file."""
    try:
        made = _staged(data, _target(path))
    except (OSError, ValueError) as fault:
        raise _not_saved(path, fault) from fault
    undo.callback(_gone, made)
    return made


def _gone(fresh: Path) -> None:
    with contextlib.suppress(OSError):
        fresh.unlink(missing_ok=True)


def _put(made: Path, path: Path, keep: bool) -> None:
    try:
        target = _target(path)
        if keep and target.exists():
            _keep(target)
        made.replace(target)
    except (OSError, ValueError) as fault:
        raise _not_saved(path, fault) from fault


def _not_saved(path: Path, fault: OSError | ValueError) -> StorageError:
    return StorageError(
        say(
            "{path} was not saved: {reason}. What was there before is as it was.",
            path=path,
            reason=_reason(fault),
        )
    )


def _confirmed(folder: Path, path: Path) -> None:
    try:
        system.forced_folder(folder)
    except OSError as fault:
        text = say(
            "{path} is in place, but the disk did not confirm it ({reason}): save a copy elsewhere "
            "before you turn the machine off.",
            path=path,
            reason=_reason(fault),
        )
        raise StorageError(text) from fault


def _target(path: Path) -> Path:
    """The file itself, where ``path`` is a link."""
    return Path(os.path.realpath(path))


def _reason(fault: OSError | ValueError) -> str:
    if isinstance(fault, OSError):
        cure = _CURES.get(fault.errno or 0)
        return say(cure) if cure else str(fault.strerror or fault)
    return say("the name has a sign that no file name can have; choose another")


def _staged(data: bytes, target: Path) -> Path:
    """A fresh file with the bytes, forced onto the disk."""
    old = _old(target)
    fresh = target.with_name(f"{_FRESH}{secrets.token_hex(8)}{_FRESH_END}")
    # Nobody may read the new file who could not read the old one, not even while it is written.
    mode = 0o666 if old is None else 0o600
    handle = system.opened(fresh, os.O_CREAT | os.O_EXCL | os.O_WRONLY, mode)
    try:
        try:
            _fill(handle, data, old)
        finally:
            os.close(handle)
    except BaseException:
        _gone(fresh)
        raise
    return fresh


def _old(target: Path) -> os.stat_result | None:
    """The file that is to be replaced; refused where it is none, or may not be written."""
    try:
        old = target.stat()
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(old.st_mode):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR))
    if not stat.S_ISREG(old.st_mode):
        raise OSError(errno.EINVAL, say("this is not a plain file"))
    if not os.access(target, os.W_OK):  # replacing it would get round a file made read-only
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
    return old


def _fill(handle: int, data: bytes, old: os.stat_result | None) -> None:
    rest = memoryview(data)
    while rest:
        rest = rest[os.write(handle, rest) :]
    if old is not None:
        system.made_alike(handle, old)
    system.forced(handle)


def _keep(target: Path) -> None:
    """The old file under its .bak name too: at no moment is either name without a whole file.

    A .bak that is the old file already stays so: the system then leaves both names as they are.
    """
    kept = target.with_name(f"{target.name}.bak")
    step = target.with_name(f"{_FRESH}{secrets.token_hex(8)}{_FRESH_END}")
    try:
        if not system.linked(target, step):
            _copy(target, step)
        step.replace(kept)
    finally:
        step.unlink(missing_ok=True)


def _copy(target: Path, step: Path) -> None:
    shutil.copy2(target, step)
    handle = system.opened(step, os.O_RDWR)
    try:
        system.forced(handle)
    finally:
        os.close(handle)


def _clear(folder: Path) -> None:
    """Take away what programs left behind that died while they wrote."""
    with contextlib.suppress(OSError):
        for left in folder.glob(f"{_FRESH}*{_FRESH_END}"):
            if time.time() - left.stat().st_mtime > _LEFT_BEHIND_S:
                left.unlink()
