"""One rating on the card: its label, its editor, and beneath it why a text was refused."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QCompleter,
    QGridLayout,
    QHBoxLayout,
    QLineEdit,
    QToolButton,
    QWidget,
)

from linework.bench.card import answers
from linework.bench.looks import Combo, Label, mark, paint_assumed, tip
from linework.codes.plugs import configurations
from linework.kinds import Answer, Band, Rating, Values
from linework.quantity import AWG_SIZES
from linework.words import say


class Row(QWidget):
    """``edited`` (key, answer) when a person has finished; ``entered`` (key): the hand is here."""

    edited = Signal(str, object)
    entered = Signal(str)

    def __init__(self, rating: Rating, family: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rating, self.family = rating, family
        self.name = say(rating.label, family=family)
        self.label = Label(self.name)
        self.label.setWordWrap(True)
        self.fault = Label()
        self.fault.setWordWrap(True)
        self.fault.setVisible(False)
        self.fault.setAccessibleName(say("Why this was refused"))
        mark(self.fault, "tone", "danger")

    def place(self, grid: QGridLayout, line: int) -> None:
        """Lay the row into two lines of a grid."""
        grid.addWidget(self.label, line, 0, Qt.AlignmentFlag.AlignVCenter)
        grid.addWidget(self, line, 1)
        grid.addWidget(self.fault, line + 1, 0, 1, 2)

    def show_values(self, values: Values) -> None:
        """Show what holds now."""
        raise NotImplementedError

    def refuse(self, reason: str) -> None:
        """Mark the row, with the reason beneath it."""
        self.fault.setText(reason)
        self.fault.setVisible(bool(reason))

    def finish(self) -> None:
        """Commit what was typed and not yet entered."""

    def take_focus(self) -> None:
        """Put the hand on the editor."""
        buddy = self.label.buddy()
        if buddy is not None:
            buddy.setFocus(Qt.FocusReason.OtherFocusReason)

    def _watch(self, widget: QWidget) -> None:
        widget.setAccessibleName(self.name)
        widget.setAccessibleDescription(say(self.rating.help, family=self.family))
        widget.installEventFilter(self)
        if self.label.buddy() is None:
            self.label.setBuddy(widget)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Tell when the hand comes to the row."""
        if event.type() is QEvent.Type.FocusIn:
            self.entered.emit(self.rating.key)
        return super().eventFilter(watched, event)


class ChoiceRow(Row):
    """A list to choose from."""

    def __init__(self, rating: Rating, family: str, parent: QWidget | None = None) -> None:
        super().__init__(rating, family, parent)
        self._options: list[answers.Option] = []
        self.box = Combo(self.name)
        self.box.activated.connect(self._picked)
        self._watch(self.box)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.box)

    def show_values(self, values: Values) -> None:
        """Show what can be chosen and what holds."""
        self._options = answers.options(self.rating, values, self.family)
        self.box.clear()
        self.box.addItems([option.label for option in self._options])
        for number, option in enumerate(self._options):
            self.box.setItemData(number, tip(option.label), Qt.ItemDataRole.ToolTipRole)
        self.box.setCurrentIndex(answers.chosen(self.rating, values, self._options))
        self._dress()

    def _dress(self) -> None:
        option = self._options[self.box.currentIndex()]
        paint_assumed(self.box, option.assumed)
        self.box.setToolTip(tip(option.label))

    def _picked(self, number: int) -> None:
        self._dress()
        self.edited.emit(self.rating.key, self._options[number].answer)


