"""The window: the paper fills it, levers above, parts below, findings in the margin."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QActionGroup, QCloseEvent, QGuiApplication
from PySide6.QtWidgets import (
    QApplication,
    QFileDialog,
    QHBoxLayout,
    QInputDialog,
    QMainWindow,
    QProgressDialog,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

import linework
from linework.bench import clipping, interlocking, looks, margintext, shownstate
from linework.bench.actions import items
from linework.bench.canvas.view import SheetView
from linework.bench.card import Card
from linework.bench.filing import Ask, Filing
from linework.bench.guard import Fault, account, sentence
from linework.bench.handing import HandingOver
from linework.bench.jobform import JobForm, first_questions
from linework.bench.judging import Judging
from linework.bench.levers import Levers
from linework.bench.margin import Margin
from linework.bench.mending import rebased
from linework.bench.menus import Menus
from linework.bench.overlay import Overlay
from linework.bench.startcard import StartCard
from linework.bench.strip import PartsStrip
from linework.bench.topbar import TopBar
from linework.bench.tree import PartsTree
from linework.bench.trouble import tell
from linework.bench.whywindow import WhyWindow
from linework.bench.worker import Judge
from linework.design import Change, EditError, History, changed
from linework.design.edits import accept_finding, add_note, drop_element
from linework.sheet.arrange import lay_out
from linework.sheet.compose import sheet_numbers
from linework.storage import SUFFIX, dumps
from linework.words import N_, say

if TYPE_CHECKING:
    from collections.abc import Callable

    from linework.bench.canvas.hits import Hit
    from linework.design import Accepted
    from linework.findings.model import Finding

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
        self.menus = Menus(self)
        self.top = TopBar(self.menus.actions)
        self.levers = Levers()
        self.judging = Judging(self.judge, self.levers, self)
        self.view = SheetView(self.history, palette=looks.worn())
        self.card = Card(self.history, self.view)
        self.start = StartCard(self.filing.habits.recent, self.view)
        self.overlay = Overlay(self.view, self.card, self.start)
        self.margin, self.tree, self.why = Margin(), PartsTree(), WhyWindow(self)
        self.strip = PartsStrip(palette=looks.worn())
        self.handing = HandingOver(self)
        self._progress: QProgressDialog | None = None
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
        self.side.setFixedWidth(self.margin.width())
        self.side.addWidget(self.margin)
        self.side.addWidget(self.tree)
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
        for before, after in zip(order, order[1:], strict=False):
            QWidget.setTabOrder(before, after)

    def _join(self) -> None:
        self.filing.opened.connect(self._opened)
        self.filing.changed.connect(self._show_file)
        self.filing.noticed.connect(self.top.tell)
        self.judging.changed.connect(self._show_verdict)
        self.judging.mended.connect(self.margin.show_mend)
        self.judging.unmended.connect(self.margin.forget_mends)
        self.levers.refused.connect(self._refused)
        self.view.selected.connect(self._selected)
        self.view.refused.connect(self._refused)
        self.view.hovered.connect(self._hovered)
        self.view.flagged.connect(self._flagged)
        self.view.opened.connect(self._open_card)
        self.strip.chosen.connect(self._place)
        self.card.closed.connect(self._card_closed)
        self.tree.chosen.connect(self._choose)
        self.tree.opened.connect(self._open_card)
        self._join_margin()
        self._join_start()
        self.handing.done.connect(self._handed_over)
        self.handing.failed.connect(self._not_handed_over)

    def _join_margin(self) -> None:
        margin = self.margin
        margin.chosen.connect(self._finding_chosen)
        margin.asked_why.connect(lambda f: self.why.explain(f, self._family))
        margin.state_wanted.connect(self._show_state_of)
        margin.mend_wanted.connect(self._mend)
        margin.accepted.connect(self._accept)
        margin.taken_back.connect(self._take_back)
        margin.again.connect(self.judging.again)
        margin.troubled.connect(self._tell_trouble)

    def _join_start(self) -> None:
        self.start.begun.connect(self.do_new)
        self.start.opening.connect(self.do_open)
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
        history.listen(self._changed)
        self.strip.set_family(self._family)
        self.start.setVisible(not history.design.parts)
        self.judging.take(history.design)
        self._show_file()
        self._fill_recent()
        self._fill_sheets()
        self.overlay.settle()
        self.view.setFocus()

    def _changed(self, change: Change) -> None:
        """Follow a change of the design."""
        self.start.hide()
        self.filing.design_changed(change)
        self.judging.design_changed(change)
        self.card.changed(change)
        if "settings" in change.pairs:
            self.strip.set_family(self._family)
        self._fill_sheets()
        self._show_tree()
        self.overlay.settle()

    def _show_file(self) -> None:
        document, settings = self.filing.document, self.history.design.settings
        self.top.show_document(settings.job, document.name, document.state())
        title = settings.job or document.name
        self.setWindowTitle(say("{title}[*] – Linework", title=title))
        self.setWindowModified(not document.saved)
        for name, told in (("undo", self.history.undo_title), ("redo", self.history.redo_title)):
            action = self.menus.actions[name]
            action.setEnabled(bool(told))
            word = say("Undo") if name == "undo" else say("Redo")
            action.setToolTip(f"{word}: {told}" if told else word)

    def _show_verdict(self) -> None:
        """Show what is known of the drawing in the shown state."""
        design, analysis = self.history.design, self.judging.analysis
        report, trouble = self.judging.report, self.judging.trouble
        self.levers.show_analysis(design, analysis)
        self.margin.show_trouble(trouble.text if trouble else "")
        self.margin.show_working(self.judging.progress())
        self.margin.show_analysis(design, analysis)
        shown = report.key if report is not None else self.levers.key
        self.view.show_analysis(analysis, shown, report.case if report is not None else "")
        self.card.show_report(report)
        self._show_tree()

    def _show_tree(self) -> None:
        if self.side.currentWidget() is self.tree:
            self.tree.show_design(self.history.design, self.judging.analysis, self.judging.report)

    # the hand on the sheet

    def _selected(self, ids: object) -> None:
        chosen = tuple(ids) if isinstance(ids, tuple | list) else ()
        self.card.show_element(chosen[0] if len(chosen) == 1 else "")
        self.card.show_report(self.judging.report)
        self.tree.show_chosen(chosen)
        self.overlay.settle()

    def _open_card(self, element_id: object) -> None:
        self.view.select((str(element_id),))
        self.do_card()

    def _card_closed(self) -> None:
        self.view.select(())
        self.view.setFocus()
        self.overlay.settle()

    def _refused(self, text: object) -> None:
        self.top.tell(str(text))

    def _hovered(self, hit: Hit) -> None:
        element = self.history.design.get(hit.element) if hit.sort == "part" else None
        title = getattr(element, "designation", "")
        owner = hit.element if element is not None else ""
        self.overlay.hover(owner, title, self.judging.report, self._family)

    def _flagged(self, number: object) -> None:
        self.side.setCurrentWidget(self.margin)
        self.menus.actions["tree"].setChecked(False)
        self.margin.go_to(int(str(number)))

    def _place(self, kind: object) -> None:
        self.view.place_kind(str(kind))
        self.view.setFocus()

    def _choose(self, ids: object) -> None:
        if isinstance(ids, tuple):
            self.view.bring_into_view(ids)
            self.view.select(ids)

    # findings

    def _finding_chosen(self, finding: Finding) -> None:
        self.view.bring_into_view(finding.subjects)
        there = [key for key in finding.subjects if key in self.history.design]
        if len(there) > 1 or not self.card.isVisible():
            self.view.sheet_scene.choose(there)

    def _show_state_of(self, finding: Finding) -> None:
        """Move to the next state in which a finding holds."""
        analysis = self.judging.analysis
        if analysis is None or not finding.states:
            return
        keys = list(finding.states)
        at = keys.index(self.levers.key) + 1 if self.levers.key in keys else 0
        reports = shownstate.reports_of(analysis, keys[at % len(keys)])
        if reports:
            choice = {(part, name): position for part, name, position in reports[0].free}
            self.levers.set_choice(choice)
        self._finding_chosen(finding)

    def _mend(self, change: Change) -> None:
        if self._do(lambda: rebased(change, self.history.design)):
            self.top.tell(say("Mended: {title}. Undo takes it back.", title=change.title))

    def _accept(self, finding: Finding, reason: str, by: str, date: str) -> None:
        try:
            self.history.do(
                accept_finding(
                    self.history.design,
                    finding.rule,
                    finding.subjects,
                    finding.fingerprint,
                    reason=reason,
                    by=by,
                    date=date,
                )
            )
        except EditError as fault:
            self.margin.refuse_acceptance(finding, str(fault))
            return
        self.margin.by = by
        self.filing.remember(name=by)

    def _take_back(self, accepted: Accepted) -> None:
        self._do(lambda: drop_element(self.history.design, accepted.id))

    def _tell_trouble(self) -> None:
        trouble = self.judging.trouble
        if trouble is not None:
            tell(
                say("Why nothing was checked"), trouble.text, trouble.details or trouble.text, self
            )

    def _do(self, make: Callable[[], Change]) -> bool:
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

    # menus: files

    def do_new(self) -> None:
        """Ask the first questions and begin a new sheet."""
        settings = first_questions(self)
        if settings is not None:
            self.filing.new(settings)
            self.start.setVisible(False)

    def do_open(self) -> None:
        """Ask for a file and open it."""
        kinds = say("Drawings") + f" (*{SUFFIX})"
        folder = str(self.filing.document.path.parent) if self.filing.document.path else ""
        name, _ = QFileDialog.getOpenFileName(self, say("Open"), folder, kinds)
        if name:
            self.filing.open(Path(name))

    def do_save(self) -> None:
        """Save; what is being typed on the card belongs to it."""
        self.card.finish()
        self.filing.save()

    def do_save_as(self) -> None:
        """Save under another name."""
        self.card.finish()
        self.filing.save_as()

    def do_job(self) -> None:
        """Ask what holds for the whole drawing."""
        form = JobForm(self.history.design, whole=True, parent=self)
        if form.exec() and form.change:
            change = form.change
            self._do(lambda: change)

    def do_close(self) -> None:
        """Leave the program."""
        self.close()

    def closeEvent(self, event: QCloseEvent) -> None:
        self.card.finish()
        if not self.filing.may_leave():
            event.ignore()
            return
        self.handing.cancel()
        self.judge.stop()
        self.filing.document.close()
        event.accept()

    # menus: the drawing set

    def do_hand_over(self) -> None:
        """Ask where to, and write the drawing set."""
        self.card.finish()
        if self.handing.busy:
            self.top.tell(say("A drawing set is being written already."))
            return
        path = self.filing.document.path
        start = str(path.with_suffix(".pdf")) if path else "drawing-set.pdf"
        name, _ = QFileDialog.getSaveFileName(self, say("Drawing set"), start, "PDF (*.pdf)")
        if name:
            self.write_set(Path(name) if Path(name).suffix else Path(name + ".pdf"))

    def write_set(self, target: Path) -> None:
        """Write the drawing set, with progress and a way out."""
        progress = QProgressDialog(say("Writing the drawing set…"), say("Cancel"), 0, 0, self)
        progress.setWindowTitle(say("Drawing set"))
        progress.setMinimumDuration(400)
        progress.canceled.connect(self.handing.cancel)
        self._progress = progress
        self.handing.write(dumps(self.history.design), target)

    def _written(self) -> None:
        progress, self._progress = self._progress, None
        if progress is not None:
            progress.canceled.disconnect()
            progress.close()
            progress.deleteLater()

    def _handed_over(self, target: object) -> None:
        self._written()
        self.top.tell(say("Written: {path}", path=target))

    def _not_handed_over(self, text: str) -> None:
        self._written()
        tell(say("Drawing set"), text, "", self)

    # menus: editing

    def do_undo(self) -> None:
        """Take the last edit back; typed text that is not yet entered counts as one."""
        self.card.finish()
        title = self.history.undo()
        if title:
            self.top.tell(say("Taken back: {title}", title=title))
        self._show_file()

    def do_redo(self) -> None:
        """Make the edit that was taken back again."""
        title = self.history.redo()
        if title:
            self.top.tell(say("Made again: {title}", title=title))
        self._show_file()

    def do_copy(self) -> None:
        """Copy what is chosen."""
        try:
            text = clipping.copied(self.history.design, self.view.selection)
        except EditError as fault:
            self.top.tell(str(fault))
            return
        QGuiApplication.clipboard().setText(text)
        self.top.tell(say("Copied."))

    def do_paste(self) -> None:
        """Put down what was copied."""
        self._paste(QGuiApplication.clipboard().text())

    def do_duplicate(self) -> None:
        """Copy and put down in one go; the clipboard stays as it is."""
        try:
            self._paste(clipping.copied(self.history.design, self.view.selection))
        except EditError as fault:
            self.top.tell(str(fault))

    def _paste(self, text: str) -> None:
        try:
            change, ids = clipping.pasted(self.history.design, text, self.view.sync.sheet)
            self.history.do(change)
        except EditError as fault:
            self.top.tell(str(fault))
            return
        self.view.select(ids)

    def do_choose_all(self) -> None:
        """Choose everything on the sheet."""
        self.view.select_all()

    def do_interlock(self) -> None:
        """Of the chosen breakers only one may be closed."""
        self._do(lambda: interlocking.interlock(self.history.design, self.view.selection))

    def do_unlock(self) -> None:
        """Take the interlocks of what is chosen away."""
        self._do(lambda: interlocking.unlock(self.history.design, self.view.selection))

    def do_note(self) -> None:
        """Ask for a text and put it on the sheet."""
        text, given = QInputDialog.getText(self, say("Note"), say("What should stand there?"))
        if given and text.strip():
            at = self.view.caret or self.view.visible_box.center
            sheet = self.view.sync.sheet
            self._do(lambda: add_note(self.history.design, text.strip(), at, sheet))

    def do_arrange(self) -> None:
        """Lay everything out anew, as one edit."""
        self._do(self._arranged)

    def _arranged(self) -> Change:
        before, after = self.history.design, lay_out(self.history.design)
        pairs = [(part, after.get(part.id)) for part in before.parts]
        straight = [(run, after.get(run.id)) for run in before.runs]
        return changed(say("arrange"), [*pairs, *straight])

    # menus: seeing

    def do_closer(self) -> None:
        """Zoom in."""
        self.view.zoom_by(1.25)

    def do_further(self) -> None:
        """Zoom out."""
        self.view.zoom_by(0.8)

    def do_whole_page(self) -> None:
        """Show the whole sheet."""
        self.view.fit_page()

    def do_card(self) -> None:
        """Put the hand on the card."""
        if self.card.isVisible():
            first = next(iter(self.card.rows.values()), None)
            (first.nextInFocusChain() if first is not None else self.card.title).setFocus()
        else:
            self.top.tell(say("Choose a part or a run first."))

    def do_tree(self) -> None:
        """Show the parts tree in the place of the margin, or the margin again."""
        shown = self.menus.actions["tree"].isChecked()
        self.side.setCurrentWidget(self.tree if shown else self.margin)
        self._show_tree()
        (self.tree.list if shown else self.view).setFocus()

    def do_to_margin(self) -> None:
        """Put the hand on the findings."""
        self.menus.actions["tree"].setChecked(False)
        self.side.setCurrentWidget(self.margin)
        first = next(self.margin.every_card(), None)
        if first is not None:
            first.setFocus(Qt.FocusReason.TabFocusReason)
        else:
            self.top.tell(margintext.heading(self.judging.analysis))

    def do_to_levers(self) -> None:
        """Put the hand on the levers."""
        for segments in self.levers.segments.values():
            index = segments.positions.index(segments.held) if segments.held else 0
            segments.buttons[index].setFocus(Qt.FocusReason.TabFocusReason)
            return
        self.top.tell(say("No levers yet: a source, a plug or a switch on the sheet makes one."))

    def do_to_sheet(self) -> None:
        """Put the hand on the sheet."""
        self.view.setFocus(Qt.FocusReason.TabFocusReason)

    def do_walk(self) -> None:
        """Step to the next state."""
        self._walk(1)

    def do_walk_back(self) -> None:
        """Step to the state before."""
        self._walk(-1)

    def _walk(self, by: int) -> None:
        analysis = self.judging.analysis
        states = shownstate.walk(analysis) if analysis is not None else []
        if not states:
            self.top.tell(say("There is no state to walk to yet."))
            return
        at = shownstate.number_of(states, self.levers.key) - 1
        after = states[(at + by) % len(states)]
        self.levers.set_choice({(part, name): word for part, name, word in after.free})

    # menus: filled as things stand

    def _fill_recent(self) -> None:
        menu = self.menus.subs["recent"]
        menu.clear()
        for path in self.filing.habits.recent:
            action = menu.addAction(path)
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
            self._show_verdict()

    # menus: help

    def do_keys(self) -> None:
        """Show which key does what."""
        lines = [
            f"{', '.join(item.keys)}: {say(item.label).replace('&', '').rstrip('…')}"
            for item in items()
            if item.keys
        ]
        sheet = say(
            "On the sheet: arrows move, R turns, M mirrors, Delete removes, Escape lets go;"
            " click the paper and type to place a part; Tab goes on to the next piece of the window."
        )
        tell(say("Keys"), sheet, "\n".join(lines), self)

    def do_about(self) -> None:
        """Say what this is, and what it is not."""
        text = say(
            "Linework {version}. Draws small power systems, works out every conductor in every"
            " operating state and writes the drawing set. A design aid: local codes and a licensed"
            " electrician decide.",
            version=linework.__version__,
        )
        tell(say("About"), text, "", self)
