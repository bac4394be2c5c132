"""Goes through what was assumed, one question after the other, by the keyboard alone."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from linework.bench.card import Row, row_for
from linework.bench.looks import Label, em, mark, true_height
from linework.design import Change, Design, EditError, Part, Run
from linework.design.change import merged
from linework.design.edits import rate, rate_run
from linework.findings.questions import Question
from linework.kinds import RUN_RATINGS, Answer, Values
from linework.words import say, say_count

_EDGE = 16
_FEW = 6
"""So many names are told."""


class AssumedSlip(QFrame):
    """``shown`` (ids): the places of the question; ``left``: it is put away.

    ``design``: the one that is worked on now; ``carry_out``: makes an edit, and raises EditError
    where it is refused.
    """

    shown = Signal(object)
    left = Signal()

    def __init__(
        self, design: Callable[[], Design], carry_out: Callable[[Change], None], sheet: QWidget
    ) -> None:
        super().__init__(sheet)
        self._design, self._carry_out = design, carry_out
        self.questions: tuple[Question, ...] = ()
        self.at = 0
        self.row: Row | None = None
        self._spoken = False
        """An answer was given just now: the Enter that gave it comes by here too."""
        self.setObjectName("card")
        self.setAccessibleName(say("What is assumed"))
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(14, 10, 14, 12)
        self._layout.setSpacing(6)
        self.count, self.title, self.help = Label(), Label(bold=True), Label()
        self.weight, self.taken = Label(), Label()
        for label, tone in (
            (self.count, "quiet"),
            (self.title, ""),
            (self.weight, "danger"),
            (self.help, ""),
            (self.taken, "quiet"),
        ):
            label.setWordWrap(True)
            mark(label, "tone", tone or "none")
            self._layout.addWidget(label)
        self._editor = QVBoxLayout()
        self._layout.addLayout(self._editor)
        self._buttons()
        self.setFixedWidth(em(self, 34))
        self.hide()

    def _buttons(self) -> None:
        line = QHBoxLayout()
        self.so = self._button(line, say("It is so"), self._is_so)
        self.later = self._button(line, say("Ask me later"), lambda: self.step(1))
        self.back = self._button(line, say("Back"), lambda: self.step(-1))
        line.addStretch(1)
        self.close_button = self._button(line, say("Close"), self.end)
        self._layout.addLayout(line)

    def _button(self, line: QHBoxLayout, text: str, slot: Callable[[], object]) -> QPushButton:
        button = QPushButton(text)
        button.clicked.connect(lambda _=False: slot())
        line.addWidget(button)
        return button

    # going through

    def begin(self, questions: tuple[Question, ...]) -> None:
        """Ask these; their order stays while it is open."""
        self.questions, self.at = questions, 0
        self._show()
        self.show()
        self.raise_()

    def end(self) -> None:
        """Put it away; what was left stays in brackets."""
        self.hide()
        self.left.emit()

    def step(self, by: int) -> None:
        """To another question; past the last it is put away."""
        self.at = max(self.at + by, 0)
        if self.at >= len(self.questions):
            self.end()
            return
        self._show()

    @property
    def _here(self) -> list[Part | Run]:
        """What is asked about and still there."""
        found = (self._design().get(s) for s in self.questions[self.at].subjects)
        return [each for each in found if isinstance(each, Part | Run)]

    def _values(self, element: Part | Run) -> Values:
        design = self._design()
        if isinstance(element, Run):
            return design.run_values(element)
        return design.values(element)

    # showing

    def _show(self) -> None:
        here = self._here
        if not here:
            self.step(1)
            return
        question, values = self.questions[self.at], self._values(here[0])
        rating = values.declared[question.key]
        family = self._design().settings.family
        whole = len(self.questions)
        self.count.setText(say("Question {number} of {count}", number=self.at + 1, count=whole))
        self.title.setText(f"{_names(question)}: {question.label}")
        self.help.setText(say(rating.help, family=family) if rating.help else "")
        self.help.setVisible(bool(rating.help))
        told = say("Taken: [{value}], {source}", value=question.value, source=question.source)
        self.taken.setText(told)
        self._show_weight(question)
        self._show_row(row_for(rating, family), values)
        self.so.setVisible(isinstance(values.answer(question.key), str))
        self.back.setEnabled(self.at > 0)
        self.shown.emit(tuple(each.id for each in here))
        self._settle()

    def _show_weight(self, question: Question) -> None:
        numbers = ", ".join(map(str, question.numbers))
        told = say_count(
            "Finding {numbers} stands there.",
            "Findings {numbers} stand there.",
            len(question.numbers),
            numbers=numbers,
        )
        self.weight.setText(told)
        self.weight.setVisible(bool(numbers))

    def _show_row(self, row: Row, values: Values) -> None:
        holder = QWidget()
        grid = QGridLayout(holder)
        grid.setContentsMargins(0, 0, 0, 0)
        row.place(grid, 0)
        row.show_values(values)
        row.edited.connect(self._edited)
        while (item := self._editor.takeAt(0)) is not None:
            old = item.widget()
            if old is not None:
                old.hide()
                old.deleteLater()  # later: it may be what is speaking
        self._editor.addWidget(holder)
        holder.show()
        self.row = row
        QTimer.singleShot(0, row, self._laid)

    def _laid(self) -> None:
        """A new row knows its height only once it was laid out."""
        self._settle()
        if self.row is not None:
            self.row.take_focus()

    def _settle(self) -> None:
        """At the lower left of the sheet, as high as it must be."""
        sheet = self.parentWidget()
        least = self._layout.totalMinimumSize().height()
        self.resize(self.width(), max(true_height(self, self._layout), least))
        if sheet is not None:
            self.move(_EDGE, max(sheet.height() - self.height() - _EDGE, _EDGE))

    # answers

    def _is_so(self) -> None:
        key = self.questions[self.at].key
        answer = self._values(self._here[0]).answer(key)
        self._edited(key, answer)

    def _edited(self, key: str, answer: Answer | None) -> None:
        """Give the answer to all at once, as one edit, and go on; or say why it is refused."""
        if answer is None or key != self.questions[self.at].key:
            return
        self._spoken = True
        QTimer.singleShot(0, self, self._listen)
        try:
            self._carry_out(_given(self._design(), self._here, key, answer))
        except EditError as fault:
            if self.row is not None:
                self.row.refuse(str(fault))
            self._settle()
            return
        self.step(1)

    def _listen(self) -> None:
        self._spoken = False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape leaves; Enter on nothing given asks later; Page keys go to and fro."""
        match event.key():
            case Qt.Key.Key_Escape:
                self.end()
            case Qt.Key.Key_Return | Qt.Key.Key_Enter if self._spoken:
                pass
            case Qt.Key.Key_Return | Qt.Key.Key_Enter | Qt.Key.Key_PageDown:
                self.step(1)
            case Qt.Key.Key_PageUp:
                self.step(-1)
            case _:
                super().keyPressEvent(event)


def _names(question: Question) -> str:
    names = list(dict.fromkeys(question.names))
    if len(names) <= _FEW:
        return ", ".join(names)
    return say("{names} and {count} more", names=", ".join(names[:_FEW]), count=len(names) - _FEW)


def _given(design: Design, elements: list[Part | Run], key: str, answer: Answer) -> Change:
    """One answer on several. EditError where it does not fit one of them."""
    changes = [
        rate_run(design, each.id, {key: answer})
        if isinstance(each, Run)
        else rate(design, each.id, {key: answer})
        for each in elements
    ]
    declared = RUN_RATINGS if isinstance(elements[0], Run) else design.kind(elements[0]).declared
    label = say(declared[key].label, family=design.settings.family)
    return merged(say("give {what}", what=label), *changes)
