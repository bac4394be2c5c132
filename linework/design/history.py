"""Undo and redo: the changes made, and those taken back."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import ExitStack

from linework.design.change import Change
from linework.design.model import Design

Listener = Callable[[Change], None]


class History:
    """The only hand that changes a design while it is edited.

    Listeners are told each change after it was made, an undo as the inverse change; all of them,
    also where one raises, so that none is left showing an old design as the new one.
    """

    def __init__(self, design: Design) -> None:
        self.design = design
        self._done: list[Change] = []
        self._undone: list[Change] = []
        self._listeners: list[Listener] = []
        self._saved_at: Change | None = None

    def listen(self, listener: Listener) -> None:
        """Call ``listener`` after each change."""
        self._listeners.append(listener)

    def ignore(self, listener: Listener) -> None:
        """Call ``listener`` no more, if it was called."""
        self._listeners = [known for known in self._listeners if known != listener]

    def do(self, change: Change) -> None:
        """Carry out a change. EditError, and nothing done, where it does not fit."""
        if not change:
            return
        self.design.apply(change)
        self._done.append(change)
        self._undone.clear()
        self._tell(change)

    def undo(self) -> str:
        """Take the last change back; its title, empty where there is none."""
        if not self._done:
            return ""
        change = self._done[-1]
        self.design.apply(change.inverse())
        self._undone.append(self._done.pop())
        self._tell(change.inverse())
        return change.title

    def redo(self) -> str:
        """Make the last change that was taken back again; its title, empty where there is none."""
        if not self._undone:
            return ""
        change = self._undone[-1]
        self.design.apply(change)
        self._done.append(self._undone.pop())
        self._tell(change)
        return change.title

    @property
    def undo_title(self) -> str:
        """What undo would take back."""
        return self._done[-1].title if self._done else ""

    @property
    def redo_title(self) -> str:
        """What redo would make again."""
        return self._undone[-1].title if self._undone else ""

    def mark_saved(self) -> None:
        """The design stands in its file as it is now."""
        self._saved_at = self._done[-1] if self._done else None

    @property
    def saved(self) -> bool:
        """Whether the file holds the design as it is now."""
        return (self._done[-1] if self._done else None) is self._saved_at

    def _tell(self, change: Change) -> None:
        with ExitStack() as stack:  # runs every callback and raises afterwards
            for listener in reversed(self._listeners):
                stack.callback(listener, change)
