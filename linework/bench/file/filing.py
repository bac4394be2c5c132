"""Opening, saving and leaving a drawing: every question that may come up, asked plainly."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from enum import Enum
from pathlib import Path

from PySide6.QtCore import QObject, Qt, QTimer, Signal
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from linework.bench.file import habits
from linework.bench.file.document import Document
from linework.bench.file.trouble import tell
from linework.bench.looks import window_title
from linework.design import Change, Design, History
from linework.sheet.arranging import needs_arranging, place_new
from linework.storage import SUFFIX, FileFaults, Locked, StorageError, recovery
from linework.words import say

ASIDE_MS = 1500
"""So long after the last change what is not saved is kept aside."""


class Reply(Enum):
    """An answer to a question."""

    YES = "yes"
    NO = "no"
    STAY = "stay"


Ask = Callable[[str, str, tuple[tuple[Reply, str], ...]], Reply]


class Filing(QObject):
    """Holds the document. ``opened`` when another is worked on, ``drawn`` (Change) for each change
    of its design, ``changed`` when its state is another, ``noticed`` (str) for what is worth a
    line. Nothing else listens to the document's history."""

    opened = Signal()
    drawn = Signal(object)
    changed = Signal()
    noticed = Signal(str)

    def __init__(self, window: QWidget, ask: Ask | None = None) -> None:
        super().__init__(window)
        self._window = window
        self._ask = ask or self._asked
        self.habits = habits.load()
        self.document = Document.new()
        self.history.listen(self._drawn)
        self._aside = QTimer(self, singleShot=True, interval=ASIDE_MS)
        self._aside.timeout.connect(self.keep_aside)

    # keeping

    @property
    def history(self) -> History:
        """The history of the document."""
        return self.document.history

    def _drawn(self, change: Change) -> None:
        """Something was drawn: tell it, and keep it aside soon."""
        self._aside.start()
        self.drawn.emit(change)
        self.changed.emit()

    def keep_aside(self) -> str:
        """Write what is not saved where it is found after a crash; what came of it in words."""
        self._aside.stop()
        try:
            self.document.keep_aside()
        except StorageError as fault:
            self.noticed.emit(str(fault))
            return str(fault)
        return say("What was drawn is kept aside and offered at the next start.")

    def remember(self, **changes: object) -> None:
        """Remember a habit."""
        self.habits = replace(self.habits, **changes)  # type: ignore[arg-type]
        habits.save(self.habits)

    # beginning and opening

    def new(self, design: Design | None) -> bool:
        """A new sheet, empty or with what it begins with, if the present one may be left."""
        if not self.may_leave():
            return False
        self._take(Document.new(design))
        return True

    def open(self, path: Path) -> bool:
        """Open a file, if the present drawing may be left."""
        if not self.may_leave():
            return False
        again = self.document.lies_at(path)
        if again:
            self.document.close()  # or its own lock would be in the way
        document = self._opened(path)
        if document is None:
            if again:
                self.document.lock_again()
            return False
        self._take(document)
        self.habits = self.habits.opened(path)
        habits.save(self.habits)
        self._tell_warnings(document)
        return True

    def open_copy(self, path: Path) -> bool:
        """Open a file as a new drawing without a name, such as a sample."""
        if not self.may_leave():
            return False
        try:
            document = Document.copy_of(path)
        except StorageError as fault:
            self._refused(path, str(fault))
            return False
        self._take(document)
        self._tell_warnings(document)
        return True

    def _opened(self, path: Path) -> Document | None:
        try:
            document = Document.open(path)
        except Locked as fault:
            return self._copy_instead(path, str(fault))
        except FileFaults as fault:
            return self._faulty(path, fault)
        except StorageError as fault:
            self._refused(path, str(fault))
            return None
        return self._or_recovered(document, path)

    def _copy_instead(self, path: Path, why: str) -> Document | None:
        replies = ((Reply.YES, say("Work on a &copy")), (Reply.STAY, say("&Leave it")))
        if self._ask(say("Open elsewhere"), why, replies) is not Reply.YES:
            return None
        try:
            return Document.copy_of(path)
        except StorageError as fault:
            self._refused(path, str(fault))
            return None

    def _faulty(self, path: Path, fault: FileFaults) -> Document | None:
        if not fault.openable:
            self._refused(path, str(fault))
            return None
        replies = ((Reply.YES, say("&Open it as it is")), (Reply.STAY, say("&Leave it")))
        if self._ask(say("What does not fit"), str(fault), replies) is not Reply.YES:
            return None
        try:
            return self._or_recovered(Document.open(path, strict=False), path)
        except StorageError as other:
            self._refused(path, str(other))
            return None

    def _or_recovered(self, document: Document, path: Path) -> Document:
        """What was kept aside for this file, if a person wants that."""
        try:
            kept = recovery.pending(path)
        except StorageError as fault:
            self.noticed.emit(str(fault))
            return document
        if kept is None:
            return document
        return self._recovered(kept, document) or document

    def _recovered(self, kept: recovery.Recovery, instead: Document | None) -> Document | None:
        """Ask for it, put it in the place of what the file holds; None where it is not wanted
        or cannot be read."""
        name = say("a drawing without a name") if kept.is_untitled else str(kept.path)
        when = kept.written.astimezone().strftime("%Y-%m-%d %H:%M")
        text = say(
            "The program ended before {name} was saved. What had been drawn was kept aside on"
            " {when}. Go on with that?",
            name=name,
            when=when,
        )
        replies = (
            (Reply.YES, say("&Go on with it")),
            (Reply.STAY, say("&Later")),
            (Reply.NO, say("&Forget it")),
        )
        reply = self._ask(say("Kept aside"), text, replies)
        if reply is Reply.NO:
            self._forget(kept)
        if reply is not Reply.YES:
            return None
        try:
            if instead is None:
                return Document.recovered(kept)
            instead.take_over(kept)
            return instead
        except StorageError as fault:
            self._refused(kept.journal, str(fault))
            return None

    def _forget(self, kept: recovery.Recovery) -> None:
        try:
            recovery.discard(kept.path)
        except StorageError as fault:
            self.noticed.emit(str(fault))

    def offer_recovery(self) -> bool:
        """At the start: ask about what was kept aside by a program that died."""
        for kept in recovery.waiting():
            document = self._recovered(kept, None)
            if document is not None:
                self._take(document)
                self._tell_warnings(document)
                return True
        return False

    def _take(self, document: Document) -> None:
        self.close()
        self.document = document
        if needs_arranging(document.design):
            document.arrange(place_new(document.design))
        self.history.listen(self._drawn)
        self.opened.emit()
        self.changed.emit()

    def close(self) -> None:
        """Give the document back: its file, and what is told of it."""
        self._aside.stop()
        self.history.ignore(self._drawn)
        self.document.close()

    def _tell_warnings(self, document: Document) -> None:
        if document.lone:
            self.noticed.emit(document.lone)
        if document.warnings:
            lines = "\n".join(f"{w.path}: {w.message}" for w in document.warnings)
            text = say(
                "This file holds what this program does not know or what does not fit together."
                " It is kept, and the drawing cannot be called sound while it is there."
            )
            tell(say("What the file holds"), text, lines, self._window)

    # saving and leaving

    def save(self) -> bool:
        """Write the drawing into its file; asks for a name where it has none."""
        if self.document.path is None:
            return self.save_as()
        return self._written(self.document.save)

    def save_as(self, path: Path | None = None) -> bool:
        """Write it under another name, asked for where none is given."""
        if path is None:
            path = self._where_to()
        if path is None:
            return False
        target = path if path.suffix else path.with_name(path.name + SUFFIX)
        if not self._written(lambda: self.document.save_as(target)):
            return False
        self.habits = self.habits.opened(target)
        habits.save(self.habits)
        return True

    def _where_to(self) -> Path | None:
        start = str(self.document.path or Path.home() / (_file_name(self.document.design) + SUFFIX))
        name, _ = QFileDialog.getSaveFileName(
            self._window, say("Save as"), start, say("Drawings") + f" (*{SUFFIX})"
        )
        return Path(name) if name else None

    def _written(self, write: Callable[[], None]) -> bool:
        try:
            write()
        except StorageError as fault:
            tell(say("Not saved"), str(fault), "", self._window)
            return False
        finally:
            self.changed.emit()
        self._aside.stop()
        self.noticed.emit(say("Saved: {path}", path=self.document.path))
        return True

    def may_leave(self) -> bool:
        """Whether the drawing can be left: it is saved, or a person said what to do with it."""
        if self.document.saved:
            return True
        name = self.document.name or say("This drawing")
        text = say("{name} was changed and not saved.", name=name)
        replies = (
            (Reply.YES, say("&Save it")),
            (Reply.NO, say("&Throw the changes away")),
            (Reply.STAY, say("Go on &drawing")),
        )
        reply = self._ask(say("Not saved"), text, replies)
        if reply is Reply.YES:
            return self.save()
        return reply is Reply.NO

    # saying and asking

    def _refused(self, path: Path, why: str) -> None:
        tell(say("Not opened"), why, "", self._window)

    def _asked(self, title: str, text: str, replies: tuple[tuple[Reply, str], ...]) -> Reply:
        box = QMessageBox(QMessageBox.Icon.NoIcon, title, text, parent=self._window)
        box.setTextFormat(Qt.TextFormat.PlainText)
        box.setWindowTitle(window_title(title))
        buttons = {
            box.addButton(label, QMessageBox.ButtonRole.ActionRole): reply
            for reply, label in replies
        }
        for button, reply in buttons.items():
            if reply is Reply.STAY:
                box.setEscapeButton(button)
        box.setDefaultButton(next(iter(buttons)))
        box.exec()
        return buttons.get(box.clickedButton(), Reply.STAY)  # type: ignore[call-overload]


def _file_name(design: Design) -> str:
    """A name for the file out of the job's."""
    words = "".join(sign if sign.isalnum() else " " for sign in design.settings.job).split()
    return "-".join(words).lower() or "drawing"
