"""What a tool may see and do: the sheet, the ghost over it, and one edit at the end."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QGraphicsItem

from linework.bench.paper.board import Board
from linework.bench.paper.hits import Hit, hit
from linework.bench.paper.overlay import (
    CaretItem,
    FieldItem,
    Figure,
    GhostItem,
    LinesItem,
    Lit,
    LitItem,
)
from linework.design import Change, Design, EditError
from linework.picture.geometry import MODULE, Box, Point
from linework.sheet.compose import Composition


class Surface:
    """The hands' side of a view. Points are in tenths of a paper millimetre."""

    def __init__(self, view: Board) -> None:
        self._view = view
        self._ghost: GhostItem | None = None
        self._lines: LinesItem | None = None
        self._lit: LitItem | None = None
        self._field: FieldItem | None = None
        self._caret: CaretItem | None = None

    # seeing

    @property
    def design(self) -> Design:
        """The design that is drawn on."""
        return self._view.history.design

    @property
    def layout(self) -> Composition:
        """The sheet as it lies."""
        layout = self._view.sheet_scene.layout
        assert layout is not None, "a view always shows a sheet"
        return layout

    @property
    def sheet(self) -> int:
        """The number of the sheet that is shown."""
        return self._view.sync.sheet

    @property
    def selection(self) -> tuple[str, ...]:
        """The chosen elements."""
        return self._view.selection

    @property
    def slop(self) -> int:
        """How near is near enough for thin things, at this zoom."""
        return self._view.slop

    @property
    def visible(self) -> Box:
        """The part of the sheet that is in view."""
        return self._view.visible_box

    def hit(self, at: Point) -> Hit:
        """What lies at a point."""
        return hit(self.design, self.layout, at, self.slop)

    # showing

    def show_ghost(self, figures: Iterable[Figure]) -> None:
        """Show symbols that follow the pointer, in place of those before."""
        self._drop(self._ghost)
        self._ghost = GhostItem(self._view.sheet_scene.look, figures)
        self._view.sheet_scene.addItem(self._ghost)

    def move_ghost(self, dx: int, dy: int) -> None:
        """Shift the ghost from where it was first shown."""
        if self._ghost is not None:
            self._ghost.setPos(dx, dy)

    def show_lines(
        self,
        ways: Iterable[tuple[Point, ...]],
        guides: Iterable[tuple[Point, Point]] = (),
    ) -> None:
        """Show where runs would go, and guides."""
        if self._lines is None:
            self._lines = LinesItem(self._view.sheet_scene.look)
            self._view.sheet_scene.addItem(self._lines)
        self._lines.show_lines(ways, guides)

    def light(self, lit: Iterable[Lit]) -> None:
        """Light up terminals, in place of those before."""
        self._drop(self._lit)
        self._lit = LitItem(self._view.sheet_scene.look, lit)
        self._view.sheet_scene.addItem(self._lit)

    def show_field(self, box: Box | None) -> None:
        """Show a box, None for none."""
        if box is None:
            self._drop(self._field)
            self._field = None
        elif self._field is None:
            self._field = FieldItem(self._view.sheet_scene.look, box)
            self._view.sheet_scene.addItem(self._field)
        else:
            self._field.show_box(box)

    def show_caret(self, at: Point | None) -> None:
        """Mark where what is typed will be placed, None for nowhere."""
        if at is None:
            self._drop(self._caret)
            self._caret = None
            return
        if self._caret is None:
            self._caret = CaretItem(self._view.sheet_scene.look)
            self._view.sheet_scene.addItem(self._caret)
        self._caret.setPos(*at)

    def hint(self, text: str) -> None:
        """A small text at the pointer, "" for none."""
        self._view.show_hint(text)

    def clear(self) -> None:
        """Take away everything that was shown, but the caret: it belongs to no tool."""
        for item in (self._ghost, self._lines, self._lit, self._field):
            self._drop(item)
        self._ghost = self._lines = self._lit = self._field = None
        self.hint("")

    def _drop(self, item: QGraphicsItem | None) -> None:
        if item is not None:
            self._view.sheet_scene.removeItem(item)

    # doing

    def select(self, element_ids: Iterable[str]) -> None:
        """Choose elements, and no others."""
        self._view.select(element_ids)

    def make(self, edit: Callable[[], Change]) -> Change | None:
        """Carry out one edit; where it is refused, say why, and nothing has happened."""
        try:
            change = edit()
            self._view.history.do(change)
        except EditError as refusal:
            self.refuse(str(refusal))
            return None
        return change

    def refuse(self, why: str) -> None:
        """Say why something was not done."""
        self._view.refuse(why)

    def ask(self, labels: Iterable[str], then: Callable[[int], None]) -> None:
        """A small menu at the pointer; ``then`` gets the number of what was chosen."""
        self._view.ask(tuple(labels), then)

    def scroll(self, pixels: QPoint) -> None:
        """Shift the sheet under the window by pixels."""
        self._view.scroll_by(pixels)


def snapped(value: float) -> int:
    """The nearest grid line."""
    return round(value / MODULE) * MODULE


def snapped_point(at: Point) -> Point:
    """The nearest grid point."""
    return snapped(at[0]), snapped(at[1])
