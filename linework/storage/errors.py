"""What goes wrong with files: each error's text says what happened, to which file, what to do."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from linework.words import say, say_count

_SHOWN = 20


class Fault(NamedTuple):
    """One fault or warning: where in the file ("parts[3] G1 ratings.power"), and what it is."""

    path: str
    message: str


class StorageError(Exception):
    """A file cannot be read or written. The text is ready to be shown."""


class FileFaults(StorageError):
    """A file that is not a sound design. ``faults`` lists everything, not only the first.

    ``openable``: all of it are things that do not fit together, which a design can hold; reading
    with ``strict=False`` opens it and gives them as warnings.
    """

    def __init__(self, name: str, faults: tuple[Fault, ...], openable: bool = False) -> None:
        self.faults = faults
        self.openable = openable
        super().__init__(_listed(name, faults))


@dataclass(frozen=True, slots=True)
class Holder:
    """Who has a file open. ``pid`` 0 and empty texts where the lock file does not tell."""

    pid: int
    host: str
    program: str


class Locked(StorageError):
    """Another program, or another window, has the file open: ``holder``."""

    def __init__(self, text: str, holder: Holder) -> None:
        self.holder = holder
        super().__init__(text)


def _listed(name: str, faults: tuple[Fault, ...]) -> str:
    lines = [
        say_count(
            "{name} cannot be opened, it has {count} fault:",
            "{name} cannot be opened, it has {count} faults:",
            len(faults),
            name=name,
        ),
        *(f"  {path}: {message}" for path, message in faults[:_SHOWN]),
    ]
    if len(faults) > _SHOWN:
        more = len(faults) - _SHOWN
        lines.append("  " + say_count("and {count} more", "and {count} more", more))
    advice = say(
        "The file was left as it is. Correct it, or open the version kept before it ({name}.bak).",
        name=name,
    )
    return "\n".join([*lines, advice])
