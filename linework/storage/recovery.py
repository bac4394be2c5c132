"""What was drawn since the last save, kept aside in case the program dies."""

from __future__ import annotations

import hashlib
from contextlib import suppress
from pathlib import Path

from platformdirs import user_state_path

from linework.design import Design
from linework.storage.decode import loads
from linework.storage.encode import dumps
from linework.storage.errors import StorageError
from linework.storage.files import write_bytes


def recovery_file(path: Path | None) -> Path:
    """Where the unsaved state of a file (None: a design never saved) is kept."""
    key = (
        "unsaved" if path is None else hashlib.sha256(str(path.resolve()).encode()).hexdigest()[:24]
    )
    return user_state_path("linework", appauthor=False) / "recovery" / f"{key}.linework"


def write(design: Design, path: Path | None) -> None:
    """Keep the present state. StorageError where it cannot be written."""
    target = recovery_file(path)
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise StorageError(str(fault)) from fault
    write_bytes(dumps(design), target)


def pending(path: Path | None) -> Design | None:
    """The state that was kept, None where there is none or it cannot be read."""
    target = recovery_file(path)
    if not target.exists():
        return None
    try:
        return loads(target.read_bytes(), str(target)).design
    except (StorageError, OSError):
        return None


def discard(path: Path | None) -> None:
    """Forget what was kept."""
    target = recovery_file(path)
    for file in (target, target.with_name(target.name + ".bak")):
        with suppress(OSError):
            file.unlink()
