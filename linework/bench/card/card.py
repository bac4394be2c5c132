"""The card: what is known of the chosen part or run, floating beside it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from linework.bench.card import asked, seating
from linework.bench.card.drafts import drafts_of, take_up
from linework.bench.card.loose import Loose
from linework.bench.card.row import Field, Row, row_for
from linework.bench.card.seating import Spot
from linework.bench.card.seatrow import SeatRow, has_seats
from linework.bench.card.told import Told
from linework.bench.card.wires import read_wires, wires_text
from linework.bench.looks import Column, Label, em, mark, tip, true_height
from linework.design import Change, EditError, History, Part, Run
from linework.design.edits import rate, rate_run, rename, rename_run, retitle, set_poles
from linework.kinds import Answer, Values
from linework.words import say

if TYPE_CHECKING:
    from linework.analysis import Analysis
    from linework.study.report import StateReport

_WIDE = 30
"""Width in letters m."""


class Card(Loose):
    """Shows and edits one part or run through the history. ``closed`` when the hand shuts it."""

    closed = Signal()

    def __init__(self, history: History, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self.setAccessibleName(say("Card of the chosen part"))
        self.setAutoFillBackground(True)
        self.history = history
        self.element_id = ""
        self.rows: dict[str, Row] = {}
        self._unfolded = False
        self._seat: SeatRow | None = None
        self._fold_button: QToolButton | None = None
        self.wires: Field | None = None
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(10, 8, 10, 8)
        self._layout.setSpacing(5)
        self._head_row = self._head()
        self._layout.addLayout(self._head_row)
        self._layout.addWidget(self._middle())
        self.told = Told()
        self._layout.addWidget(self.told, 1)
        self.told.changed.connect(self.resized)
        self.hide()

    def _head(self) -> QHBoxLayout:
        head = QHBoxLayout()
        head.setSpacing(2)
        self.designation, self.title = Field(), Field()
        self.designation.setObjectName("heading")
        self.designation.setAccessibleName(say("Designation"))
        self.designation.setFixedWidth(em(self, 6))
        self.title.setAccessibleName(say("Title"))
        self.title.setObjectName("heading")
        self.title.setPlaceholderText(say("title"))
        self.designation.committed.connect(self._renamed)
        self.title.committed.connect(self._retitled)
        shut = QToolButton()
        shut.setObjectName("plain")
        shut.setText("✕")
        shut.setAccessibleName(say("Close the card"))
        shut.setToolTip(tip(say("Close the card (Esc)")))
        shut.clicked.connect(self.shut)
        for piece in (self.designation, self.title, shut):
            head.addWidget(piece)
        return head

    def _middle(self) -> Column:
        self._area = Column(say("Ratings"))
        return self._area

    # what is shown

    def set_history(self, history: History) -> None:
        """Work on another design."""
        self.element_id, self.history = "", history
        self.told.forget()
        self.hide()

    def show_element(self, element_id: str) -> None:
        """Show the part or run with this id; nothing where there is none."""
        if element_id != self.element_id:
            self.finish()
            self._unfolded = self.moved_by_hand = False
        self.element_id = element_id
        if not isinstance(self.history.design.get(element_id), Part | Run):
            self.element_id = ""
            self.hide()
            return
        self._build()
        self.show()
        self.resized.emit()

    def show_report(self, report: StateReport | None, why: str = "") -> None:
        """Show what the solver makes of it in this state (None: not known yet, or ``why`` not)."""
        self.told.report, self.told.why = report, why
        self._tell()

    def show_analysis(self, analysis: Analysis | None) -> None:
        """Show what is sound about it, and why; nothing while the drawing is judged anew."""
        self.told.analysis = analysis
        self._tell()

    def follow(self, change: Change) -> None:
        """Follow a change of the design."""
        if not self.element_id:
            return
        element = self.history.design.get(self.element_id)
        if element is None:
            self.element_id = ""
            self.hide()
        elif set(self._wanted()) != set(self.rows) or self._seats_moved(change):
            self._build()
        elif self.element_id in change.pairs or "settings" in change.pairs:
            self._fill()
        self._tell()

    def _seats_moved(self, change: Change) -> bool:
        return (
            self._seat is not None
            and any(not isinstance(after or before, Run) for before, after in change.pairs.values())
            and not (set(change.pairs) <= {self.element_id})
        )

    def finish(self) -> None:
        """Commit what was typed and not yet entered."""
        if self.isVisible() and self.element_id:
            for field in (self.designation, self.title):
                field.commit()
            for row in list(self.rows.values()):
                row.finish()

    def shut(self) -> None:
        """Close it."""
        self.finish()
        self.element_id = ""
        self.hide()
        self.closed.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape closes the card."""
        if event.key() == Qt.Key.Key_Escape:
            self.shut()
            return
        super().keyPressEvent(event)

    # rows

    def _element(self) -> Part | Run:
        element = self.history.design.get(self.element_id)
        if not isinstance(element, Part | Run):
            raise LookupError(self.element_id)
        return element

    def _values(self) -> Values:
        return asked.values_of(self.history.design, self._element())

    def _wanted(self) -> list[str]:
        return asked.wanted(self.history.design, self._element(), self._unfolded)

    def _build(self) -> None:
        design, element = self.history.design, self._element()
        declared = asked.declared(design, element)
        drafts = {name: drafts_of(piece) for name, piece in self._pieces().items()}
        holder = QWidget()
        grid = QGridLayout(holder)
        grid.setContentsMargins(0, 0, 4, 0)
        grid.setVerticalSpacing(3)
        grid.setColumnStretch(0, 5)
        grid.setColumnStretch(1, 7)
        self.rows = {}
        for number, key in enumerate(self._wanted()):
            row = row_for(declared[key], design.settings.family)
            row.edited.connect(self._edited)
            row.entered.connect(self._entered)
            row.place(grid, 2 * number + 2)
            self.rows[key] = row
        self._seat = (
            SeatRow(design, element)
            if isinstance(element, Part) and has_seats(design, element)
            else None
        )
        self._add_extras(grid, 2 * len(self.rows) + 2)
        self.kind_name, self.head_fault = Label(), Label()
        self._add_head_labels(grid)
        old = self._area.takeWidget()
        if old is not None:
            old.deleteLater()  # later: it may be one of its rows that is speaking
        self._area.setWidget(holder)
        self._area.fit()
        self._fill()
        self._fit(holder)
        for name, piece in self._pieces().items():
            take_up(piece, drafts.get(name, ()))

    def _pieces(self) -> dict[str, QWidget]:
        """What is made anew, by what it is about."""
        rest = {"\0seat": self._seat, "\0wires": self.wires, "\0fold": self._fold_button}
        return {**self.rows, **{name: piece for name, piece in rest.items() if piece is not None}}

    def take_focus(self) -> None:
        """Put the hand on the first rating, else on the title."""
        first = next(iter(self.rows.values()), None)
        if first is not None:
            first.take_focus()
        else:
            self.title.setFocus(Qt.FocusReason.OtherFocusReason)

    def _add_head_labels(self, grid: QGridLayout) -> None:
        mark(self.kind_name, "tone", "quiet")
        self.head_fault.setWordWrap(True)
        self.head_fault.setVisible(False)
        self.head_fault.setAccessibleName(say("Why this was refused"))
        mark(self.head_fault, "tone", "danger")
        grid.addWidget(self.kind_name, 0, 0, 1, 2)
        grid.addWidget(self.head_fault, 1, 0, 1, 2)

    def _add_extras(self, grid: QGridLayout, line: int) -> None:
        """Where it sits, which wire goes where, and the fold."""
        if self._seat is not None:
            plug = seating.moved_by_hand(self.history.design, self._element())  # type: ignore[arg-type]
            grid.addWidget(Label(say("Goes into") if plug else say("Sits in")), line, 0)
            grid.addWidget(self._seat, line, 1)
            self._seat.placed.connect(self._placed)
            self._seat.allowed.connect(self._allowed)
        self.wires = None
        if isinstance(self._element(), Run):
            self.wires = Field()
            self.wires.setAccessibleName(say("Wires"))
            told = say("Which conductor goes where, as L>L N>N PE>PE; empty: each to its own kind")
            self.wires.setToolTip(tip(told))
            self.wires.committed.connect(self._rewired)
            grid.addWidget(Label(say("Wires")), line, 0)
            grid.addWidget(self.wires, line, 1)
        self._fold_button = None
        quiet = asked.folded(self.history.design, self._element())
        if quiet:
            fold = self._fold_button = QToolButton()
            fold.setObjectName("plain")
            text = say("Fewer") if self._unfolded else say("{count} more…", count=len(quiet))
            fold.setText(text)
            fold.setAccessibleName(say("Ratings seldom asked: {text}", text=text))
            fold.clicked.connect(self._fold)
            grid.addWidget(fold, line + 1, 0, 1, 2)

    def _fold(self) -> None:
        self._unfolded = not self._unfolded
        self._build()
        self.resized.emit()

    def _fit(self, holder: QWidget) -> None:
        """As high as its rows, as long as the window has room for it."""
        self.setFixedWidth(em(self, _WIDE))
        margins = self._layout.contentsMargins()
        inner = self.width() - margins.left() - margins.right() - 2
        grid = holder.layout()
        if grid is not None:
            high = true_height(holder, grid, inner)
            self._area.setFixedHeight(min(high, max(self._sheet.height() // 2, em(self, 8))))

    def _refit(self) -> None:
        holder = self._area.widget()
        if holder is not None:
            self._fit(holder)
        self.resized.emit()

    def wanted_height(self) -> int:
        """How high it is with everything it says."""
        margins = self._layout.contentsMargins()
        inner = self.width() - margins.left() - margins.right() - 2
        told = max(self.told.wanted_height(inner), self.told.minimumHeight())
        high = self._head_row.sizeHint().height() + self._area.height() + told
        return high + 2 * self._layout.spacing() + margins.top() + margins.bottom() + 2

    def _fill(self) -> None:
        element, values = self._element(), self._values()
        self.designation.show_text(element.designation)
        is_part = isinstance(element, Part)
        self.title.setEnabled(is_part)
        self.title.show_text(element.title if isinstance(element, Part) else self._ends(element))
        family = self.history.design.settings.family
        kind = say("run")
        if isinstance(element, Part):
            kind = say(self.history.design.kind(element).name, family=family)
        self.kind_name.setText(kind)
        self.head_fault.setVisible(False)
        for row in self.rows.values():
            row.show_values(values)
        if self.wires is not None and isinstance(element, Run):
            self.wires.show_text(wires_text(element.poles))
            self.wires.setPlaceholderText(wires_text(None, self.history.design, element))

    def _ends(self, run: Run) -> str:
        design = self.history.design
        return say(
            "from {a} to {b}",
            a=design.part(run.a.part).designation,
            b=design.part(run.b.part).designation,
        )

    def _tell(self) -> None:
        if self.element_id:
            self.told.tell(self.history.design, self.element_id)

    def _entered(self, key: str) -> None:
        family = self.history.design.settings.family
        rating = asked.declared(self.history.design, self._element())[key]
        self.told.help_with(key, rating, self._values(), family)

    # edits

    def _edited(self, key: str, answer: Answer | None) -> None:
        edit = rate_run if isinstance(self._element(), Run) else rate
        refusal = self._do(lambda: edit(self.history.design, self.element_id, {key: answer}))
        row = self.rows.get(key)
        if row is not None:
            row.refuse(refusal)
        self._refit()

    def _renamed(self) -> None:
        edit = rename_run if isinstance(self._element(), Run) else rename
        text = self.designation.text()
        self._head_edit(lambda: edit(self.history.design, self.element_id, text))

    def _retitled(self) -> None:
        text = self.title.text()
        self._head_edit(lambda: retitle(self.history.design, self.element_id, text))

    def _placed(self, spot: Spot | None) -> None:
        part = self.history.design.part(self.element_id)
        self._head_edit(lambda: seating.put(self.history.design, part, spot))

    def _allowed(self, spot: Spot, on: bool) -> None:
        part = self.history.design.part(self.element_id)
        self._head_edit(lambda: seating.allow(self.history.design, part, spot, on))

    def _rewired(self) -> None:
        if self.wires is not None:
            text = self.wires.text()
            self._head_edit(
                lambda: set_poles(self.history.design, self.element_id, read_wires(text))
            )

    def _head_edit(self, make: Callable[[], Change]) -> None:
        refusal = self._do(make)
        self.head_fault.setText(refusal)
        self.head_fault.setVisible(bool(refusal))
        self._refit()

    def _do(self, make: Callable[[], Change]) -> str:
        """Carry an edit out; the reason where it is refused, and then nothing has changed."""
        try:
            self.history.do(make())
        except EditError as fault:
            return str(fault)
        return ""
