"""The parts tree: every part, run and finding as a list, for the keyboard and for those who read
the screen with their ears. What lies on the sheet cannot be reached by either."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QFrame,
    QTreeWidget,
    QTreeWidgetItem,
    QTreeWidgetItemIterator,
    QVBoxLayout,
    QWidget,
)

from linework.bench.looks import Label, em, tip
from linework.bench.states import foot
from linework.design import Design, Part
from linework.design.names import natural
from linework.words import say

if TYPE_CHECKING:
    from linework.analysis import Analysis
    from linework.study.report import StateReport

_ID = Qt.ItemDataRole.UserRole
_DRAWN = Qt.ItemDataRole.UserRole + 1
"""Whether the line stands for something drawn, and not for what was found there."""


class PartsTree(QFrame):
    """``chosen`` (ids) follows the line the hand is on; ``opened`` (id) on Enter; ``removed``
    (ids) on Delete."""

    chosen = Signal(object)
    opened = Signal(str)
    removed = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("side")
        self.setAccessibleName(say("Parts tree"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 8, 8, 8)
        layout.addWidget(Label(say("Parts tree"), bold=True))
        self.list = QTreeWidget()
        self.list.setAccessibleName(say("Parts, runs and findings"))
        self.list.setHeaderLabels([say("What"), say("In the shown state")])
        self.list.setColumnWidth(0, em(self, 17))
        self.setMinimumWidth(em(self, 36))
        self.list.setUniformRowHeights(True)
        self.list.installEventFilter(self)
        self.list.currentItemChanged.connect(self._moved)
        self.list.itemActivated.connect(self._activated)
        layout.addWidget(self.list, 1)
        self.told = Label()
        self.told.setWordWrap(True)
        self.told.setAccessibleName(say("The chosen line in full"))
        layout.addWidget(self.told)
        self._quiet = False

    def show_design(
        self, design: Design, analysis: Analysis | None, report: StateReport | None
    ) -> None:
        """List everything; what is listed already stays in its place. The hand stays on what it
        was on, else at the same height."""
        here, line = self._current(), self._line_number()
        bar = self.list.verticalScrollBar()
        scrolled, self._quiet = bar.value(), True
        groups = [
            _Line(say("Parts"), (), tuple(_parts(design, report))),
            _Line(say("Runs"), (), tuple(_runs(design, report))),
            _Line(say("Findings"), (), tuple(_findings(analysis))),
        ]
        root = self.list.invisibleRootItem()
        first = not root.childCount()
        _fill(root, tuple(groups))
        if first:
            self.list.expandToDepth(0)
        self.show_chosen(here)
        if line is not None and self._current() != here:
            every = self._all()
            self.list.setCurrentItem(every[min(line, len(every) - 1)])
        bar.setValue(scrolled)
        self._quiet = False

    def _line_number(self) -> int | None:
        item = self.list.currentItem()
        return self._all().index(item) if item is not None else None

    def show_chosen(self, ids: tuple[str, ...]) -> None:
        """Put the mark on what is chosen on the sheet."""
        if not ids or ids == self._current():
            return
        for item in self._all():
            if item.data(0, _ID) == ids:
                before, self._quiet = self._quiet, True
                self.list.setCurrentItem(item)
                self._quiet = before
                return

    def _current(self) -> tuple[str, ...]:
        item = self.list.currentItem()
        return item.data(0, _ID) if item is not None and item.data(0, _ID) else ()

    def _all(self) -> list[QTreeWidgetItem]:
        found: list[QTreeWidgetItem] = []
        walk = QTreeWidgetItemIterator(self.list)
        while (item := walk.value()) is not None:
            found.append(item)
            walk += 1
        return found

    def _moved(self, item: QTreeWidgetItem | None, _: QTreeWidgetItem | None) -> None:
        self.told.setText(item.text(1) if item is not None else "")
        if item is not None and not self._quiet and item.data(0, _ID):
            self.chosen.emit(item.data(0, _ID))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Delete removes the part or run that the hand is on."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            item = self.list.currentItem()
            wanted = event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace)
            if wanted and item is not None and item.data(0, _DRAWN):
                self.removed.emit(item.data(0, _ID))
                return True
        return super().eventFilter(watched, event)

    def _activated(self, item: QTreeWidgetItem) -> None:
        ids = item.data(0, _ID)
        if ids:
            self.opened.emit(ids[0])


@dataclass(frozen=True)
class _Line:
    """A line, and those under it. ``told``: what stands beside it; ``drawn``: whether it stands for
    something drawn."""

    text: str
    ids: tuple[str, ...]
    under: tuple[_Line, ...] = ()
    told: str = ""
    drawn: bool = False


def _parts(design: Design, report: StateReport | None) -> Iterator[_Line]:
    """What sits in another stands under it; what may sit in several stands by itself."""
    waiting = sorted(design.parts, key=lambda p: natural(p.designation))
    hosts = {s.part: s.host for s in design.seats if len(design.seats_of(s.part)) == 1}
    guests: dict[str, list[Part]] = {}
    for part in waiting:
        guests.setdefault(hosts.get(part.id, ""), []).append(part)

    def line(part: Part) -> _Line:
        kind = say(design.kind(part).name, family=design.settings.family)
        under = tuple(map(line, guests.get(part.id, ())))
        told = " ".join(foot(design, part.id, report))
        text = f"{part.designation} {part.title or kind}"
        return _Line(text, (part.id,), under, told, drawn=True)

    yield from map(line, guests.get("", ()))


def _runs(design: Design, report: StateReport | None) -> Iterator[_Line]:
    for run in sorted(design.runs, key=lambda run: natural(run.designation)):
        ends = [design.part(end.part).designation for end in (run.a, run.b)]
        text = say("{run} from {a} to {b}", run=run.designation, a=ends[0], b=ends[1])
        yield _Line(text, (run.id,), (), " ".join(foot(design, run.id, report)), drawn=True)


def _findings(analysis: Analysis | None) -> Iterator[_Line]:
    for finding in analysis.findings if analysis is not None else ():
        text = f"{finding.number} {finding.level.told}: {finding.title}"
        under = tuple(_Line(f.title, f.subjects, (), f.message) for f in finding.consequences)
        yield _Line(text, finding.subjects, under, finding.message)


def _fill(top: QTreeWidgetItem, lines: tuple[_Line, ...]) -> None:
    """Let these lines and no others stand under one, the known ones being the same as before."""
    known: dict[object, list[QTreeWidgetItem]] = {}
    for item in (top.child(number) for number in range(top.childCount())):
        if item is None:
            continue
        known.setdefault(_key(item), []).append(item)
    for place, line in enumerate(lines):
        same = known.get((line.ids, line.text if not line.drawn else ""))
        item = same.pop(0) if same else QTreeWidgetItem()
        if top.indexOfChild(item) != place:
            open_before = item.isExpanded()
            top.removeChild(item)
            top.insertChild(place, item)
            item.setExpanded(open_before)
        _write(item, line)
        _fill(item, line.under)
    for item in (item for left in known.values() for item in left):
        top.removeChild(item)


def _key(item: QTreeWidgetItem) -> object:
    return item.data(0, _ID), "" if item.data(0, _DRAWN) else item.text(0)


def _write(item: QTreeWidgetItem, line: _Line) -> None:
    heard = f"{line.text}. {line.told}" if line.told else line.text
    for column, text in enumerate((line.text, line.told)):
        if item.text(column) != text:
            item.setText(column, text)
    item.setData(0, _ID, line.ids)
    item.setData(0, _DRAWN, line.drawn)
    item.setData(0, Qt.ItemDataRole.AccessibleTextRole, heard)
    item.setToolTip(1, tip(line.told))
