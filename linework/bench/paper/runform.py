"""A run drawn with the keyboard alone: from which terminal, to which, and which wire goes where."""

from __future__ import annotations

from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QVBoxLayout,
    QWidget,
)

from linework.bench.looks import Combo, Label, em, mark
from linework.bench.paper import edits
from linework.bench.paper.hits import terminals
from linework.bench.paper.pole_choice import PoleChoice, pole_choices, why_not_joined
from linework.design import Change, Design, EditError, End
from linework.design.names import natural
from linework.sheet.compose import Composition
from linework.words import say


class RunForm(QDialog):
    """Asks for both ends among the terminals of a sheet; says why where they cannot be joined.

    ``chosen``: parts at which it begins and ends at first. ``change`` is the edit, once accepted.
    """

    def __init__(
        self,
        design: Design,
        layout: Composition,
        chosen: tuple[str, ...],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._design = design
        self.change: Change | None = None
        self._choices: tuple[PoleChoice, ...] = ()
        self.setWindowTitle(say("A run"))
        self.setMinimumWidth(em(self, 40))
        column, form = QVBoxLayout(self), QFormLayout()
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        column.addLayout(form)
        found = [end for end, _ in terminals(design, layout.drawings.values())]
        ends = sorted(found, key=lambda end: natural(design.part(end.part).designation))
        self.start, self.goal = self._ends(say("From"), ends), self._ends(say("To"), ends)
        self.wires = Combo(say("Which wire goes where"))
        for name, box in (
            (say("From"), self.start),
            (say("To"), self.goal),
            (say("Which wire goes where"), self.wires),
        ):
            form.addRow(name, box)
        self.fault = Label()
        self.fault.setWordWrap(True)
        self.fault.setAccessibleName(say("Why this was refused"))
        mark(self.fault, "tone", "danger")
        column.addWidget(self.fault)
        self._yes = self._buttons(column)
        self._begin(chosen)

    def _ends(self, name: str, ends: list[End]) -> Combo:
        box = Combo(name)
        for end in ends:
            part = self._design.part(end.part)
            what = f"{part.designation} {part.title}".strip()
            box.addItem(say("{part}: {terminal}", part=what, terminal=end.terminal), end)
        box.currentIndexChanged.connect(self._look)
        return box

    def _buttons(self, column: QVBoxLayout) -> QWidget:
        buttons = QDialogButtonBox()
        yes = buttons.addButton(say("&Draw"), QDialogButtonBox.ButtonRole.AcceptRole)
        yes.setDefault(True)
        buttons.addButton(say("&Leave"), QDialogButtonBox.ButtonRole.RejectRole)
        buttons.accepted.connect(self.try_it)
        buttons.rejected.connect(self.reject)
        column.addWidget(buttons)
        return yes

    def _begin(self, chosen: tuple[str, ...]) -> None:
        """At the chosen parts, by the first terminals that fit each other."""
        boxes = (self.start, self.goal)
        tries = [
            [n for n in range(box.count()) if not part or box.itemData(n).part == part]
            for box, part in zip(boxes, (*chosen, "", "")[:2], strict=False)
        ]
        pairs = [(a, b) for a in tries[0] for b in tries[1] if self._fits(a, b)]
        first = pairs[0] if pairs else tuple(found[0] if found else 0 for found in tries)
        for box, number in zip(boxes, first, strict=True):
            box.setCurrentIndex(number)
        self._look()

    def _fits(self, a: int, b: int) -> bool:
        return bool(pole_choices(self._design, self.start.itemData(a), self.goal.itemData(b)))

    def _look(self) -> None:
        """What the two ends allow."""
        a, b = self.start.currentData(), self.goal.currentData()
        known = isinstance(a, End) and isinstance(b, End)
        self._choices = pole_choices(self._design, a, b) if known else ()
        self.wires.clear()
        self.wires.addItems([choice.label for choice in self._choices])
        self.wires.setEnabled(len(self._choices) > 1)
        self.fault.setText(why_not_joined(self._design, a, b) if known else "")
        self._yes.setEnabled(bool(self._choices))

    def try_it(self) -> None:
        """Take the run, or say what is wrong with it."""
        choice = self._choices[max(self.wires.currentIndex(), 0)]
        ends = self.start.currentData(), self.goal.currentData()
        try:
            self.change = edits.join(self._design, *ends, choice.poles, choice.circuit)
        except EditError as fault:
            self.fault.setText(str(fault))
            return
        self.accept()
