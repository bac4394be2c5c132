"""The parts tree: every part, run and finding as a list, for the keyboard and for those who read
the screen with their ears. What lies on the sheet cannot be reached by either."""

from __future__ import annotations

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
        """List everything anew; the hand stays on what it was on, else at the same height."""
        here, line = self._current(), self._line_number()
        self._quiet = True
        self.list.clear()
        self._parts(design, report)
        self._runs(design, report)
        self._findings(analysis)
        self.list.expandToDepth(0)
        self.show_chosen(here)
        if line is not None and self.list.currentItem() is None:
            every = self._all()
            self.list.setCurrentItem(every[min(line, len(every) - 1)])
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

    def _parts(self, design: Design, report: StateReport | None) -> None:
        top = self._group(say("Parts"))
        under: dict[str, QTreeWidgetItem] = {}
        waiting = sorted(design.parts, key=lambda p: natural(p.designation))
        hosts = {s.part: s.host for s in design.seats}
        alone = [p for p in waiting if p.id not in hosts or len(design.seats_of(p.id)) > 1]
        seated = [p for p in waiting if p not in alone]
        for part in alone:
            under[part.id] = self._part(top, design, part, report)
        while seated:
            ready = [p for p in seated if hosts[p.id] in under]
            for part in ready or seated:
                holder = under.get(hosts[part.id], top)
                under[part.id] = self._part(holder, design, part, report)
            seated = [p for p in seated if p.id not in under]

    def _part(
        self, top: QTreeWidgetItem, design: Design, part: Part, report: StateReport | None
    ) -> QTreeWidgetItem:
        kind = say(design.kind(part).name, family=design.settings.family)
        text = f"{part.designation} {part.title or kind}"
        return self._line(top, text, " ".join(foot(design, part.id, report)), (part.id,))

    def _runs(self, design: Design, report: StateReport | None) -> None:
        top = self._group(say("Runs"))
        for run in sorted(design.runs, key=lambda run: natural(run.designation)):
            ends = [design.part(end.part).designation for end in (run.a, run.b)]
            text = say("{run} from {a} to {b}", run=run.designation, a=ends[0], b=ends[1])
            self._line(top, text, " ".join(foot(design, run.id, report)), (run.id,))

    def _findings(self, analysis: Analysis | None) -> None:
        top = self._group(say("Findings"))
        for finding in analysis.findings if analysis is not None else ():
            text = f"{finding.number} {finding.level.told}: {finding.title}"
            line = self._line(top, text, finding.message, finding.subjects, drawn=False)
            for effect in finding.consequences:
                self._line(line, effect.title, effect.message, effect.subjects, drawn=False)

    def _group(self, title: str) -> QTreeWidgetItem:
        item = QTreeWidgetItem([title, ""])
        item.setData(0, Qt.ItemDataRole.AccessibleTextRole, title)
        self.list.addTopLevelItem(item)
        return item

    def _line(
        self, top: QTreeWidgetItem, text: str, told: str, ids: tuple[str, ...], drawn: bool = True
    ) -> QTreeWidgetItem:
        item = QTreeWidgetItem(top, [text, told])
        item.setData(0, _ID, ids)
        item.setData(0, _DRAWN, drawn)
        item.setToolTip(1, tip(told))
        item.setData(0, Qt.ItemDataRole.AccessibleTextRole, f"{text}. {told}")
        return item

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
