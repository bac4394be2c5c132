"""The findings, in the sheet's right margin; under them what was not checked, what is sound, what
was assumed. It follows the hand and never blocks it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from linework.bench.looks import Column, Label, em, mark
from linework.bench.margin.finding import FindingCard
from linework.bench.margin.text import Section, earlier_acceptances, heading, sections
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
        self.by = ""
        self.cautions: frozenset[str] = frozenset()
        self.changes: dict[str, Change] = {}
        self.cards: list[FindingCard] = []
        self._cards: dict[tuple[str, str], FindingCard] = {}
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
        self._lists = QVBoxLayout()
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
        self.title.setText(heading(analysis, bool(design.parts)))
        findings = analysis.findings if analysis is not None else ()
        self._show_findings(findings, analysis.combinations if analysis is not None else 0)
        earlier = earlier_acceptances(analysis)
        for card in self.cards:
            found = card.finding
            card.show_earlier(earlier.get((found.rule, found.subjects)) if found else None)
        self._show_lists(sections(design, analysis) if analysis is not None else [])
        self.area.settle()

    def heading(self) -> str:
        """What stands over the findings."""
        return self.title.text()

    def show_mend(self, fingerprint: str, change: Change) -> None:
        """Offer a mend that was proven."""
        self.changes[fingerprint] = change
        for card in self.cards:
            card.show_mend()

    def forget_mends(self) -> None:
        """The design is another: what was proven need not hold any more."""
        self.changes.clear()
        for card in self.cards:
            card.show_mend()

    def _show_findings(self, findings: tuple[Finding, ...], states: int) -> None:
        wanted = {(f.fingerprint, f.message): f for f in findings}
        for key in [key for key in self._cards if key not in wanted]:
            card = self._cards.pop(key)
            self._findings.removeWidget(card)
            card.hide()
            card.deleteLater()
        self.cards = []
        for place, (key, finding) in enumerate(wanted.items()):
            known = self._cards.get(key)
            card = known or self._new_card()
            self._cards[key] = card
            self._findings.insertWidget(place, card)
            card.show()  # now: what a layout shows by itself later has no room until then
            card.show_finding(
                finding, states, self.changes, self.by, finding.rule not in self.cautions
            )
            if finding.accepted is not None:
                card.close_form()
            self.cards.append(card)

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

    def _show_lists(self, found: list[Section]) -> None:
        while (item := self._lists.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for section in found:
            title = Label(section.title, bold=True)
            title.setContentsMargins(0, 8, 0, 0)
            title.setWordWrap(True)
            for line in (title, *self._lines(section)):
                self._lists.addWidget(line)
                line.show()

    def _lines(self, section: Section) -> Iterator[QWidget]:
        if not section.items:
            yield from (_line(text, section) for text in section.lines)
            return
        for text, item in zip(section.lines, section.items, strict=True):
            yield _line(text, section)
            forget = QPushButton(say("Take back"))
            forget.setAccessibleName(say("Take back: {what}", what=text))
            forget.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
            forget.clicked.connect(lambda _=False, item=item: self.taken_back.emit(item))
            yield forget

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


def _line(text: str, section: Section) -> Label:
    label = Label(f"{section.sign} {text}" if section.sign else text)
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    mark(label, "tone", section.tone)
    return label
