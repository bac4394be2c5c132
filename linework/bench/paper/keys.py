"""What keys do on the sheet. They work on what is chosen, or at the caret."""

from __future__ import annotations

from typing import Protocol

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QKeySequence

from linework.bench.paper import edits
from linework.bench.paper.board import Board
from linework.bench.paper.surface import Surface
from linework.design import Design
from linework.design.edits import remove
from linework.picture.geometry import MODULE, Point
from linework.words import say

_ARROWS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}
_FAR = 4
"""Grid steps of an arrow key with Shift."""


class Desk(Board, Protocol):
    """The view, as far as keys need it."""

    surface: Surface
    caret: Point | None

    @property
    def design(self) -> Design:
        """The design that is drawn on."""
        ...

    @property
    def busy(self) -> bool:
        """Whether a tool is at work."""
        ...

    def drop_tool(self) -> None:
        """Drop what the hand is doing."""
        ...

    def set_caret(self, at: Point | None) -> None:
        """Mark a point of the paper."""
        ...

    def open_typed(self, text: str = "") -> None:
        """Open the line to type in at the caret."""
        ...

    def open_element(self, element_id: str) -> None:
        """Tell that an element is to be opened."""
        ...

    def select_all(self) -> None:
        """Choose everything on the sheet."""
        ...

    def fit_page(self) -> None:
        """The whole paper in the window."""
        ...


def press(view: Desk, event: QKeyEvent) -> bool:
    """Do what a key asks for; False where it asks for nothing here."""
    key, modifiers = event.key(), event.modifiers()
    if key == Qt.Key.Key_Escape:
        _escape(view)
        return True
    if view.busy:
        return False
    if event.matches(QKeySequence.StandardKey.SelectAll):
        view.select_all()
        return True
    if key == Qt.Key.Key_0 and modifiers & Qt.KeyboardModifier.ControlModifier:
        view.fit_page()
        return True
    if key in _ARROWS:
        return _step(
            view, *_ARROWS[Qt.Key(key)], bool(modifiers & Qt.KeyboardModifier.ShiftModifier)
        )
    if view.selection:
        return _on_chosen(view, event)
    return _at_caret(view, event)


def _escape(view: Desk) -> None:
    """First the hand, then the caret, then what is chosen."""
    if view.busy:
        view.drop_tool()
    elif view.caret is not None:
        view.set_caret(None)
    else:
        view.select(())


def _step(view: Desk, dx: int, dy: int, far: bool) -> bool:
    step = MODULE * (_FAR if far else 1)
    if view.selection:
        chosen = view.selection
        view.surface.make(lambda: edits.move(view.design, chosen, dx * step, dy * step))
    elif view.caret is not None:
        x, y = view.caret
        view.set_caret((x + dx * step, y + dy * step))
    else:
        return False
    return True


def _on_chosen(view: Desk, event: QKeyEvent) -> bool:
    chosen, design = view.selection, view.design
    back = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
    plain = not event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier
    match event.key():
        case Qt.Key.Key_R if plain:
            view.surface.make(lambda: edits.turn(design, chosen, -1 if back else 1))
        case Qt.Key.Key_M if plain:
            view.surface.make(lambda: edits.turn(design, chosen, 0, flip=True))
        case Qt.Key.Key_Delete | Qt.Key.Key_Backspace:
            view.surface.make(lambda: remove(design, chosen))
        case Qt.Key.Key_Return | Qt.Key.Key_Enter if len(chosen) == 1:
            view.open_element(chosen[0])
        case _:
            return False
    return True


def _at_caret(view: Desk, event: QKeyEvent) -> bool:
    """Letters and figures open the line to type in; Enter opens it empty."""
    if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
        if view.caret is None:
            view.surface.refuse(say("click on the paper where the part should go, then type"))
        view.open_typed()
        return True
    text = event.text()
    held = event.modifiers() & (
        Qt.KeyboardModifier.ControlModifier
        | Qt.KeyboardModifier.AltModifier
        | Qt.KeyboardModifier.MetaModifier
    )
    if view.caret is None or held or not text.strip() or not text.isprintable():
        return False
    view.open_typed(text)
    return True
