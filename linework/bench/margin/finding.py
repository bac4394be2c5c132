"""One finding in the margin, with what can be done about it and what follows from it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QFocusEvent, QFont, QKeyEvent, QMouseEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from linework.bench.looks import STRONG, Flow, Label, mark, tip
from linework.bench.margin.accept import AcceptForm
from linework.bench.margin.flag import FlagLabel
from linework.words import N_, say

if TYPE_CHECKING:
    from linework.design import Accepted, Change
    from linework.findings.model import Finding

LEVELS = {"danger": N_("Danger"), "warning": N_("Warning"), "note": N_("Note")}


class FindingCard(QFrame):
    """Signals carry what the margin's owner carries out; nothing is changed here."""

    chosen = Signal(object)
    asked_why = Signal(object)
    mend_wanted = Signal(object)
    accepted = Signal(object, str, str, str)
    taken_back = Signal(object)
    state_wanted = Signal(object)
    stepped = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("finding")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.finding: Finding | None = None
        self.form: AcceptForm | None = None
        self._by = ""
        self._earlier: Accepted | None = None
        self._folded = False
        self.gone = False
        self._changes: dict[str, Change] = {}
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 6, 8, 7)
        layout.setSpacing(3)
        self.flag, self.level, self.title = FlagLabel(), Label(), Label(bold=True)
        layout.addLayout(self._head())
        self.message, self.place, self.reason = Label(), Label(), Label()
        self.cure = Label()
        for label in (self.message, self.place, self.reason, self.cure):
            label.setWordWrap(True)
            label.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
            if label is not self.cure:
                layout.addWidget(label)
        self.message.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        mark(self.place, "tone", "quiet")
        mark(self.cure, "tone", "sound")
        self._buttons = QWidget()
        self._flow = Flow(self._buttons, gap_x=5, gap_y=4)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self._buttons.setSizePolicy(policy)
        layout.addWidget(self._buttons)
        layout.addWidget(self.cure)  # it comes late, and under the buttons it moves none of them
        self._form_box = QVBoxLayout()
        layout.addLayout(self._form_box)
        self._under = QVBoxLayout()
        self._under.setContentsMargins(14, 0, 0, 0)
        layout.addLayout(self._under)
        self.children_cards: list[FindingCard] = []
        self._make_buttons()

    def _head(self) -> QHBoxLayout:
        head = QHBoxLayout()
        head.setSpacing(6)
        self.title.setWordWrap(True)
        head.addWidget(self.flag, 0, Qt.AlignmentFlag.AlignTop)
        words = QVBoxLayout()
        words.setSpacing(0)
        words.addWidget(self.level)
        words.addWidget(self.title)
        head.addLayout(words, 1)
        return head

    def _make_buttons(self) -> None:
        """Those that come late stand last."""
        self.why = self._button(say("Why"), self._ask_why)
        self.accept = self._button(say("Accept…"), self.open_form)
        self.back = self._button(say("Take back"), self._take_back)
        self.where = self._button("", self._want_state)
        self.mend = self._button(say("Mend"), self._want_mend)

    def _button(self, text: str, slot) -> QPushButton:
        button = QPushButton(text)
        button.clicked.connect(slot)
        self._flow.addWidget(button)
        return button

    # showing

    def show_finding(
        self,
        finding: Finding,
        states: int,
        changes: dict[str, Change],
        by: str,
        acceptable: bool,
    ) -> None:
        """Show a finding. ``states``: how many there are; ``changes``: proven, by fingerprint."""
        self.finding, self._by, self._changes = finding, by, changes
        level = finding.level.word
        mark(self, "level", level if finding.open else "none")
        self.flag.setVisible(bool(finding.number))
        self.flag.show_flag(level, finding.number, not finding.open)
        self.flag.setAccessibleName(f"{finding.level.told} {finding.number or ''}".strip())
        self.level.setText(say(LEVELS[level]) + ("" if finding.open else say(", accepted")))
        mark(self.level, "tone", level)
        self._show_title()
        self.message.setText(finding.message)
        self.place.setText(_place(finding))
        self.setAccessibleName(f"{self.level.text()} {finding.number or ''}: {finding.title}")
        self.setAccessibleDescription(finding.message)
        self._show_acceptance(finding)
        self.where.setText(_states_text(finding, states))
        self.where.setVisible(finding.standing is not None)
        self.where.setToolTip(tip("\n".join(finding.spoken)))
        self.accept.setVisible(finding.open and acceptable)
        self.back.setVisible(not finding.open)
        self.show_mend()
        self._show_consequences(finding, states, changes, by)

    def show_mend(self) -> None:
        """Offer the mend if it was proven."""
        change = self._changes.get(self.finding.fingerprint) if self.finding else None
        offered = change is not None and self.finding is not None and self.finding.open
        offered = offered and not self._folded
        self.mend.setVisible(offered)
        self.cure.setVisible(offered)
        if change is not None:
            self.cure.setText(say("Mend: {title}", title=change.title))
            self.mend.setAccessibleName(self.cure.text())
            told = say("Tried on a copy: it cures this, and brings no new danger or warning")
            self.mend.setToolTip(tip(told))
        self._buttons.updateGeometry()
        for child in self.children_cards:
            child.show_mend()

    def _show_acceptance(self, finding: Finding) -> None:
        accepted = finding.accepted or self._earlier
        self.reason.setVisible(accepted is not None)
        mark(self.reason, "tone", "" if finding.accepted is not None else "warning")
        if accepted is None:
            return
        told = {"by": accepted.by, "date": accepted.date, "reason": accepted.reason}
        if accepted.by:
            text = say("Accepted by {by} on {date}: {reason}", **told)
        else:
            text = say("Accepted on {date}: {reason}", **told)
        if finding.accepted is None:
            text += "\n" + say("What that rested on has changed since: it is open again.")
        self.reason.setText(text)

    def show_earlier(self, earlier: Accepted | None) -> None:
        """Show an acceptance that held for this finding until what it rested on changed."""
        self._earlier = earlier
        if self.finding is not None:
            self._show_acceptance(self.finding)

    def _show_consequences(
        self, finding: Finding, states: int, changes: dict[str, Change], by: str
    ) -> None:
        while len(self.children_cards) > len(finding.consequences):
            self.children_cards.pop().deleteLater()
        while len(self.children_cards) < len(finding.consequences):
            self.children_cards.append(self._child())
        for child, consequence in zip(self.children_cards, finding.consequences, strict=True):
            child.show_finding(consequence, states, changes, by, acceptable=False)
            child.level.setText(say("{level}, which follows from it", level=child.level.text()))

    def _child(self) -> FindingCard:
        child = FindingCard()
        child.fold()
        child.chosen.connect(self.chosen)
        child.asked_why.connect(self.asked_why)
        child.mend_wanted.connect(self.mend_wanted)
        child.state_wanted.connect(self.state_wanted)
        child.stepped.connect(self.stepped)
        self._under.addWidget(child)
        child.show()
        return child

    def fold(self) -> None:
        """Show in a line what it is and where, as a consequence does until a person turns to it."""
        self._set_folded(True)

    def unfold(self) -> None:
        """Show what it says, and what can be done."""
        if self._folded:
            self._set_folded(False)

    def _set_folded(self, folded: bool) -> None:
        self._folded = folded
        for piece in (self.level, self.message, self.place, self._buttons):
            piece.setVisible(not folded)
        self.setCursor(Qt.CursorShape.PointingHandCursor if folded else Qt.CursorShape.ArrowCursor)
        font = self.title.font()
        font.setWeight(QFont.Weight.Normal if folded else STRONG)
        self.title.setFont(font)
        self._show_title()
        self.show_mend()

    def _show_title(self) -> None:
        finding = self.finding
        if finding is None:
            return
        title = finding.title[:1].upper() + finding.title[1:]
        if self._folded:
            level, where = say(LEVELS[finding.level.word]), ", ".join(finding.where)
            title = say("{level}: {title} ({where})", level=level, title=title, where=where)
        self.title.setText(title)
        mark(self.title, "tone", finding.level.word if self._folded else "")
        self.setToolTip(tip(finding.message if self._folded else ""))

    @property
    def in_hand(self) -> bool:
        """Whether the pointer or the focus is on it."""
        hand = QApplication.focusWidget()
        return self.underMouse() or (hand is not None and (hand is self or self.isAncestorOf(hand)))

    def show_gone(self) -> None:
        """It is not found any more; while the hand is on it, it stays where it is, struck
        through."""
        self.gone = True
        self.setFixedHeight(self.height())
        self.close_form()
        self._buttons.setEnabled(False)
        self.cure.hide()
        font = self.title.font()
        font.setStrikeOut(True)
        self.title.setFont(font)
        self.level.setText(say("No longer found"))
        mark(self.level, "tone", "sound")
        self.setAccessibleName(f"{self.level.text()}: {self.title.text()}")

    # acting

    def _ask_why(self) -> None:
        self.asked_why.emit(self.finding)

    def _want_state(self) -> None:
        self.state_wanted.emit(self.finding)

    def _want_mend(self) -> None:
        if self.finding is not None and self.finding.fingerprint in self._changes:
            self.mend_wanted.emit(self._changes[self.finding.fingerprint])

    def _take_back(self) -> None:
        if self.finding is not None:
            self.taken_back.emit(self.finding.accepted)

    def open_form(self) -> None:
        """Ask for the reason, here in the margin."""
        if self.form is None:
            self.form = AcceptForm(self._by, self._earlier.reason if self._earlier else "")
            self.form.given.connect(lambda *words: self.accepted.emit(self.finding, *words))
            self.form.left.connect(self.close_form)
            self._form_box.addWidget(self.form)
        self.form.reason.setFocus()

    def close_form(self) -> None:
        """Put the form away."""
        form, self.form = self.form, None
        if form is not None:
            form.hide()
            form.deleteLater()
            self.setFocus()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A press anywhere on the card chooses the finding."""
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        self.chosen.emit(self.finding)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows go to the next card, Enter chooses."""
        steps = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}
        key = Qt.Key(event.key())
        if key in steps:
            self.stepped.emit(steps[key])
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.chosen.emit(self.finding)
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A consequence that a person turns to shows what can be done about it."""
        super().focusInEvent(event)
        self.unfold()

    def changeEvent(self, event: QEvent) -> None:
        """Paint the flag anew in other colors."""
        super().changeEvent(event)
        if event.type() is QEvent.Type.PaletteChange:
            self.flag.update()


def _place(finding: Finding) -> str:
    """Where, and by which clause of which rules."""
    pieces = [piece for piece in (", ".join(finding.where), finding.reference) if piece]
    pieces += [say("if {case}", case=case) for case in finding.cases if case]
    return " · ".join(piece for piece in pieces if piece)


def _states_text(finding: Finding, states: int) -> str:
    """In how many of the states of rest it holds; else that it holds while something moves, or
    whatever the state (a button that says so is hidden, yet what reads the screen can name it)."""
    if finding.standing is None:
        return say("Whatever the state")
    if not finding.standing.count:
        return say("Only while a relay changes over")
    return say("In {some} of {all} states", some=finding.standing.count, all=states)
