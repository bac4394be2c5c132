"""A column that scrolls up and down and is never wider than its view: its lines wrap instead."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
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
        self.blank = (0, 0)

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

    def keep(self, anchor: QWidget | None, before: int) -> None:
        """Scroll so that a line that stood at a height of the screen stands there still. Where the
        column ends too soon for that, blank room above or below makes up for it."""
        held = self.widget()
        layout = held.layout() if held is not None else None
        if held is None or layout is None or anchor is None:
            return
        bar, margins = self.verticalScrollBar(), layout.contentsMargins()
        wanted = bar.value() + height_of(anchor) - before
        above = max(-wanted, 0)
        below = max(wanted - (held.height() - self.viewport().height()), 0)
        if above or below:
            margins.setTop(margins.top() + above)
            margins.setBottom(margins.bottom() + below)
            layout.setContentsMargins(margins)
            self.blank = self.blank[0] + above, self.blank[1] + below
            self.settle()
        bar.setRange(0, max(held.height() - self.viewport().height(), 0))
        bar.setValue(max(wanted, 0))

    def let_go(self) -> None:
        """The hand is elsewhere: blank room is not needed any more."""
        held = self.widget()
        layout = held.layout() if held is not None else None
        if layout is None or self.blank == (0, 0):
            return
        margins, (above, below) = layout.contentsMargins(), self.blank
        margins.setTop(margins.top() - above)
        margins.setBottom(margins.bottom() - below)
        layout.setContentsMargins(margins)
        self.blank = 0, 0
        self.settle()

    def fit(self) -> None:
        """Make the widget as wide as the view."""
        held = self.widget()
        if held is not None:
            held.setFixedWidth(self.viewport().width())


def height_of(line: QWidget) -> int:
    """Where the upper edge of something is on the screen, in pixels."""
    return line.mapToGlobal(QPoint(0, 0)).y()
