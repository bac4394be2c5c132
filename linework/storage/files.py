"""Files read and saved: a save leaves the old file or the new one whole, never a mixture."""

from __future__ import annotations

import contextlib
import os
import shutil
import tempfile
from pathlib import Path

from linework.design import Design
from linework.storage.decode import MOST_BYTES, Loaded, loads
from linework.storage.encode import dumps
from linework.storage.errors import StorageError
from linework.words import say

SUFFIX = ".linework"


def load(path: Path) -> Design:
    """The design of a file. StorageError (or FileFaults) with a message otherwise."""
    return load_with_warnings(path).design


def load_with_warnings(path: Path) -> Loaded:
    """As ``load``, with what in the file was not known."""
    try:
        with open(path, "rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as fault:
        raise StorageError(
            say("{path} cannot be read: {reason}", path=path, reason=fault.strerror or fault)
        ) from fault
    return loads(data, str(path))


def backup_of(path: Path) -> Path:
    """Where the version before the last save is kept."""
    return path.with_name(path.name + ".bak")


def save(design: Design, path: Path) -> None:
    """Write a design beside the old file and put it in its place.

    The version before is kept as NAME.bak; mode and symbolic links stay.
    StorageError, and the old file as it was, where that cannot be done.
    """
    write_bytes(dumps(design), path)


def write_bytes(data: bytes, path: Path, keep: bool = True) -> None:
    """As ``save``, for any bytes; ``keep``: whether the version before is kept."""
    target = Path(os.path.realpath(path))
    try:
        _replace(data, target, keep)
    except OSError as fault:
        raise StorageError(
            say(
                "{path} was not saved: {reason}. The file is as it was; free some space or save"
                " under another name",
                path=path,
                reason=fault.strerror or fault,
            )
        ) from fault


def _replace(data: bytes, target: Path, keep: bool) -> None:
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.")
    fresh = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            shutil.copymode(target, fresh)
            if keep:
                _keep(target)
        else:
            os.chmod(fresh, 0o666 & ~_umask())
        os.replace(fresh, target)
    except BaseException:
        with contextlib.suppress(OSError):
            fresh.unlink()
        raise
    _sync_folder(target.parent)


def _keep(target: Path) -> None:
    """The old file under its .bak name too; a second name costs no space where links are known."""
    old = backup_of(target)
    with contextlib.suppress(FileNotFoundError):
        old.unlink()
    try:
        os.link(target, old)
    except OSError:
        shutil.copy2(target, old)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _sync_folder(folder: Path) -> None:
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
