"""One dialog for what goes wrong: what happened, the details to copy or save, and going on."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QPlainTextEdit,
    QVBoxLayout,
    QWidget,
)

from linework.bench.looks import Label, window_title
from linework.storage import StorageError, write_bytes
from linework.words import say


class TroubleDialog(QDialog):
    """Says a sentence and keeps the account of it under "Copy" and "Save as…"."""

    def __init__(self, title: str, text: str, details: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(window_title(title))
        self._details = details
        layout = QVBoxLayout(self)
        self.label = Label(text)
        self.label.setWordWrap(True)
        self.label.setMinimumWidth(self.fontMetrics().averageCharWidth() * 70)
        self.label.setAccessibleName(title)
        layout.addWidget(self.label)
        if details:
            layout.addWidget(self._box(details))
        self.told = Label()
        self.told.setWordWrap(True)
        self.told.setAccessibleName(say("What came of it"))
        layout.addWidget(self.told)
        layout.addWidget(self._buttons(bool(details)))

    def _box(self, details: str) -> QPlainTextEdit:
        box = QPlainTextEdit(details)
        box.setReadOnly(True)
        box.setTabChangesFocus(True)
        box.setAccessibleName(say("Details"))
        box.setMinimumHeight(self.fontMetrics().lineSpacing() * 10)
        return box

    def _buttons(self, with_details: bool) -> QDialogButtonBox:
        buttons = QDialogButtonBox()
        if with_details:
            copy = buttons.addButton(say("&Copy"), QDialogButtonBox.ButtonRole.ActionRole)
            copy.clicked.connect(self.copy)
            keep = buttons.addButton(say("&Save as…"), QDialogButtonBox.ButtonRole.ActionRole)
            keep.clicked.connect(self._ask_where)
        on = buttons.addButton(say("&Go on"), QDialogButtonBox.ButtonRole.AcceptRole)
        on.setDefault(True)
        buttons.accepted.connect(self.accept)
        return buttons

    def copy(self) -> None:
        """Put the account on the clipboard."""
        QGuiApplication.clipboard().setText(self._details)
        self.told.setText(say("Copied."))

    def _ask_where(self) -> None:
        name, _ = QFileDialog.getSaveFileName(self, say("Save as"), "linework-report.txt")
        if name:
            self.keep(Path(name))

    def keep(self, path: Path) -> None:
        """Write the account into a file."""
        try:
            write_bytes(self._details.encode(), path, keep=False)
        except StorageError as fault:
            self.told.setText(str(fault))
        else:
            self.told.setText(say("Written to {path}.", path=path))


def tell(title: str, text: str, details: str = "", parent: QWidget | None = None) -> None:
    """Show the dialog and wait until it is answered."""
    TroubleDialog(title, text, details, parent).exec()
