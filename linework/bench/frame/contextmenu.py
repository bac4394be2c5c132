"""The menu on a right click: what can be done where the pointer is."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QAction, QContextMenuEvent
from PySide6.QtWidgets import QMenu, QWidget

from linework.design import Design, Part, Run

if TYPE_CHECKING:
    from linework.bench.paper import Hit, SheetView

_LINE = ""
_ON_PART = ("card", _LINE, "cut", "copy", "duplicate", "remove", _LINE, "guide")
_ON_RUN = ("card", _LINE, "remove", _LINE, "guide")
_ON_OTHER = ("remove",)
_ON_SEVERAL = ("cut", "copy", "duplicate", "remove", _LINE, "interlock")
_ON_PAPER = ("paste", "choose_all", _LINE, "run", "note", _LINE, "find", "whole_page")


def on_right_click(design: Design, selection: tuple[str, ...], hit: Hit) -> tuple[str, ...]:
    """What stays or becomes chosen: all that was where the pointer is on it, else what is there."""
    there = hit.element if hit.element in design else ""
    return selection if there in selection else ((there,) if there else ())


def offered(design: Design, chosen: tuple[str, ...]) -> tuple[str, ...]:
    """The commands of the menu for what is chosen, a line between groups as ""."""
    if len(chosen) > 1:
        return _ON_SEVERAL
    element = design.get(chosen[0]) if chosen else None
    if isinstance(element, Part):
        return _ON_PART
    if isinstance(element, Run):
        return _ON_RUN
    return _ON_OTHER if element is not None else _ON_PAPER


def context_menu(names: tuple[str, ...], actions: Mapping[str, QAction], parent: QWidget) -> QMenu:
    """These commands as the menu bar has them, keys and all."""
    menu = QMenu(parent)
    menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    for name in names:
        if name == _LINE:
            menu.addSeparator()
        else:
            menu.addAction(actions[name])
    return menu


class RightClick(QObject):
    """Opens the menu on the sheet: where the pointer is, or by its key for what is chosen."""

    def __init__(self, view: SheetView, actions: Mapping[str, QAction]) -> None:
        super().__init__(view)
        self._view, self._actions = view, actions
        self.menu: QMenu | None = None
        view.viewport().installEventFilter(self)
        view.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The pointer's press comes to the viewport, the key's to the view."""
        if not isinstance(event, QContextMenuEvent) or self._view.busy:
            return False
        if event.reason() is not QContextMenuEvent.Reason.Keyboard:
            spot = self._view.mapToScene(event.pos()).toPoint()
            hit = self._view.surface.hit((spot.x(), spot.y()))
            self._view.select(on_right_click(self._view.design, self._view.selection, hit))
        names = offered(self._view.design, self._view.selection)
        self.menu = context_menu(names, self._actions, self._view)
        self.menu.destroyed.connect(self._gone)
        self.menu.popup(event.globalPos())
        return True

    def _gone(self) -> None:
        self.menu = None
