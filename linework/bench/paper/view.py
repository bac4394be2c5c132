"""The view: paper first. Zoom, pan, keys, drops; what the mouse does is done by tools."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
)
from PySide6.QtWidgets import QMenu, QWidget

from linework.bench.paper import keys
from linework.bench.paper.edits import Answers
from linework.bench.paper.hand import Hand, Starter, spot_of
from linework.bench.paper.hint import Hint, menu_of
from linework.bench.paper.hits import Hit, box_of
from linework.bench.paper.paper import EDGE, PaperView
from linework.bench.paper.room import free_spot
from linework.bench.paper.surface import Surface, snapped, snapped_point
from linework.bench.paper.sync import Sync
from linework.bench.paper.tools import pointer
from linework.bench.paper.tools.place import PlaceTool
from linework.bench.paper.tools.tool import Spot
from linework.bench.paper.typed_match import Match
from linework.bench.paper.typed_place import TypedPlace
from linework.design import Change, Design, History, Part, Run
from linework.design.edits import reroute
from linework.picture.geometry import Point, joined_boxes
from linework.picture.palettes import Palette
from linework.sheet.parts import sheet_of
from linework.words import say

if TYPE_CHECKING:
    from linework.analysis import Analysis

KIND_MIME = "application/x-linework-kind"
"""What a part dragged from the strip carries: the key of its kind."""


class SheetView(PaperView):
    """One sheet of the design of a history, to be drawn on; it is told the changes made there.

    Signals, each with one object: ``selected`` the ids chosen; ``refused`` why something was not
    done; ``hovered`` the :class:`Hit` under the pointer; ``flagged`` the number of a finding whose
    flag was clicked; ``opened`` the id of an element that was double-clicked or entered;
    ``viewed`` None, when another part of the sheet came into view. ``typing``: the line to type
    a part in opens.
    """

    selected = Signal(object)
    refused = Signal(object)
    hovered = Signal(object)
    flagged = Signal(object)
    opened = Signal(object)
    typing = Signal()

    def __init__(
        self, history: History, parent: QWidget | None = None, palette: Palette | None = None
    ) -> None:
        super().__init__(parent, palette)
        self.sync = Sync(self.sheet_scene, history)
        self.surface = Surface(self)
        self.selection: tuple[str, ...] = ()
        self.caret: Point | None = None
        self._hand = Hand(self, self.surface)
        self._panning = False
        self._hint = Hint(self.viewport())
        self._menu: QMenu | None = None
        self._typed = TypedPlace(self.viewport(), self.design.settings.family)
        self._typed.taken.connect(self._place_typed)
        self._typed.closed.connect(self._typed_closed)
        self._set_up()

    def _set_up(self) -> None:
        self.setMouseTracking(True)
        self.setAcceptDrops(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(say("Sheet"))
        self.setAccessibleDescription(
            say("The drawing. Its parts, runs and findings are also listed in the parts tree.")
        )

    # what is shown

    @property
    def history(self) -> History:
        """The history that is drawn on."""
        return self.sync.history

    @property
    def design(self) -> Design:
        """The design that is drawn on."""
        return self.sync.history.design

    def set_history(self, history: History) -> None:
        """Show another design."""
        self.drop_tool()
        self.sync.close()
        self.select(())
        self.set_caret(None)
        self.sync = Sync(self.sheet_scene, history)
        self.fit_page()

    def show_analysis(self, analysis: Analysis | None, state_key: str = "", case: str = "") -> None:
        """Show what is live in a state, by the letters of its sources, and the findings' flags."""
        self.sync.show_analysis(analysis, state_key, case)

    def show_sheet(self, number: int) -> None:
        """Show another sheet of the design."""
        self.drop_tool()
        self.set_caret(None)
        self.sync.show_sheet(number)
        self.select(key for key in self.selection if box_of(self.surface.layout, key))

    def follow(self, change: Change) -> None:
        """Show a change of the design; forget what is no longer there, let go of what was begun."""
        self.sync.follow(change)
        if self.busy:
            # Somebody else's edit: what the hand began on may be gone.
            self.drop_tool()
        there = [key for key in self.selection if key in self.design]
        if len(there) != len(self.selection):
            self.select(there)

    # what is chosen

    def select(self, element_ids: Iterable[str]) -> None:
        """Choose elements, and no others. Tells ``selected`` where that changes anything."""
        chosen = tuple(dict.fromkeys(key for key in element_ids if key in self.design))
        if chosen == self.selection:
            return
        self.selection = chosen
        self.sheet_scene.choose(chosen)
        self.selected.emit(chosen)

    def select_all(self) -> None:
        """Choose every part, run and note of the sheet."""
        layout = self.surface.layout
        notes = [note.id for note in self.design.notes if note.id in layout.items]
        self.select((*layout.drawings, *layout.ways, *notes))

    def bring_into_view(self, element_ids: Iterable[str]) -> None:
        """Scroll so that elements are in view; another sheet is shown where they lie there."""
        ids = tuple(element_ids)
        layout = self.surface.layout
        if not any(box_of(layout, key) for key in ids):
            parts = [part for key in ids for part in self._parts_of(key)]
            if not parts:
                return
            self.show_sheet(sheet_of(self.design, parts[0]))
        box = joined_boxes(b for key in ids if (b := box_of(self.surface.layout, key)))
        if box is not None:
            rect = QRectF(box.left, box.top, box.width, box.height)
            self.ensureVisible(rect.adjusted(-EDGE, -EDGE, EDGE, EDGE), 20, 20)

    def _parts_of(self, element_id: str) -> list[Part]:
        element = self.design.get(element_id)
        if isinstance(element, Part):
            return [element]
        return [self.design.part(element.a.part)] if isinstance(element, Run) else []

    def rect_of(self, element_id: str) -> QRect:
        """Where an element is, in pixels of the viewport; empty where it is not on this sheet."""
        box = box_of(self.surface.layout, element_id)
        if box is None:
            return QRect()
        rect = QRectF(box.left, box.top, box.width, box.height)
        return self.mapFromScene(rect).boundingRect()

    # tools

    def set_active_tool(self, starter: Starter | None) -> None:
        """What a press begins from now on; None: choosing, moving and joining."""
        self.drop_tool()
        self._hand.starter = starter or pointer.begin

    @property
    def busy(self) -> bool:
        """Whether a tool is at work."""
        return self._hand.at_work or self._hand.carries

    def drop_tool(self) -> None:
        """Drop what the hand is doing: nothing has happened."""
        self._hand.drop()
        self._show_cursor()

    def _spot(self, at: QPointF, modifiers: Qt.KeyboardModifier) -> Spot:
        return spot_of(self._scene_point(at), at, modifiers)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A press begins a tool."""
        self._typed.close_up()
        if self.busy:
            # A second button while a tool is at work drops it.
            self.drop_tool()
            return
        spot = self._spot(event.position(), event.modifiers())
        pans = event.button() is Qt.MouseButton.MiddleButton or self._panning
        if not pans and event.button() is not Qt.MouseButton.LeftButton:
            return
        self._hand.press(spot, pans)
        self._show_cursor()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """The tool follows; without one, what is under the pointer is told."""
        spot = self._spot(event.position(), event.modifiers())
        self._hint.follow(event.position().toPoint())
        if self._hand.at_work:
            self._hand.move(spot)
        elif not event.buttons():
            self._hover(spot)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """The tool ends with at most one edit; a press that went nowhere was a click."""
        left = event.button() is Qt.MouseButton.LeftButton
        if not left and event.button() is not Qt.MouseButton.MiddleButton:
            return
        try:
            clicked = self._hand.release(self._spot(event.position(), event.modifiers()))
        finally:
            self._show_cursor()
        if left and clicked and not self._panning:
            self._clicked()

    def _clicked(self) -> None:
        found, adds = self._hand.hit, self._hand.pressed.adds
        if found.sort == "flag":
            self.flagged.emit(found.number)
        elif found.sort == "terminal":
            pointer.choose(self.surface, found.element, adds)
        elif found.sort in ("paper", "desk") and not adds:
            self.select(())
            self.set_caret(snapped_point(found.at) if found.sort == "paper" else None)
        if found.sort not in ("paper", "desk"):
            self.set_caret(None)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Opens an element; a run with bends of its own is laid anew."""
        found = self.surface.hit(self._spot(event.position(), event.modifiers()).at)
        run = self.design.get(found.element)
        if isinstance(run, Run) and run.route:
            self.surface.make(lambda: reroute(self.design, run.id, ()))
        elif found.element:
            self.open_element(found.element)

    def _hover(self, spot: Spot) -> None:
        found = self.surface.hit(spot.at)
        shapes = {
            "terminal": Qt.CursorShape.CrossCursor,
            "flag": Qt.CursorShape.PointingHandCursor,
        }
        if not self._panning:
            self.viewport().setCursor(shapes.get(found.sort, Qt.CursorShape.ArrowCursor))
        self.hovered.emit(found)

    def _show_cursor(self) -> None:
        if self._panning or self._hand.pans:
            held = self._hand.at_work
            shape = Qt.CursorShape.ClosedHandCursor if held else Qt.CursorShape.OpenHandCursor
            self.viewport().setCursor(shape)
        else:
            self.viewport().setCursor(Qt.CursorShape.ArrowCursor)

    def leaveEvent(self, event: QEvent) -> None:
        """Nothing is under the pointer any more."""
        super().leaveEvent(event)
        if not self.busy:
            self.hovered.emit(Hit("desk", 0, 0))

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Whoever looks elsewhere has let go: nothing has happened."""
        super().focusOutEvent(event)
        self._panning = False
        if self._hand.at_work:
            self.drop_tool()
        self._show_cursor()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keys work on what is chosen, see :mod:`~linework.bench.paper.keys`."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat() and not self.busy:
            self._panning = True
            self._show_cursor()
        elif not keys.press(self, event):
            super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """The space bar lets go of the paper."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._panning = False
            self._show_cursor()
        else:
            super().keyReleaseEvent(event)

    # parts from the strip

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """A part from the strip comes over the sheet."""
        if not event.mimeData().hasFormat(KIND_MIME):
            event.ignore()
            return
        kind = event.mimeData().data(KIND_MIME).toStdString()
        self.drop_tool()
        self._hand.carry(kind, self._spot(event.position(), event.modifiers()))
        event.acceptProposedAction()

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        """Its ghost follows."""
        if not self._hand.carries:
            event.ignore()
            return
        self._hint.follow(event.position().toPoint())
        self._hand.carry_on(self._spot(event.position(), event.modifiers()))
        event.acceptProposedAction()

    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:
        """It was taken away again."""
        self.drop_tool()

    def dropEvent(self, event: QDropEvent) -> None:
        """It is let go."""
        if not self._hand.carries:
            event.ignore()
            return
        self._hand.put_down(self._spot(event.position(), event.modifiers()))
        event.acceptProposedAction()
        self.setFocus(Qt.FocusReason.MouseFocusReason)

    def place_kind(self, kind: str, answers: Answers | None = None) -> None:
        """A new part at the caret, else as near to the middle of the view as there is room."""
        self.drop_tool()
        at = self.caret
        if at is None:
            rect = self.mapToScene(self.viewport().rect()).boundingRect().center()
            middle = snapped(rect.x()), snapped(rect.y())
            at = free_spot(self.design, self.surface.layout, kind, middle)
        self._place_at(kind, at, answers)

    def _place_at(self, kind: str, at: Point, answers: Answers | None) -> None:
        tool = PlaceTool(self.surface, kind, answers)
        tool.release(Spot(*at))
        self.set_caret(None)
        self.bring_into_view(self.selection)

    # placing by typing

    def set_caret(self, at: Point | None) -> None:
        """Mark the point of the paper where what is typed will be placed; None for none."""
        self.caret = at
        self.surface.show_caret(at)

    def open_typed(self, text: str = "") -> None:
        """Open the line to type in at the caret, with a text typed already."""
        if self.caret is None:
            return
        self.typing.emit()
        at = self.mapFromScene(QPointF(*self.caret))
        self._typed.open_at(at, text, self.design.settings.family)

    @property
    def typed_place(self) -> TypedPlace:
        """The line to type in."""
        return self._typed

    def _place_typed(self, found: object) -> None:
        if isinstance(found, Match) and self.caret is not None:
            self._place_at(found.kind, self.caret, found.answers)
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def _typed_closed(self) -> None:
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    # saying and asking

    def refuse(self, why: str) -> None:
        """Say why something was not done, where the pointer is too."""
        self.refused.emit(why)
        self._hint.say_a_while(why)

    def open_element(self, element_id: str) -> None:
        """Tell that an element is to be opened."""
        self.opened.emit(element_id)

    def show_hint(self, text: str) -> None:
        """A small text at the pointer, "" for none."""
        self._hint.say(text)

    def ask(self, labels: tuple[str, ...], then: Callable[[int], None]) -> None:
        """A small menu at the pointer; ``then`` gets the number of what was chosen, if any."""
        self._menu = menu_of(labels, then, self)
        self._menu.popup(self.cursor().pos())
