"""Designs from and to files."""

from __future__ import annotations

from pathlib import Path

from linework.design import Design
from linework.storage.errors import Fault, StorageError
from linework.storage.files import read_bytes, write_bytes
from linework.storage.migrations import FORMAT, migrate
from linework.storage.reader import Loaded, read_document
from linework.storage.syntax import MOST_BYTES, parse
from linework.storage.writer import dumps
from linework.words import say

SUFFIX = ".linework"


def loads(data: bytes, name: str) -> Design:
    """The design in the bytes of a file that is called ``name`` in messages.

    StorageError where they are no design of a format known here, FileFaults with everything
    that is wrong where they are one.
    """
    return loads_with_warnings(data, name).design


def loads_with_warnings(data: bytes, name: str, *, strict: bool = True) -> Loaded:
    """As ``loads``, with what is not known to this version and is kept.

    Unless ``strict``, what does not fit together (poles, terminals, places, designations that
    come twice) but can be held by a design is a warning too: a design is never lost because a
    part in it was rated otherwise after it was joined.
    """
    raw = parse(data, name)
    loaded = read_document(migrate(raw, name), name, strict)
    if raw["format"] == FORMAT:
        return loaded
    text = say("saving brings this file from format {old} to {new}", old=raw["format"], new=FORMAT)
    return Loaded(loaded.design, (Fault("format", text), *loaded.warnings))


def load(path: Path) -> Design:
    """The design in a file. StorageError and FileFaults as ``loads``."""
    return load_with_warnings(path).design


def load_with_warnings(path: Path, *, strict: bool = True) -> Loaded:
    """As ``load``, with warnings as ``loads_with_warnings``."""
    return loads_with_warnings(read_bytes(path, MOST_BYTES), str(path), strict=strict)


def save(design: Design, path: Path) -> None:
    """Write a design into a file in one step; the version before it stays beside it as NAME.bak.

    Mode and symbolic links stay. StorageError, and the old file as it was, where that cannot be
    done. The .bak is the file as it was before this save (a second name of it, or a copy where
    the file system knows no such thing), so it goes back one save, not to the last session.
    """
    data = dumps(design)
    if len(data) > MOST_BYTES:
        raise StorageError(
            say(
                "{name} was not saved: it would be larger than {most} MB and could not be opened "
                "again. What was there before is as it was.",
                name=path,
                most=MOST_BYTES // 2**20,
            )
        )
    write_bytes(data, path)