class Field(QLineEdit):
    """A line that commits on Enter and on leaving, and goes back on Escape."""

    committed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shown = ""
        self.editingFinished.connect(self.commit)

    def show_text(self, text: str) -> None:
        """Show a text as the one that holds; what the hand is typing here stays."""
        typing = self.hasFocus() and self.pending
        self._shown = text
        if not typing and text != self.text():
            self.setText(text)
            self.setCursorPosition(0)

    @property
    def pending(self) -> bool:
        """Whether something else was typed than what holds."""
        return self.text() != self._shown

    def commit(self) -> None:
        """Tell that a person has finished, if something was typed."""
        if self.pending:
            self._shown = self.text()
            self.committed.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape brings the text back that holds."""
        if event.key() == Qt.Key.Key_Escape and self.pending:
            self.setText(self._shown)
            return
        super().keyPressEvent(event)


class TextRow(Row):
    """A text with its unit; on demand three of them: low, usual, high."""

    def __init__(self, rating: Rating, family: str, parent: QWidget | None = None) -> None:
        super().__init__(rating, family, parent)
        self.one = Field()
        self.three = (Field(), Field(), Field())
        self._values: Values | None = None
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        self._watch(self.one)
        self.one.committed.connect(self._one_committed)
        layout.addWidget(self.one)
        for field, name in zip(self.three, (say("low"), say("usual"), say("high")), strict=True):
            self._watch(field)
            field.setAccessibleName(f"{self.name}, {name}")
            field.setToolTip(tip(name))
            field.committed.connect(self._three_committed)
            field.setVisible(False)
            layout.addWidget(field)
        self.more = self._toggle()
        layout.addWidget(self.more)
        self._complete()

    def _toggle(self) -> QToolButton:
        more = QToolButton()
        more.setObjectName("plain")
        more.setText("±")
        more.setCheckable(True)
        told = say("Three figures where you know only a band: low, usual, high")
        more.setToolTip(tip(told))
        more.setAccessibleName(say("{label}: three figures", label=self.name))
        if not answers.takes_three(self.rating):
            more.hide()  # never shown here: without a parent it would be a window of its own
        more.toggled.connect(self._unfold)
        return more

    def _complete(self) -> None:
        words = {
            "size": list(AWG_SIZES),
            "configuration": list(configuration_names()),
        }.get(self.rating.quantity if not self.rating.choices else "", [])
        if words:
            completer = QCompleter(words, self.one)
            completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
            completer.setFilterMode(Qt.MatchFlag.MatchContains)
            self.one.setCompleter(completer)

    def show_values(self, values: Values) -> None:
        """Show the text, or the three; an empty field hints at what stands in."""
        self._values = values
        self.refuse("")
        now = values.ratings.get(self.rating.key)
        hint = answers.hint(self.rating, values, self.family)
        self.one.setPlaceholderText(hint.text)
        mark(self.one, "assumed", "true" if hint.assumed and now is None else "false")
        for field, text in zip(
            self.three, answers.hints_of_three(self.rating, values), strict=True
        ):
            field.setPlaceholderText(text)
        self.more.setChecked(isinstance(now, Band))
        if isinstance(now, Band):
            self._show_band((now.low, now.usual, now.high))
        else:
            self._show_band(("", "", ""))
        self.one.show_text(answers.shown(self.rating, now, self.family) if now is not None else "")

    def _show_band(self, texts: tuple[str, str, str]) -> None:
        for field, text in zip(self.three, texts, strict=True):
            field.show_text(text)

    def _unfold(self, three: bool) -> None:
        self.one.setVisible(not three)
        for field in self.three:
            field.setVisible(three)

    def refuse(self, reason: str) -> None:
        """Mark the fields too."""
        super().refuse(reason)
        for field in (self.one, *self.three):
            mark(field, "wrong", "true" if reason else "false")

    def finish(self) -> None:
        """Commit the fields that can be seen."""
        for field in (self.one, *self.three):
            if not field.isHidden():
                field.commit()

    def _one_committed(self) -> None:
        self.refuse("")
        self.edited.emit(self.rating.key, answers.typed(self.rating, self.one.text()))

    def _three_committed(self) -> None:
        texts = [" ".join(field.text().split()) for field in self.three]
        if not any(texts):
            self.refuse("")
            self.edited.emit(self.rating.key, None)
        elif all(texts):
            self.refuse("")
            answer: Answer | None = answers.typed(self.rating, " / ".join(texts))
            self.edited.emit(self.rating.key, answer)
        else:
            self.fault.setText(say("Low, usual and high figure are all needed."))
            self.fault.setVisible(True)


def configuration_names() -> tuple[str, ...]:
    """The plug configurations that the tables know."""
    return configurations()


def row_for(rating: Rating, family: str, parent: QWidget | None = None) -> Row:
    """The editor that fits a rating."""
    return (ChoiceRow if rating.choices else TextRow)(rating, family, parent)
