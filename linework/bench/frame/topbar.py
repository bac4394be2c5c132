"""The plain row above everything: what the job is called, how its file stands, the main actions."""

from __future__ import annotations

from PySide6.QtCore import QTimer
from PySide6.QtGui import QAccessible, QAccessibleEvent, QAction
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QSizePolicy, QWidget

from linework.bench.looks import Label, mark, tip
from linework.words import say

NOTICE_MS = 9000


class TopBar(QFrame):
    """``show_*`` say; the buttons do what their actions do."""

    def __init__(self, actions: dict[str, QAction], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("band")
        self.setAccessibleName(say("Job and file"))
        row = QHBoxLayout(self)
        row.setContentsMargins(12, 5, 10, 5)
        row.setSpacing(8)
        self.job, self.file, self.notice = Label(bold=True), Label(), Label()
        self.job.setAccessibleName(say("Job"))
        self.file.setAccessibleName(say("File"))
        self.notice.setAccessibleName(say("Notice"))
        mark(self.file, "tone", "quiet")
        self.notice.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        row.addWidget(self.job)
        row.addWidget(self.file)
        row.addWidget(self.notice, 1)
        self.buttons: dict[str, QPushButton] = {}
        for name, text in (
            ("undo", say("Undo")),
            ("redo", say("Redo")),
            ("walk", say("Walk the states")),
            ("hand_over", say("Drawing set…")),
        ):
            button = self._button(actions[name], text)
            self.buttons[name] = button
            row.addWidget(button)
        self.buttons["hand_over"].setObjectName("main")
        self._fade = QTimer(self, singleShot=True, interval=NOTICE_MS)
        self._fade.timeout.connect(lambda: self.notice.setText(""))

    def _button(self, action: QAction, text: str) -> QPushButton:
        button = QPushButton(text)
        button.setAccessibleName(text)
        button.clicked.connect(action.trigger)
        keys = action.shortcut().toString()

        def follow() -> None:
            button.setEnabled(action.isEnabled())
            told = action.statusTip() or action.iconText()
            button.setToolTip(tip(f"{told} ({keys})" if keys else told))

        action.changed.connect(follow)
        follow()
        return button

    def show_document(self, job: str, file: str, state: str) -> None:
        """Name of the job, of the file, and how it stands."""
        self.job.setText(job or say("Untitled"))
        self.file.setText(f"{file} · {state}" if file else state)

    def tell(self, text: str, danger: bool = False) -> None:
        """A line that goes away by itself; those who listen hear it."""
        mark(self.notice, "tone", "danger" if danger else "")
        line = " ".join(text.split())
        self.notice.setText(line)
        self.notice.setToolTip(tip(text))
        self.notice.setAccessibleDescription(line)
        QAccessible.updateAccessibility(QAccessibleEvent(self.notice, QAccessible.Event.Alert))
        self._fade.start()
