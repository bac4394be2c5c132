"""Designs as files: codec, migrations, atomic save, lock, recovery. No Qt."""

from linework.storage.decode import Loaded, loads
from linework.storage.encode import dumps
from linework.storage.errors import FileFaults, StorageError
from linework.storage.files import SUFFIX, backup_of, load, load_with_warnings, save
from linework.storage.lock import Locked, lock, release, take

__all__ = [
    "SUFFIX",
    "FileFaults",
    "Loaded",
    "Locked",
    "StorageError",
    "backup_of",
    "dumps",
    "load",
    "load_with_warnings",
    "loads",
    "lock",
    "release",
    "save",
    "take",
]
