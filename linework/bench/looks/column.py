"""A column that scrolls up and down and is never wider than its view: its lines wrap instead."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget

from linework.bench.looks.colors import true_height


class Column(QScrollArea):
    """Holds one widget of its own width."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Also when the scroll bar comes or goes."""
        super().resizeEvent(event)
        self.fit()

    def settle(self) -> None:
        """Lay everything out now, so that nothing new is painted squeezed before it has room."""
        held = self.widget()
        layout = held.layout() if held is not None else None
        if held is not None and layout is not None:
            held.resize(held.width(), true_height(held, layout))
            layout.activate()

    def fit(self) -> None:
        """Make the widget as wide as the view."""
        held = self.widget()
        if held is not None:
            held.setFixedWidth(self.viewport().width())
