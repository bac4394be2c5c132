"""Makes a process one of a system that offers other things than ours. Import it first of all.

What only ours has is taken away: modules cannot be imported, attributes are gone. In the place of
``msvcrt`` stands a stand-in that does what its documentation says with the locks of ours: a byte
is locked for one handle, and whoever tries a second one is refused.
"""

from __future__ import annotations

import errno
import fcntl as _ours
import os
import signal
import subprocess  # noqa: F401 - before msvcrt is there, by which it tells how to start a process
import sys
import types
from importlib.abc import MetaPathFinder

from tests.storage.only_ours import MODULES, OF_OS, OF_SIGNAL


class _Absent(MetaPathFinder):
    def find_spec(self, name: str, path: object = None, target: object = None) -> None:
        if name in MODULES:
            raise ModuleNotFoundError(f"No module named {name!r}", name=name)


def _locking(handle: int, mode: int, number: int) -> None:
    assert number == 1
    assert os.lseek(handle, 0, os.SEEK_CUR) >= 2**30  # no byte that anybody reads
    if mode == _stand_in.LK_UNLCK:
        _ours.flock(handle, _ours.LOCK_UN)
        return
    try:
        _ours.flock(handle, _ours.LOCK_EX | _ours.LOCK_NB)
    except BlockingIOError:
        raise PermissionError(errno.EACCES, "Permission denied") from None


_stand_in = types.ModuleType("msvcrt")
_stand_in.LK_NBLCK, _stand_in.LK_UNLCK = 2, 0
_stand_in.locking = _locking

for _name in MODULES:
    sys.modules.pop(_name, None)
sys.meta_path.insert(0, _Absent())
sys.modules["msvcrt"] = _stand_in
for _name in OF_OS:
    if hasattr(os, _name):
        delattr(os, _name)
for _name in OF_SIGNAL:
    if hasattr(signal, _name):
        delattr(signal, _name)
