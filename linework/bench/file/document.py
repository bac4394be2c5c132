"""The open design: its history, its file, the lock on it, what is kept aside for a crash."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from linework.design import Design, History
from linework.storage import (
    SUFFIX,
    Fault,
    Lock,
    Locked,
    StorageError,
    load_with_warnings,
    recovery,
    save,
    take,
)
from linework.words import say


class Document:
    """One design that is worked on. ``path`` is None until it has a name.

    ``warnings``: what in its file was not known or did not fit. ``lone``: why no other program
    is kept off the file, empty where the lock is held.
    """

    def __init__(self, design: Design, path: Path | None = None) -> None:
        self.history = History(design)
        self.path = path
        self.warnings: tuple[Fault, ...] = ()
        self.lone = ""
        self._home = path or recovery.untitled()
        self._lock: Lock | None = None
        self._foreign = False
        """Whether the design did not come out of its file as it stands (recovered)."""

    @classmethod
    def new(cls, design: Design | None = None) -> Document:
        """A sheet without a name, empty or with what it begins with."""
        document = cls(design or Design())
        document._hold()
        return document

    @classmethod
    def open(cls, path: Path, *, strict: bool = True) -> Document:
        """The design of a file, with its lock. StorageError, FileFaults, Locked as in storage."""
        lone, held = "", None
        try:
            held = take(path)
        except Locked:
            raise
        except StorageError as fault:
            lone = str(fault)
        try:
            loaded = load_with_warnings(path, strict=strict)
        except BaseException:
            if held is not None:
                held.release()
            raise
        document = cls(loaded.design, path)
        document.warnings, document.lone, document._lock = loaded.warnings, lone, held
        return document

    @classmethod
    def copy_of(cls, path: Path) -> Document:
        """The design of a file that somebody else has open, as a new one without a name."""
        loaded = load_with_warnings(path, strict=False)
        document = cls(loaded.design)
        document.warnings, document._foreign = loaded.warnings, True
        document._hold()
        return document

    @classmethod
    def recovered(cls, kept: recovery.Recovery) -> Document:
        """What was kept aside when the program died, for its file (not yet written into it)."""
        loaded = kept.open()
        path = None if kept.is_untitled else kept.path
        document = cls(loaded.design, path)
        document._home = kept.path
        document.warnings, document._foreign = loaded.warnings, True
        document._hold()
        return document

    def take_over(self, kept: recovery.Recovery) -> None:
        """Put what was kept aside for this file in the place of what it holds. StorageError."""
        loaded = kept.open()
        self.history = History(loaded.design)
        self.warnings, self._foreign = loaded.warnings, True

    def arrange(self, design: Design) -> None:
        """Begin from the same design laid out on its sheets, as it was never drawn."""
        self.history = History(design)

    def _hold(self) -> None:
        """Lock the design's home, so that no other window takes what is kept aside for it."""
        try:
            self._home.parent.mkdir(parents=True, exist_ok=True)
            self._lock = take(self._home)
        except (StorageError, OSError) as fault:
            self.lone = str(fault)

    @property
    def design(self) -> Design:
        """The design itself."""
        return self.history.design

    @property
    def saved(self) -> bool:
        """Whether its file holds it as it is now."""
        return self.history.saved and not self._foreign

    @property
    def name(self) -> str:
        """The file's name, "" where it has none."""
        return self.path.name if self.path is not None else ""

    def state(self) -> str:
        """The file's state in words."""
        if self.path is None:
            untouched = self.saved and not self.design.parts
            return say("a new sheet") if untouched else say("not saved yet, kept aside")
        return say("saved") if self.saved else say("changed since it was saved")

    def save(self) -> None:
        """Write it into its file. StorageError, and the file as it was, where that fails."""
        if self.path is None:
            raise StorageError(say("this drawing has no name yet; save it under one"))
        save(self.design, self.path)
        self._foreign = False
        self.history.mark_saved()
        self._forget()

    def save_as(self, path: Path) -> None:
        """Write it into another file and go on there. StorageError, nothing changed, where not."""
        path = path if path.suffix else path.with_name(path.name + SUFFIX)
        same = self.lies_at(path)
        held = self._lock if same else take(path)
        try:
            save(self.design, path)
        except StorageError:
            if not same and held is not None:
                held.release()
            raise
        self._forget()
        if not same:
            self._release()
        self.path, self._home, self._lock, self.lone = path, path, held, ""
        self._foreign = False
        self.history.mark_saved()

    def lies_at(self, path: Path) -> bool:
        """Whether this is the design of that file."""
        return self.path is not None and path.resolve() == self.path.resolve()

    def lock_again(self) -> None:
        """Take the lock that :meth:`close` gave back."""
        if self._lock is None:
            self._hold()

    def keep_aside(self) -> None:
        """Write what is not saved where it is found after a crash. StorageError if that fails."""
        if not self.saved:
            recovery.write(self.design, self._home)

    def close(self, forget: bool = True) -> None:
        """Give the file back; ``forget`` also what was kept aside."""
        if forget:
            self._forget()
        self._release()

    def _forget(self) -> None:
        with suppress(StorageError):
            recovery.discard(self._home)

    def _release(self) -> None:
        lock, self._lock = self._lock, None
        if lock is not None:
            lock.release()
