"""What the program remembers of its user: files opened of late, the look, the name for reasons.

A small JSON file in the user's configuration folder (XDG Base Directory Specification). If it
is lost or damaged, nothing of a drawing is: then the program starts as for the first time.
"""

from __future__ import annotations

import json
from contextlib import suppress
from dataclasses import asdict, dataclass, fields, replace
from pathlib import Path

from platformdirs import user_config_path

from linework.storage import StorageError, write_bytes

MOST_RECENT = 8
LOOKS = ("system", "light", "dark", "contrast")


@dataclass(frozen=True)
class Habits:
    """``recent``: paths, newest first. ``look``: one of LOOKS. ``name``: who accepts findings."""

    recent: tuple[str, ...] = ()
    look: str = "system"
    name: str = ""

    def opened(self, path: Path) -> Habits:
        """With this file as the newest."""
        text = str(path.resolve())
        rest = [item for item in self.recent if item != text]
        return replace(self, recent=(text, *rest)[:MOST_RECENT])


def _file() -> Path:
    return user_config_path("linework", appauthor=False) / "habits.json"


def load() -> Habits:
    """What is remembered; the beginner's where there is nothing that can be read."""
    with suppress(OSError, ValueError, TypeError):
        found = json.loads(_file().read_text(encoding="utf-8"))
        known = {field.name: found[field.name] for field in fields(Habits) if field.name in found}
        return _checked(known)
    return Habits()


def _checked(known: dict[str, object]) -> Habits:
    recent, look, name = known.get("recent", []), known.get("look"), known.get("name", "")
    if not isinstance(recent, list) or not all(isinstance(item, str) for item in recent):
        recent = []
    return Habits(
        tuple(recent[:MOST_RECENT]),
        look if isinstance(look, str) and look in LOOKS else "system",
        name if isinstance(name, str) else "",
    )


def save(habits: Habits) -> None:
    """Remember. Where that cannot be done it is left: no work hangs on it."""
    with suppress(OSError, StorageError):
        _file().parent.mkdir(parents=True, exist_ok=True)
        text = json.dumps(asdict(habits), indent=1)
        write_bytes(text.encode(), _file(), keep=False)
