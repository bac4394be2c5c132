"""The findings, in the sheet's right margin; under them what was not checked, what is sound, what
was assumed. It follows the hand and never blocks it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from linework.bench.looks import Column, Label, em, height_of, mark
from linework.bench.margin.finding import FindingCard
from linework.bench.margin.lists import Lists
from linework.bench.margin.text import earlier_acceptances, heading, sections
from linework.words import say

if TYPE_CHECKING:
    from linework.analysis import Analysis
    from linework.design import Change, Design
    from linework.findings.model import Finding

_WIDE = 27
"""Width in letters m."""


class Margin(QFrame):
    """Signals tell what a person wants; the window carries it out.

    ``chosen`` (Finding), ``asked_why`` (Finding), ``state_wanted`` (Finding), ``mend_wanted``
    (Change), ``accepted`` (Finding, reason, by, date), ``taken_back`` (Accepted), ``again``.
    """

    chosen = Signal(object)
    asked_why = Signal(object)
    state_wanted = Signal(object)
    mend_wanted = Signal(object)
    accepted = Signal(object, str, str, str)
    taken_back = Signal(object)
    again = Signal()
    troubled = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("side")
        self.setAccessibleName(say("Margin"))
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.by = ""
        self.cautions: frozenset[str] = frozenset()
        self.changes: dict[str, Change] = {}
        self.cards: list[FindingCard] = []
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 8, 4, 4)
        layout.setSpacing(6)
        layout.addLayout(self._top())
        layout.addWidget(self._trouble_bar())
        layout.addWidget(self._list(), 1)
        self.setMinimumWidth(em(self, _WIDE))

    def _top(self) -> QVBoxLayout:
        top = QVBoxLayout()
        top.setSpacing(0)
        self.title, self.working = Label(bold=True), Label()
        self.title.setAccessibleName(say("Findings in short"))
        self.title.setWordWrap(True)
        self.working.setAccessibleName(say("Checking"))
        mark(self.working, "tone", "quiet")
        line = self.title.fontMetrics().lineSpacing()
        self.title.setFixedHeight(2 * line)  # so that a longer heading pushes nothing
        self.title.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.working.setFixedHeight(line + 2)
        top.addWidget(self.title)
        top.addWidget(self.working)
        return top

    def _trouble_bar(self) -> QFrame:
        self.trouble = QFrame()
        self.trouble.setObjectName("finding")
        mark(self.trouble, "level", "danger")
        layout = QVBoxLayout(self.trouble)
        self.trouble_text = Label()
        self.trouble_text.setWordWrap(True)
        self.trouble_text.setAccessibleName(say("Why nothing was checked"))
        again, details = QPushButton(say("Check again")), QPushButton(say("Details…"))
        again.clicked.connect(self.again)
        details.clicked.connect(self.troubled)
        row = QHBoxLayout()
        for button in (again, details):
            row.addWidget(button)
        row.addStretch(1)
        layout.addWidget(self.trouble_text)
        layout.addLayout(row)
        self.trouble.hide()
        return self.trouble

    def _list(self) -> Column:
        self.area = Column(say("Findings"))
        holder = QWidget()
        layout = QVBoxLayout(holder)
        layout.setContentsMargins(0, 0, 6, 8)
        layout.setSpacing(7)
        self._findings = QVBoxLayout()
        self._findings.setSpacing(7)
        layout.addLayout(self._findings)
        self._lists = Lists()
        self._lists.taken_back.connect(self.taken_back)
        layout.addLayout(self._lists)
        layout.addStretch(1)
        self.area.setWidget(holder)
        return self.area

    # showing

    def show_working(self, text: str) -> None:
        """A word on what the checking is doing, "" where it rests."""
        self.working.setText(text)

    def show_trouble(self, text: str) -> None:
        """Why there is no analysis that holds, "" where there is one."""
        self.trouble_text.setText(text)
        self.trouble.setVisible(bool(text))

    def show_analysis(self, design: Design, analysis: Analysis | None) -> None:
        """Show everything that was found. ``None``: nothing is known."""
        with self._unmoved():
            self.title.setText(heading(analysis, bool(design.parts)))
            findings = analysis.findings if analysis is not None else ()
            self._show_findings(findings, analysis.combinations if analysis is not None else 0)
            earlier = earlier_acceptances(analysis)
            for card in self.cards:
                found = card.finding
                card.show_earlier(earlier.get((found.rule, found.subjects)) if found else None)
            self._lists.show_sections(sections(design, analysis) if analysis is not None else [])

    @contextmanager
    def _unmoved(self) -> Iterator[None]:
        """What the pointer or the hand is on stays at its height, else what is seen first; who is
        at the top sees what comes in above."""
        lines = [*self._everything()]
        under = [line for line in lines if line.underMouse()]
        held = [line for line in lines if line.isAncestorOf(QApplication.focusWidget() or self)]
        held += [line for line in lines if line.hasFocus()]
        top = height_of(self.area)
        seen = [line for line in lines if height_of(line) + line.height() > top]
        if not self.area.verticalScrollBar().value():
            seen = []
        ahead = {line: height_of(line) for line in (*under[-1:], *held[-1:], *seen)}
        yield
        self.area.settle()
        there = set(self._everything())
        kept = next((line for line in ahead if line in there), None)
        self.area.keep(kept, ahead.get(kept, 0) if kept is not None else 0)

    def _everything(self) -> Iterator[QWidget]:
        """Every line, consequences after their cause, then what stands under the findings."""
        for number in range(self._findings.count()):
            item = self._findings.itemAt(number)
            card = item.widget() if item is not None else None
            if isinstance(card, FindingCard):
                yield from (card, *card.children_cards)
        yield from self._lists.lines

    def heading(self) -> str:
        """What stands over the findings."""
        return self.title.text()

    def show_mend(self, fingerprint: str, change: Change) -> None:
        """Offer a mend that was proven."""
        self.changes[fingerprint] = change
        self._show_mends()

    def forget_mends(self) -> None:
        """The design is another: what was proven need not hold any more."""
        self.changes.clear()
        self._show_mends()

    def _show_mends(self) -> None:
        with self._unmoved():
            for card in self.cards:
                card.show_mend()

    def _show_findings(self, findings: tuple[Finding, ...], states: int) -> None:
        """Each finding on the card that told it, or one of its rule and place, before."""
        before = [*self.cards]
        known = {(f.fingerprint, f.message): c for c in before if (f := c.finding) is not None}
        keys = {(f.fingerprint, f.message): f for f in findings}
        loose = {_place(c): c for key, c in known.items() if key not in keys}
        self.cards = []
        for key, finding in keys.items():
            card = known.get(key) or loose.pop(_place_of(finding), None) or self._new_card()
            acceptable = finding.rule not in self.cautions
            card.show_finding(finding, states, self.changes, self.by, acceptable)
            if finding.accepted is not None:
                card.close_form()
            self.cards.append(card)
        self._lay_out(self._with_gone())

    def _with_gone(self) -> list[FindingCard]:
        """The cards in order, and in their places those that are gone and that a hand is on."""
        order = [*self.cards]
        earlier: FindingCard | None = None
        for card in self._laid():
            if card in order:
                earlier = card
            elif card.in_hand:
                if not card.gone:
                    card.show_gone()
                order.insert(order.index(earlier) + 1 if earlier is not None else 0, card)
                earlier = card
        return order

    def _laid(self) -> list[FindingCard]:
        items = (self._findings.itemAt(number) for number in range(self._findings.count()))
        widgets = (item.widget() for item in items if item is not None)
        return [widget for widget in widgets if isinstance(widget, FindingCard)]

    def _lay_out(self, order: list[FindingCard]) -> None:
        for card in self._laid():
            if card not in order:
                self._findings.removeWidget(card)
                if card.isAncestorOf(QApplication.focusWidget() or self):
                    self.setFocus(Qt.FocusReason.OtherFocusReason)
                card.hide()
                card.deleteLater()
        for place, card in enumerate(order):
            if self._findings.indexOf(card) != place:
                self._findings.insertWidget(place, card)
            card.show()  # now: what a layout shows by itself later has no room until then

    def leaveEvent(self, event: QEvent) -> None:
        """The hand is elsewhere: what is gone goes."""
        super().leaveEvent(event)
        with self._unmoved():
            self._lay_out(self._with_gone())
        self.area.let_go()

    def _new_card(self) -> FindingCard:
        card = FindingCard()
        card.chosen.connect(self._choose)
        card.asked_why.connect(self.asked_why)
        card.state_wanted.connect(self.state_wanted)
        card.mend_wanted.connect(self.mend_wanted)
        card.accepted.connect(self.accepted)
        card.taken_back.connect(self.taken_back)
        card.stepped.connect(self._step)
        return card

    # the hand

    def every_card(self) -> Iterator[FindingCard]:
        """The cards from top to bottom, consequences after their cause."""
        for card in self.cards:
            yield card
            yield from card.children_cards

    def finding_at(self, widget: QWidget) -> Finding | None:
        """The finding on whose card a widget lies, of several the innermost."""
        on = [card for card in self.every_card() if card is widget or card.isAncestorOf(widget)]
        return on[-1].finding if on else None

    def _choose(self, finding: Finding) -> None:
        for card in self.every_card():
            mark(card, "chosen", "true" if card.finding is finding else "false")
        self.chosen.emit(finding)

    def _step(self, by: int) -> None:
        cards = list(self.every_card())
        focused = QApplication.focusWidget()
        at = next((n for n, card in enumerate(cards) if card is focused), None)
        if at is not None and 0 <= at + by < len(cards):
            cards[at + by].setFocus(Qt.FocusReason.TabFocusReason)
            self.area.ensureWidgetVisible(cards[at + by])

    def go_to(self, number: int) -> None:
        """Show the finding of this number and put the focus on it."""
        for card in self.cards:
            if card.finding is not None and card.finding.number == number:
                card.setFocus(Qt.FocusReason.OtherFocusReason)
                self.area.ensureWidgetVisible(card)
                self._choose(card.finding)

    def refuse_acceptance(self, finding: Finding, reason: str) -> None:
        """Say in its form why an acceptance was not taken."""
        for card in self.every_card():
            if card.finding is finding and card.form is not None:
                card.form.refuse(reason)


def _place(card: FindingCard) -> object:
    return _place_of(card.finding) if card.finding is not None else None


def _place_of(finding: Finding) -> object:
    return finding.rule, finding.subjects
