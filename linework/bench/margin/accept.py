"""Accepting a finding: the reason, who says so, and the date."""

from __future__ import annotations

from PySide6.QtCore import QDate, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QGridLayout, QLineEdit, QPushButton, QWidget

from linework.bench.looks import Label, mark
from linework.words import say


class AcceptForm(QWidget):
    """``given`` (reason, by, date); ``left`` when it was thought better of."""

    given = Signal(str, str, str)
    left = Signal()

    def __init__(self, by: str, reason: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 4, 0, 0)
        self.reason, self.by = QLineEdit(reason), QLineEdit(by)
        self.reason.selectAll()
        self.reason.setAccessibleName(say("Reason"))
        self.reason.setPlaceholderText(say("why this may stay as it is"))
        self.by.setAccessibleName(say("Accepted by"))
        self.fault = Label()
        self.fault.setWordWrap(True)
        self.fault.setAccessibleName(say("Why this was refused"))
        mark(self.fault, "tone", "danger")
        self.fault.hide()
        yes, no = QPushButton(say("Accept")), QPushButton(say("Leave"))
        yes.clicked.connect(self.give)
        no.clicked.connect(self.left)
        self.reason.returnPressed.connect(self.give)
        self.by.returnPressed.connect(self.give)
        grid.addWidget(Label(say("Reason")), 0, 0)
        grid.addWidget(self.reason, 0, 1, 1, 2)
        grid.addWidget(Label(say("By")), 1, 0)
        grid.addWidget(self.by, 1, 1, 1, 2)
        grid.addWidget(self.fault, 2, 0, 1, 3)
        grid.addWidget(yes, 3, 1, Qt.AlignmentFlag.AlignLeft)
        grid.addWidget(no, 3, 2, Qt.AlignmentFlag.AlignLeft)
        grid.setColumnStretch(2, 1)

    def give(self) -> None:
        """Hand it over; whoever listens refuses with ``refuse``."""
        today = QDate.currentDate().toString(Qt.DateFormat.ISODate)
        self.given.emit(self.reason.text().strip(), self.by.text().strip(), today)

    def refuse(self, reason: str) -> None:
        """Say why it was not taken."""
        self.fault.setText(reason)
        self.fault.show()
        self.reason.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape leaves the form."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
            return
        super().keyPressEvent(event)
