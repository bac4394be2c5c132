"""What can go wrong with a file, told as a sentence: what happened, where, what to do."""

from __future__ import annotations

from linework.words import say


class StorageError(Exception):
    """A file that could not be read, written or locked."""


class FileFaults(StorageError):
    """A file whose content is wrong; ``faults`` lists every (path, message)."""

    def __init__(self, name: str, faults: list[tuple[str, str]]) -> None:
        self.name, self.faults = name, tuple(faults)
        head = say("{name} cannot be opened; it was left as it is. Faults:", name=name)
        super().__init__("\n".join([head, *(f"  {path}: {text}" for path, text in faults)]))
