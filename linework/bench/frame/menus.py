"""The menu bar, made from the menus that are data."""

from __future__ import annotations

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu

from linework.bench.frame.actions import MENUS, Item, Line, Menu, Sub
from linework.words import say


class Menus:
    """All actions by the name of the command that they give; ``subs`` are filled by the window."""

    def __init__(self, window: QMainWindow, commands: QObject) -> None:
        self._commands = commands
        self.actions: dict[str, QAction] = {}
        self.subs: dict[str, QMenu] = {}
        for menu in MENUS:
            self._add(window, menu)

    def _add(self, window: QMainWindow, menu: Menu) -> None:
        bar = window.menuBar().addMenu(say(menu.label))
        for entry in menu.entries:
            if isinstance(entry, Line):
                bar.addSeparator()
            elif isinstance(entry, Sub):
                self.subs[entry.name] = bar.addMenu(say(entry.label))
            else:
                action = _action(window, entry, self._commands)
                self.actions[entry.does] = action
                bar.addAction(action)


def _action(window: QMainWindow, item: Item, commands: QObject) -> QAction:
    action = QAction(say(item.label), window)
    action.setShortcuts([QKeySequence(keys) for keys in item.keys])
    action.setCheckable(item.check)
    if item.tip:
        action.setStatusTip(say(item.tip))
    action.triggered.connect(getattr(commands, f"do_{item.does}"))
    return action
