"""What the hand is at while the rows under it are made anew: half-typed text, caret, focus."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QLineEdit, QWidget

from linework.bench.card.row import Field


@dataclass(frozen=True)
class Draft:
    """One field, list or button. ``text``: what is typed and not yet entered, None for nothing."""

    focused: bool
    checked: bool = False
    text: str | None = None
    caret: int = 0
    selected: tuple[int, int] | None = None


def drafts_of(holder: QWidget) -> tuple[Draft, ...]:
    """What is in everything of a piece that goes. From now on it tells nothing: what is half typed
    is not entered because it is taken away."""
    pieces = tuple(_pieces(holder))
    found = tuple(map(_draft, pieces))
    for piece in pieces:
        piece.blockSignals(True)
    return found


def take_up(holder: QWidget, drafts: tuple[Draft, ...]) -> None:
    """Put it into the piece that stands for it now, if that asks the same."""
    pieces = tuple(_pieces(holder))
    if len(pieces) != len(drafts):
        return
    for piece, draft in zip(pieces, drafts, strict=True):
        if isinstance(piece, QAbstractButton) and piece.objectName() == "plain":
            piece.setChecked(draft.checked)
        if isinstance(piece, QLineEdit) and draft.text is not None:
            piece.setText(draft.text)
        if draft.focused:
            piece.setFocus(Qt.FocusReason.OtherFocusReason)
            if isinstance(piece, QLineEdit):
                piece.setCursorPosition(draft.caret)
                if draft.selected is not None:
                    piece.setSelection(*draft.selected)


def _pieces(holder: QWidget) -> Iterator[QWidget]:
    for piece in (holder, *holder.findChildren(QWidget)):
        if piece.focusPolicy() != Qt.FocusPolicy.NoFocus:
            yield piece


def _draft(piece: QWidget) -> Draft:
    if isinstance(piece, QLineEdit):
        pending = isinstance(piece, Field) and piece.pending
        marked = piece.hasSelectedText()
        return Draft(
            piece.hasFocus(),
            text=piece.text() if pending else None,
            caret=piece.cursorPosition(),
            selected=(piece.selectionStart(), len(piece.selectedText())) if marked else None,
        )
    checked = isinstance(piece, QAbstractButton) and piece.isChecked()
    return Draft(piece.hasFocus(), checked)
