"""Designs as files: format, migrations, saving in one step, lock, recovery. No Qt."""

from linework.storage.documents import (
    SUFFIX,
    load,
    load_with_warnings,
    loads,
    loads_with_warnings,
    save,
)
from linework.storage.errors import Fault, FileFaults, Holder, Locked, StorageError
from linework.storage.files import backup_of, write_bytes
from linework.storage.locking import Lock, holder, lock, take
from linework.storage.reader import Loaded
from linework.storage.writer import dumps

__all__ = [
    "SUFFIX",
    "Fault",
    "FileFaults",
    "Holder",
    "Loaded",
    "Lock",
    "Locked",
    "StorageError",
    "backup_of",
    "dumps",
    "holder",
    "load",
    "load_with_warnings",
    "loads",
    "loads_with_warnings",
    "lock",
    "save",
    "take",
    "write_bytes",
]
