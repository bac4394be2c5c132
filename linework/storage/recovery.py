"""What was drawn since the last save, kept aside in case the program dies.

One journal a file, in the user's state folder (XDG Base Directory Specification: the path of
XDG_STATE_HOME): a line that says which file it belongs to and when it was written, then the
design as it would be saved. A design that was never saved gets a place of its own there.
"""

from __future__ import annotations

import hashlib
import json
import os
import secrets
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from platformdirs import user_state_path

from linework.design import Design
from linework.storage.documents import SUFFIX, loads_with_warnings
from linework.storage.errors import StorageError
from linework.storage.files import read_bytes, write_bytes
from linework.storage.locking import holder
from linework.storage.reader import Loaded
from linework.storage.syntax import MOST_BYTES
from linework.storage.writer import dumps
from linework.words import say

_END = ".journal"
_MOST_HEAD = 100_000


@dataclass(frozen=True)
class Recovery:
    """What a journal holds: the design of the file ``path`` as it stood at ``written``."""

    path: Path
    written: datetime
    data: bytes
    journal: Path

    def open(self) -> Loaded:
        """The design, even with parts that do not fit together (as warnings). StorageError."""
        return loads_with_warnings(self.data, str(self.journal), strict=False)

    @property
    def is_untitled(self) -> bool:
        """Whether it was never saved under a name."""
        return self.path.parent == _folder()


def untitled() -> Path:
    """A place in the state folder for a design that has no name yet: its path here and for its
    lock. Nothing need ever be saved there."""
    return _folder() / f"untitled-{secrets.token_hex(6)}{SUFFIX}"


def write(design: Design, path: Path) -> None:
    """Keep the present state of the design of a file. StorageError where it cannot be written."""
    target = _real(path)
    head = {"file": os.fsdecode(target), "written": datetime.now(UTC).isoformat()}
    try:
        _folder().mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as fault:
        text = say(
            "What was drawn cannot be kept aside: {folder} cannot be made ({reason}). Save often.",
            folder=_folder(),
            reason=fault.strerror or fault,
        )
        raise StorageError(text) from fault
    write_bytes(json.dumps(head).encode() + b"\n" + dumps(design), _journal(target), keep=False)


def pending(path: Path) -> Recovery | None:
    """What was kept for a file and is not in it: None where there is nothing, or nothing else.

    Ask while you hold the file's lock, or it may be another's work that is still going on.
    StorageError, naming the journal, where there is one that cannot be read.
    """
    return _read(_journal(_real(path)))


def waiting() -> list[Recovery]:
    """Everything kept for files that nobody has open, oldest first; what cannot be read is left
    out, and told when its own file is opened."""
    found: list[Recovery] = []
    for journal in sorted(_folder().glob(f"*{_END}")):
        with suppress(StorageError):
            item = _read(journal)
            if item is not None and holder(item.path) is None:
                found.append(item)
    return sorted(found, key=lambda item: item.written)


def discard(path: Path) -> None:
    """Forget what was kept for a file, as after a save. StorageError where it cannot be removed."""
    journal = _journal(_real(path))
    try:
        journal.unlink(missing_ok=True)
    except OSError as fault:
        text = say(
            "{path} cannot be removed ({reason}); it would be offered again. Delete it.",
            path=journal,
            reason=fault.strerror or fault,
        )
        raise StorageError(text) from fault


def _folder() -> Path:
    return user_state_path("linework", appauthor=False) / "recovery"


def _real(path: Path) -> Path:
    return Path(os.path.realpath(path))


def _journal(target: Path) -> Path:
    key = hashlib.sha256(os.fsencode(target)).hexdigest()[:32]
    return _folder() / f"{key}{_END}"


def _read(journal: Path) -> Recovery | None:
    if not journal.exists():
        return None
    content = read_bytes(journal, MOST_BYTES + _MOST_HEAD)
    head, _, data = content.partition(b"\n")
    try:
        fields = json.loads(head)
        written = datetime.fromisoformat(fields["written"]).astimezone(UTC)
        found = Recovery(_absolute(fields["file"]), written, data, journal)
    except (ValueError, LookupError, TypeError, ArithmeticError, RecursionError) as fault:
        text = say(
            "What was kept aside in {path} is damaged and cannot be read. Delete it, or have "
            "somebody look at it.",
            path=journal,
        )
        raise StorageError(text) from fault
    return None if _holds(found.path, data) else found


def _absolute(name: str) -> Path:
    if "\0" in name or not Path(name).is_absolute():
        raise ValueError(name)
    return Path(name)


def _holds(path: Path, data: bytes) -> bool:
    """Whether the file has the very same content, so that nothing was lost."""
    try:
        return read_bytes(path, MOST_BYTES) == data
    except StorageError:
        return False
