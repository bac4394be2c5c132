"""The hand on the sheet: one tool at a time, from the press to the release, or dropped."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, Qt
from PySide6.QtWidgets import QApplication

from linework.bench.paper.board import Board
from linework.bench.paper.hits import Hit
from linework.bench.paper.surface import Surface
from linework.bench.paper.tools import pointer
from linework.bench.paper.tools.pan import PanTool
from linework.bench.paper.tools.place import PlaceTool
from linework.bench.paper.tools.tool import Spot, Tool

Starter = Callable[[Surface, Spot, Hit], Tool | None]
"""What a press begins: see :mod:`~linework.bench.paper.tools.pointer`."""


def spot_of(point: QPointF, at: QPointF, modifiers: Qt.KeyboardModifier) -> Spot:
    """The spot at a point of the paper and of the window, with the keys that are held."""
    adds = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.ControlModifier
    asks = Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.ControlModifier
    return Spot(
        round(point.x()),
        round(point.y()),
        round(at.x()),
        round(at.y()),
        bool(modifiers & adds),
        bool(modifiers & asks),
    )


class Hand:
    """While a tool is at work nothing under it is laid out anew.

    ``starter``: what a press begins. ``pressed`` and ``hit``: where the last press was, and what
    lay there.
    """

    def __init__(self, view: Board, surface: Surface) -> None:
        self._view = view
        self._surface = surface
        self.starter: Starter = pointer.begin
        self.pressed = Spot(0, 0)
        self.hit = Hit("desk", 0, 0)
        self._tool: Tool | None = None
        self._begun = False
        self._carried: PlaceTool | None = None

    @property
    def at_work(self) -> bool:
        """Whether a tool was begun by a press."""
        return self._tool is not None

    @property
    def carries(self) -> bool:
        """Whether a part from the strip hangs on the pointer."""
        return self._carried is not None

    @property
    def pans(self) -> bool:
        """Whether it shifts the paper."""
        return isinstance(self._tool, PanTool)

    def press(self, spot: Spot, pans: bool) -> None:
        """Begin a tool; ``pans``: the one that shifts the paper, at once."""
        self.pressed, self.hit = spot, self._surface.hit(spot.at)
        self._view.sync.hold(True)
        if pans:
            self._tool = PanTool(self._surface, spot)
        else:
            self._tool = self.starter(self._surface, spot, self.hit)
        self._begun = pans
        if self._tool is None:
            self._view.sync.hold(False)

    def move(self, spot: Spot) -> None:
        """The tool follows, once the pointer is far enough from the press to mean it."""
        if self._tool is None:
            return
        far = abs(spot.px - self.pressed.px) + abs(spot.py - self.pressed.py)
        if self._begun or far >= QApplication.startDragDistance():
            self._begun = True
            self._tool.move(spot)

    def release(self, spot: Spot) -> bool:
        """The tool ends with at most one edit. True: the press went nowhere, it was a click."""
        tool, begun = self._tool, self._begun
        self._tool, self._begun = None, False
        try:
            if tool is not None and begun:
                tool.release(spot)
            elif tool is not None:
                tool.cancel()
        finally:
            self._view.sync.hold(False)
        return not begun

    def drop(self) -> None:
        """Drop what is being done: nothing has happened."""
        for tool in (self._tool, self._carried):
            if tool is not None:
                tool.cancel()
        self._tool = self._carried = None
        self._begun = False
        self._view.sync.hold(False)

    def carry(self, kind: str, spot: Spot) -> None:
        """A part of a kind comes from the strip."""
        self._view.sync.hold(True)
        self._carried = PlaceTool(self._surface, kind)
        self._carried.move(spot)

    def carry_on(self, spot: Spot) -> None:
        """It follows the pointer."""
        if self._carried is not None:
            self._carried.move(spot)

    def put_down(self, spot: Spot) -> None:
        """It is let go."""
        carried, self._carried = self._carried, None
        try:
            if carried is not None:
                carried.release(spot)
        finally:
            self._view.sync.hold(False)
