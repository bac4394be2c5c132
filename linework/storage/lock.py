"""A lock file beside an open design, so that a second opener is told who holds it."""

from __future__ import annotations

import json
import os
import socket
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from linework.storage.errors import StorageError
from linework.words import say


class Locked(StorageError):
    """Somebody else has the file open; the message says who."""


def lock_file(path: Path) -> Path:
    """The lock file of a design."""
    return path.with_name(f".{path.name}.lock")


@contextmanager
def lock(path: Path) -> Iterator[None]:
    """Hold the lock of a file. Locked if another living program holds it; a stale one is taken over."""
    take(path)
    try:
        yield
    finally:
        release(path)


def take(path: Path) -> None:
    """Take the lock. Locked if another living program holds it."""
    target = lock_file(path)
    text = json.dumps({"pid": os.getpid(), "host": socket.gethostname(), "program": "linework"})
    for _ in range(2):
        try:
            handle = os.open(target, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o644)
        except FileExistsError:
            _refuse_if_alive(path, target)
            with suppress(FileNotFoundError):
                target.unlink()
            continue
        except OSError:
            return  # a folder that cannot be written to needs no lock: nothing can be saved there
        with os.fdopen(handle, "w") as file:
            file.write(text)
        return


def release(path: Path) -> None:
    """Give the lock back, if it is ours."""
    target = lock_file(path)
    holder = _holder(target)
    if holder.get("pid") == os.getpid() and holder.get("host") == socket.gethostname():
        with suppress(OSError):
            target.unlink()


def _holder(target: Path) -> dict[str, object]:
    try:
        found = json.loads(target.read_text())
    except (OSError, ValueError):
        return {}
    return found if isinstance(found, dict) else {}


def _refuse_if_alive(path: Path, target: Path) -> None:
    holder = _holder(target)
    pid, host = holder.get("pid"), holder.get("host")
    if not isinstance(pid, int) or pid == os.getpid():
        return
    if host != socket.gethostname() or _lives(pid):
        raise Locked(
            say(
                "{path} is open in {program}, process {pid} on {host}. Close it there, or work on a"
                " copy",
                path=path,
                program=holder.get("program", "?"),
                pid=pid,
                host=host,
            )
        )


def _lives(pid: int) -> bool:
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        return True
    return True
