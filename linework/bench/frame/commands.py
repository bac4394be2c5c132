"""What the menus and buttons do."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QFileDialog, QInputDialog, QProgressDialog

import linework
from linework.bench.file import JobForm, first_questions, tell
from linework.bench.frame import clipping, interlocking
from linework.bench.frame.actions import items
from linework.bench.paper import RunForm
from linework.bench.states import changes, found_here, number_of
from linework.design import Change, EditError, Part, Run, changed
from linework.design.edits import add_note, remove
from linework.findings.questions import questions
from linework.sheet.arranging import lay_out
from linework.storage import SUFFIX, dumps
from linework.words import say

BenchWindow = Any
"""The window. It imports this module, so that its name cannot be taken from there."""


class Commands(QObject):
    """One method ``do_...`` for each line of the menus."""

    def __init__(self, window: BenchWindow) -> None:
        super().__init__(window)
        self._window = window
        self._progress: QProgressDialog | None = None

    # menus: files

    def do_new(self) -> None:
        """Ask the first questions and begin a new sheet."""
        design = first_questions(self._window)
        if design is not None:
            self._window.filing.new(design)
            self._window.start.setVisible(False)

    def do_open(self) -> None:
        """Ask for a file and open it."""
        kinds = say("Drawings") + f" (*{SUFFIX})"
        folder = (
            str(self._window.filing.document.path.parent)
            if self._window.filing.document.path
            else ""
        )
        name, _ = QFileDialog.getOpenFileName(self._window, say("Open"), folder, kinds)
        if name:
            self._window.filing.open(Path(name))

    def do_save(self) -> None:
        """Save; what is being typed on the card belongs to it."""
        self._window.card.finish()
        self._window.filing.save()

    def do_save_as(self) -> None:
        """Save under another name."""
        self._window.card.finish()
        self._window.filing.save_as()

    def do_job(self) -> None:
        """Ask what holds for the whole drawing."""
        form = JobForm(self._window.history.design, whole=True, parent=self._window)
        if form.exec() and form.change:
            change = form.change
            self._window.carry_out(lambda: change)

    def do_close(self) -> None:
        """Leave the program."""
        self._window.close()

    # menus: the drawing set

    def do_hand_over(self) -> None:
        """Ask where to, and write the drawing set."""
        self._window.card.finish()
        if self._window.handing.busy:
            self._window.top.tell(say("A drawing set is being written already."))
            return
        path = self._window.filing.document.path
        start = str(path.with_suffix(".pdf")) if path else "drawing-set.pdf"
        forms = {
            say("Drawing set (*.pdf)"): ".pdf",
            say("One-line diagram (*.svg *.png *.dxf)"): ".svg",
            say("Tables (*.xlsx *.csv)"): ".xlsx",
        }
        name, form = QFileDialog.getSaveFileName(
            self._window, say("Drawing set"), start, ";;".join(forms)
        )
        if name:
            ending = "" if Path(name).suffix else forms.get(form, ".pdf")
            self.write_set(Path(name + ending))

    def write_set(self, target: Path) -> None:
        """Write the drawing set, with progress and a way out."""
        progress = QProgressDialog(
            say("Writing the drawing set…"), say("Cancel"), 0, 0, self._window
        )
        progress.setWindowTitle(say("Drawing set"))
        progress.setMinimumDuration(400)
        progress.canceled.connect(self._window.handing.cancel)
        self._progress = progress
        self._window.handing.write(dumps(self._window.history.design), target)

    def _written(self) -> None:
        progress, self._progress = self._progress, None
        if progress is not None:
            progress.canceled.disconnect()
            progress.close()
            progress.deleteLater()

    def handed_over(self, told: str) -> None:
        self._written()
        self._window.top.tell(told)

    def not_handed_over(self, text: str) -> None:
        self._written()
        tell(say("Drawing set"), text, "", self._window)

    # menus: editing

    def do_undo(self) -> None:
        """Take the last edit back; typed text that is not yet entered counts as one."""
        self._window.card.finish()
        title = self._window.history.undo()
        if title:
            self._window.top.tell(say("Taken back: {title}", title=title))
        self._window.show_file()

    def do_redo(self) -> None:
        """Make the edit that was taken back again."""
        title = self._window.history.redo()
        if title:
            self._window.top.tell(say("Made again: {title}", title=title))
        self._window.show_file()

    def do_copy(self) -> None:
        """Copy what is chosen."""
        try:
            text = clipping.copied(self._window.history.design, self._window.view.selection)
        except EditError as fault:
            self._window.top.tell(str(fault))
            return
        QGuiApplication.clipboard().setText(text)
        self._window.top.tell(say("Copied."))

    def do_cut(self) -> None:
        """Copy what is chosen and take it off the sheet."""
        window = self._window
        try:
            text = clipping.copied(window.history.design, window.view.selection)
        except EditError as fault:
            window.top.tell(str(fault))
            return
        QGuiApplication.clipboard().setText(text)
        chosen = window.view.selection
        window.carry_out(lambda: remove(window.history.design, chosen))

    def do_paste(self) -> None:
        """Put down what was copied, at the caret where there is one."""
        self._paste(QGuiApplication.clipboard().text())

    def do_duplicate(self) -> None:
        """Copy and put down in one go; the clipboard stays as it is."""
        try:
            self._paste(clipping.copied(self._window.history.design, self._window.view.selection))
        except EditError as fault:
            self._window.top.tell(str(fault))

    def _paste(self, text: str) -> None:
        view = self._window.view
        try:
            change, ids = clipping.pasted(view.design, text, view.sync.sheet, view.caret)
            self._window.history.do(change)
        except EditError as fault:
            self._window.top.tell(str(fault))
            return
        view.set_caret(None)
        view.select(ids)
        view.bring_into_view(ids)

    def do_remove(self) -> None:
        """Take what is chosen off the sheets."""
        window = self._window
        chosen = window.view.selection
        if chosen:
            window.carry_out(lambda: remove(window.history.design, chosen))

    def do_assumed(self) -> None:
        """Go through what was assumed, weightiest first."""
        window = self._window
        analysis = window.judging.analysis
        if analysis is None:
            window.top.tell(say("Nothing was checked yet."))
            return
        found = questions(window.history.design, analysis.assumed, analysis.findings)
        if found:
            window.assumed.begin(found)
        else:
            window.top.tell(say("Nothing is assumed that a card asks for."))

    def do_find(self) -> None:
        """Find something by any words of it."""
        self._window.find_bar.begin()

    def do_choose_all(self) -> None:
        """Choose everything on the sheet."""
        self._window.view.select_all()

    def do_run(self) -> None:
        """Ask for both ends of a run; at first those of the chosen parts."""
        window = self._window
        chosen = tuple(
            key for key in window.view.selection if isinstance(window.history.design.get(key), Part)
        )
        form = RunForm(window.history.design, window.view.surface.layout, chosen, window)
        if form.exec() and form.change:
            change = form.change
            if window.carry_out(lambda: change):
                window.view.select(e.id for _, e in change.pairs.values() if isinstance(e, Run))

    def do_interlock(self) -> None:
        """Of the chosen breakers only one may be closed."""
        self._window.carry_out(
            lambda: interlocking.interlock(self._window.history.design, self._window.view.selection)
        )

    def do_unlock(self) -> None:
        """Take the interlocks of what is chosen away."""
        self._window.carry_out(
            lambda: interlocking.unlock(self._window.history.design, self._window.view.selection)
        )

    def do_note(self) -> None:
        """Ask for a text and put it on the sheet."""
        text, given = QInputDialog.getText(
            self._window, say("Note"), say("What should stand there?")
        )
        if given and text.strip():
            at = self._window.view.caret or self._window.view.visible_box.center
            sheet = self._window.view.sync.sheet
            self._window.carry_out(
                lambda: add_note(self._window.history.design, text.strip(), at, sheet)
            )

    def do_arrange(self) -> None:
        """Lay everything out anew, as one edit."""
        self._window.carry_out(self._arranged)

    def _arranged(self) -> Change:
        before, after = self._window.history.design, lay_out(self._window.history.design)
        pairs = [(part, after.get(part.id)) for part in before.parts]
        straight = [(run, after.get(run.id)) for run in before.runs]
        return changed(say("arrange"), [*pairs, *straight])

    # menus: seeing

    def do_closer(self) -> None:
        """Zoom in."""
        self._window.view.zoom_by(1.25)

    def do_further(self) -> None:
        """Zoom out."""
        self._window.view.zoom_by(0.8)

    def do_whole_page(self) -> None:
        """Show the whole sheet."""
        self._window.view.fit_page()

    def do_card(self) -> None:
        """Put the hand on the card."""
        if self._window.card.isVisible():
            self._window.card.take_focus()
        else:
            self._window.top.tell(say("Choose a part or a run first."))

    def do_tree(self) -> None:
        """Show the parts tree in the place of the margin, or the margin again."""
        shown = self._window.menus.actions["tree"].isChecked()
        self._window.show_side(self._window.tree if shown else self._window.margin)
        self._window.show_tree()
        (self._window.tree.list if shown else self._window.view).setFocus()

    def do_to_margin(self) -> None:
        """Put the hand on the findings."""
        self._window.show_side(self._window.margin)
        first = next(self._window.margin.every_card(), None)
        if first is not None:
            first.setFocus(Qt.FocusReason.TabFocusReason)
        else:
            self._window.top.tell(self._window.margin.heading())

    def do_to_levers(self) -> None:
        """Put the hand on the levers."""
        if not self._window.levers.take_focus():
            self._window.top.tell(
                say("No levers yet: a source, a plug or a switch on the sheet makes one.")
            )

    def do_to_sheet(self) -> None:
        """Put the hand on the sheet."""
        self._window.view.setFocus(Qt.FocusReason.TabFocusReason)

    def do_walk(self) -> None:
        """Step to the next state."""
        self.walk(1)

    def do_walk_back(self) -> None:
        """Step to the state before."""
        self.walk(-1)

    def walk(self, by: int) -> None:
        """Step on through the states, forward or back, and round."""
        analysis = self._window.judging.analysis
        states = analysis.walked() if analysis is not None else []
        if not states:
            self._window.top.tell(say("There is no state to walk to yet."))
            return
        at = number_of(states, self._window.judging.report) - 1
        after = states[(at + by) % len(states)]
        before, levers = self._window.judging.report, self._window.levers
        choice = {(part, name): word for part, name, word in after.free}
        self._window.overlay.walk_to(levers.board.state_key(levers.board.fitted(choice)))
        levers.set_choice(choice)
        self._tell_step(states, before, self._window.judging.report or after)

    def _tell_step(self, states: list[Any], before: Any, after: Any) -> None:
        """Say which state it is now, and what is other than in the one before."""
        window = self._window
        design, key = window.history.design, window.levers.key
        told: tuple[str, ...] = ()
        if before is not None:
            told = changes(design, window.levers.board, before, after)
        here = found_here(window.judging.analysis.findings, after.positions)
        title = say(
            "State {number} of {count}: {title}",
            number=number_of(states, after),
            count=len(states),
            title=after.title,
        )
        window.overlay.show_walk(key, title, (*told, here) if here else told)

    # menus: help

    def do_guide(self) -> None:
        """Open the guide where it speaks of what the hand is on: a finding, a part, a run."""
        self._window.guide.open(self._subject(), self._window.history.design.settings.family)

    def _subject(self) -> str:
        held = QApplication.focusWidget()
        finding = self._window.margin.finding_at(held) if held is not None else None
        if finding is not None:
            return f"rule/{finding.rule}"
        element = self._window.history.design.get(self._window.card.element_id)
        if isinstance(element, Part):
            return f"part/{element.kind}"
        return "part/run" if isinstance(element, Run) else ""

    def do_keys(self) -> None:
        """Show which key does what."""
        lines = [
            f"{', '.join(item.keys)}: {say(item.label).replace('&', '').rstrip('…')}"
            for item in items()
            if item.keys
        ]
        sheet = say(
            "On the sheet: arrows move, R turns, M mirrors, Delete removes, Escape lets go;"
            " click the paper and type to place a part; Tab goes on to the next piece of the"
            " window."
        )
        tell(say("Keys"), sheet, "\n".join(lines), self._window)

    def do_about(self) -> None:
        """Say what this is, and what it is not."""
        text = say(
            "Linework {version}. Draws small power systems, works out every conductor in every"
            " operating state and writes the drawing set. A design aid: local codes and a licensed"
            " electrician decide.",
            version=linework.__version__,
        )
        tell(say("About"), text, "", self._window)
