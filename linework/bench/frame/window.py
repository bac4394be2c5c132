"""The window: the paper fills it, levers above, parts below, findings in the margin."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QActionGroup, QCloseEvent
from PySide6.QtWidgets import (
    QApplication,
    QHBoxLayout,
    QMainWindow,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from linework.bench import looks
from linework.bench.card import Card
from linework.bench.file import Ask, Fault, Filing, HandingOver, StartCard, account, sentence, tell
from linework.bench.frame.assumedslip import AssumedSlip
from linework.bench.frame.commands import Commands
from linework.bench.frame.contextmenu import RightClick
from linework.bench.frame.findbar import FindBar
from linework.bench.frame.findings import Findings
from linework.bench.frame.guidewindow import GuideWindow
from linework.bench.frame.menus import Menus
from linework.bench.frame.overlay import Overlay
from linework.bench.frame.search import Match, matches
from linework.bench.frame.topbar import TopBar
from linework.bench.judge import Judge, Judging
from linework.bench.levers import Levers
from linework.bench.margin import Margin, PartsTree, WhyWindow
from linework.bench.paper import SheetView
from linework.bench.strip import PartsStrip
from linework.design import Change, EditError, History
from linework.design.edits import remove
from linework.sheet.parts import sheet_numbers
from linework.words import N_, say

if TYPE_CHECKING:
    from collections.abc import Callable

    from linework.bench.paper import Hit

_LOOKS = {
    "system": N_("As the &system"),
    "light": N_("&Light"),
    "dark": N_("&Dark"),
    "contrast": N_("&High contrast"),
}


class BenchWindow(QMainWindow):
    """Puts the pieces together; every piece tells by signals, and here it is carried out."""

    def __init__(self, ask: Ask | None = None) -> None:
        super().__init__()
        self.resize(1400, 900)
        self.filing = Filing(self, ask)
        self.judge = Judge(self)
        self.commands, self.findings = Commands(self), Findings(self)
        self.menus = Menus(self, self.commands)
        self.top = TopBar(self.menus.actions)
        self.levers = Levers()
        self.judging = Judging(self.judge, self.levers, self)
        self.view = SheetView(self.history, palette=looks.worn())
        self.card = Card(self.history, self.view)
        self.start = StartCard(self.filing.habits.recent, self.view)
        self.overlay = Overlay(self.view, self.card, self.start)
        self.find_bar = FindBar(self._look_up, self.view)
        self.assumed = AssumedSlip(
            lambda: self.history.design, lambda change: self.history.do(change), self.view
        )
        self.right_click = RightClick(self.view, self.menus.actions)
        self.margin, self.tree, self.why = Margin(), PartsTree(), WhyWindow(self)
        self.guide = GuideWindow(self)
        self.strip = PartsStrip(self._family, palette=looks.worn())
        self.handing = HandingOver(self)
        self._lay()
        self._join()
        self._fill_looks()
        self._opened()

    @property
    def history(self) -> History:
        """The history of the drawing that is open."""
        return self.filing.history

    # putting together

    def _lay(self) -> None:
        self.side = QStackedWidget()
        self.side.addWidget(self.margin)
        self.side.addWidget(self.tree)
        self.show_side(self.margin)
        middle = QHBoxLayout()
        middle.setSpacing(0)
        middle.addWidget(self.view, 1)
        middle.addWidget(self.side)
        holder = QWidget()
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        for piece in (self.top, self.levers):
            column.addWidget(piece)
        column.addLayout(middle, 1)
        column.addWidget(self.strip)
        self.setCentralWidget(holder)
        order = (self.view, self.levers, self.margin, self.strip)
        for before, after in pairwise(order):
            QWidget.setTabOrder(before, after)

    def show_side(self, piece: QWidget) -> None:
        """Show the margin or the parts tree beside the sheet."""
        self.side.setCurrentWidget(piece)
        self.side.setFixedWidth(piece.minimumWidth())
        self.menus.actions["tree"].setChecked(piece is self.tree)

    def _join(self) -> None:
        self.filing.opened.connect(self._opened)
        # Each in a slot of its own: one that fails keeps no other from hearing.
        for slot in (self.view.follow, self.judging.follow, self.card.follow, self._follow):
            self.filing.drawn.connect(slot)
        self.filing.changed.connect(self.show_file)
        self.filing.noticed.connect(self.top.tell)
        self.judging.changed.connect(self._show_verdict)
        self.judging.progressed.connect(self._show_progress)
        self.judging.mended.connect(self.margin.show_mend)
        self.judging.unmended.connect(self.margin.forget_mends)
        self.levers.refused.connect(self._refused)
        self.view.selected.connect(self._selected)
        self.view.refused.connect(self._refused)
        self.view.hovered.connect(self._hovered)
        self.view.flagged.connect(self._flagged)
        self.view.opened.connect(self._open_card)
        self.view.typing.connect(self.start.hide)
        self.find_bar.chosen.connect(self._found)
        self.find_bar.left.connect(self.view.setFocus)
        self.assumed.shown.connect(self.view.bring_into_view)
        self.assumed.left.connect(self.view.setFocus)
        self.strip.chosen.connect(self._place)
        self.card.closed.connect(self._card_closed)
        self.tree.chosen.connect(self._choose)
        self.tree.opened.connect(self._open_card)
        self.tree.removed.connect(self._remove)
        self._join_margin()
        self._join_start()
        self.overlay.walk.stepped.connect(self.commands.walk)
        self.handing.done.connect(self.commands.handed_over)
        self.handing.failed.connect(self.commands.not_handed_over)

    def _join_margin(self) -> None:
        margin, findings = self.margin, self.findings
        margin.chosen.connect(findings.choose)
        margin.asked_why.connect(findings.explain)
        margin.state_wanted.connect(findings.show_state)
        margin.mend_wanted.connect(findings.mend)
        margin.accepted.connect(findings.accept)
        margin.taken_back.connect(findings.take_back)
        margin.again.connect(self.judging.again)
        margin.troubled.connect(findings.tell_trouble)

    def _join_start(self) -> None:
        self.start.begun.connect(self.commands.do_new)
        self.start.opening.connect(self.commands.do_open)
        self.start.opened.connect(self.filing.open)
        self.start.sampled.connect(self.filing.open_copy)

    @property
    def _family(self) -> str:
        return self.history.design.settings.family

    # another drawing, and what becomes of it

    def _opened(self) -> None:
        """Show the document that is worked on now."""
        history = self.history
        self.card.set_history(history)
        self.view.set_history(history)
        self.strip.set_family(self._family)
        self.start.setVisible(not history.design.parts)
        self.judging.take(history.design)
        self.show_file()
        self._fill_recent()
        self._fill_sheets()
        self.overlay.settle()
        self.view.setFocus()

    def _follow(self, change: Change) -> None:
        """Follow a change of the design."""
        self.start.hide()
        self.overlay.end_walk()
        if "settings" in change.pairs:
            self.strip.set_family(self._family)
        self._fill_sheets()
        self.show_tree()
        self.overlay.settle()

    def show_file(self) -> None:
        document, settings = self.filing.document, self.history.design.settings
        self.top.show_document(settings.job, document.name, document.state())
        title = settings.job or document.name or say("Untitled")
        self.setWindowTitle(say("{title}[*] - Linework", title=looks.window_title(title)))
        self.setWindowModified(not document.saved)
        for name, told in (("undo", self.history.undo_title), ("redo", self.history.redo_title)):
            action = self.menus.actions[name]
            action.setEnabled(bool(told))
            word = say("Undo") if name == "undo" else say("Redo")
            action.setStatusTip(f"{word}: {told}" if told else word)

    def _show_verdict(self) -> None:
        """Show what is known of the drawing in the shown state."""
        design, analysis = self.history.design, self.judging.analysis
        report, trouble = self.judging.report, self.judging.trouble
        self.levers.show_analysis(design, analysis, self.judging.why_waiting())
        self.margin.show_trouble(trouble.text if trouble else "")
        self._show_progress()
        self.margin.cautions = self.judging.cautions
        self.margin.show_analysis(design, analysis)
        shown = report.key if report is not None else self.levers.key
        self.view.show_analysis(analysis, shown, report.case if report is not None else "")
        self.card.show_report(report, self.judging.why_waiting())
        self.card.show_analysis(analysis if self.judging.up_to_date else None)
        self.overlay.follow_walk(self.levers.key)
        self._test_outlet(self.overlay.hovered)
        self.show_tree()

    def _show_progress(self) -> None:
        self.margin.show_working(self.judging.progress())

    def show_tree(self) -> None:
        if self.side.currentWidget() is self.tree:
            self.tree.show_design(self.history.design, self.judging.analysis, self.judging.report)

    # the hand on the sheet

    def _selected(self, ids: object) -> None:
        chosen = tuple(ids) if isinstance(ids, tuple | list) else ()
        self.card.show_element(chosen[0] if len(chosen) == 1 else "")
        self.card.show_report(self.judging.report, self.judging.why_waiting())
        self._test_outlet(self.overlay.hovered)
        self.tree.show_chosen(chosen)
        self.overlay.settle()

    def _open_card(self, element_id: object) -> None:
        self.view.select((str(element_id),))
        self.commands.do_card()

    def _card_closed(self) -> None:
        self.view.select(())
        self.view.setFocus()
        self.overlay.settle()

    def _refused(self, text: object) -> None:
        self.top.tell(str(text))

    def _hovered(self, hit: Hit) -> None:
        # An outlet is hardly larger than its terminals.
        self._test_outlet(hit.element if hit.sort in ("part", "terminal") else "")

    def _test_outlet(self, element_id: str) -> None:
        element = self.history.design.get(element_id)
        title = getattr(element, "designation", "")
        owner = element_id if element is not None else ""
        self.overlay.hover(owner, title, self.judging.report, self._family)

    def _flagged(self, number: object) -> None:
        self.show_side(self.margin)
        self.margin.go_to(int(str(number)))

    def _place(self, kind: object) -> None:
        self.view.place_kind(str(kind))
        self.view.setFocus()

    def _choose(self, ids: object) -> None:
        if isinstance(ids, tuple):
            self.view.bring_into_view(ids)
            self.view.select(ids)

    def _look_up(self, wanted: str) -> list[Match]:
        judging = self.judging
        analysis = judging.analysis if judging.up_to_date else None
        return matches(self.history.design, analysis, wanted)

    def _found(self, match: Match) -> None:
        self.view.setFocus()
        if match.number:
            self._flagged(match.number)
        self._choose(match.ids)

    def _remove(self, ids: tuple[str, ...]) -> None:
        self.carry_out(lambda: remove(self.history.design, ids))

    def carry_out(self, make: Callable[[], Change]) -> bool:
        """Carry an edit out; say why where it is refused."""
        try:
            self.history.do(make())
        except EditError as fault:
            self.top.tell(str(fault), danger=True)
            return False
        return True

    # what nobody expected

    def caught(self, fault: Fault) -> None:
        """An error that nobody caught: keep the work aside, hold nothing for sound, go on."""
        kept = self.filing.keep_aside()
        self.judging.invalidate()
        tell(say("Something failed"), sentence(fault), account(fault, lambda: kept), self)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Leave, unless a person wants to go on drawing."""
        self.card.finish()
        if not self.filing.may_leave():
            event.ignore()
            return
        self.handing.cancel()
        self.judge.stop()
        self.filing.close()
        event.accept()

    # menus: filled as things stand

    def _fill_recent(self) -> None:
        menu = self.menus.subs["recent"]
        menu.clear()
        for path in self.filing.habits.recent:
            action = menu.addAction(looks.caption(path))
            action.triggered.connect(lambda _=False, p=path: self.filing.open(Path(p)))
        menu.setEnabled(bool(self.filing.habits.recent))

    def _fill_sheets(self) -> None:
        menu, numbers = self.menus.subs["sheets"], sheet_numbers(self.history.design)
        if [action.data() for action in menu.actions()] == list(numbers):
            return
        menu.clear()
        for number in numbers:
            action = menu.addAction(say("Sheet &{number}", number=number))
            action.setData(number)
            action.triggered.connect(lambda _=False, n=number: self._show_sheet(n))
        menu.setEnabled(len(numbers) > 1)

    def _show_sheet(self, number: int) -> None:
        self.view.show_sheet(number)
        self.overlay.settle()

    def _fill_looks(self) -> None:
        group = QActionGroup(self)
        for look, label in _LOOKS.items():
            action = QAction(say(label), self)
            action.setCheckable(True)
            action.setChecked(look == self.filing.habits.look)
            action.triggered.connect(lambda _=False, name=look: self.wear(name))
            group.addAction(action)
            self.menus.subs["looks"].addAction(action)
        self.margin.by = self.filing.habits.name

    def wear(self, look: str) -> None:
        """Show everything in other colours."""
        app = QApplication.instance()
        if isinstance(app, QApplication):
            palette = looks.dress(app, look)
            self.filing.remember(look=look)
            self.view.use_palette(palette)
            self.strip.use_palette(palette)
            self.card.show_element(self.card.element_id)
            self._show_verdict()
