"""Shifts the sheet under the window."""

from __future__ import annotations

from PySide6.QtCore import QPoint

from linework.bench.paper.surface import Surface
from linework.bench.paper.tools.tool import Spot, Tool


class PanTool(Tool):
    """The hand on the paper."""

    def __init__(self, surface: Surface, start: Spot) -> None:
        self._surface = surface
        self._last = (start.px, start.py)

    def move(self, spot: Spot) -> None:
        """The paper follows."""
        x, y = self._last
        self._last = (spot.px, spot.py)
        self._surface.scroll(QPoint(spot.px - x, spot.py - y))
