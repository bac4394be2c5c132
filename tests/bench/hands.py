"""A small design on a view, and a hand that presses, moves and lets go on it."""

from __future__ import annotations

import itertools

from PySide6.QtCore import QByteArray, QEvent, QMimeData, QPoint, QPointF, Qt
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QKeyEvent,
    QMouseEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from linework.bench.paper.overlay import FieldItem, GhostItem, LinesItem, LitItem
from linework.bench.paper.view import KIND_MIME, SheetView
from linework.design import Design, Draft, History
from linework.design.edits import move_parts

LEFT, MIDDLE = Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton
NONE = Qt.KeyboardModifier.NoModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
CONTROL = Qt.KeyboardModifier.ControlModifier
ALT = Qt.KeyboardModifier.AltModifier


def small() -> Design:
    """A generator that feeds a panel; a breaker in it; an outlet; a battery and the chassis."""
    draft = Draft(place="vehicle")
    draft.part("generator", "G1", at=(500, 600), power="5 kVA", neutral="floating")
    draft.part("panel", "QP1", at=(1500, 600), places="4", bond="absent")
    draft.part("breaker", "QF1", rating="20 A")
    draft.seat("QF1", "QP1", "1")
    draft.part("outlet", "XD1", at=(2600, 600))
    draft.part("battery", "GB1", at=(500, 1600))
    draft.part("body", "XB1", at=(1500, 1900))
    draft.run("G1.out", "QP1.feed", size="10 AWG", length="25 ft")
    draft.run("QF1.load", "XD1.feed", size="12 AWG", length="10 ft")
    return draft.design


def moved(design: Design, part_id: str, dx: int, dy: int) -> None:
    """Shift a part of a design that nobody looks at yet."""
    design.apply(move_parts(design, [part_id], dx, dy))


class Hand:
    """Sends plain events to a view, at points of the paper."""

    def __init__(self, view: SheetView) -> None:
        self.view = view
        self.said: list[str] = []
        self.chosen: list[object] = []
        view.refused.connect(self.said.append)
        view.selected.connect(self.chosen.append)

    @property
    def design(self) -> Design:
        return self.view.design

    def pixel(self, at: tuple[int, int]) -> QPointF:
        return QPointF(self.view.viewportTransform().map(QPointF(*at)))

    def _mouse(
        self,
        sort: QEvent.Type,
        at: tuple[int, int],
        button: Qt.MouseButton,
        modifiers: Qt.KeyboardModifier,
    ) -> None:
        held = Qt.MouseButton.NoButton if sort == QEvent.Type.MouseButtonRelease else button
        if sort == QEvent.Type.MouseMove:
            button = Qt.MouseButton.NoButton
        pixel = self.pixel(at)
        event = QMouseEvent(sort, pixel, pixel, button, held, modifiers)
        QApplication.sendEvent(self.view.viewport(), event)

    def press(self, at: tuple[int, int], button: Qt.MouseButton = LEFT, keys=NONE) -> None:
        self._mouse(QEvent.Type.MouseButtonPress, at, button, keys)

    def move(self, at: tuple[int, int], button: Qt.MouseButton = LEFT, keys=NONE) -> None:
        self._mouse(QEvent.Type.MouseMove, at, button, keys)

    def release(self, at: tuple[int, int], button: Qt.MouseButton = LEFT, keys=NONE) -> None:
        self._mouse(QEvent.Type.MouseButtonRelease, at, button, keys)

    def click(self, at: tuple[int, int], keys=NONE) -> None:
        self.press(at, keys=keys)
        self.release(at, keys=keys)

    def double_click(self, at: tuple[int, int]) -> None:
        self._mouse(QEvent.Type.MouseButtonDblClick, at, LEFT, NONE)

    def drag(self, a: tuple[int, int], b: tuple[int, int], keys=NONE) -> None:
        self.press(a, keys=keys)
        middle = ((a[0] + b[0]) // 2, (a[1] + b[1]) // 2)
        self.move(middle, keys=keys)
        self.move(b, keys=keys)
        self.release(b, keys=keys)

    def hover(self, at: tuple[int, int]) -> None:
        self._mouse(QEvent.Type.MouseMove, at, Qt.MouseButton.NoButton, NONE)

    def key(self, key: Qt.Key, text: str = "", keys=NONE) -> None:
        for sort in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
            QApplication.sendEvent(self.view, QKeyEvent(sort, key, keys, text))

    def wheel(self, at: tuple[int, int], notches: int) -> None:
        pixel = self.pixel(at)
        event = QWheelEvent(
            pixel,
            pixel,
            QPoint(),
            QPoint(0, 120 * notches),
            Qt.MouseButton.NoButton,
            NONE,
            Qt.ScrollPhase.NoScrollPhase,
            False,
        )
        QApplication.sendEvent(self.view.viewport(), event)

    # what is dragged out of the strip

    def carry(self, kind: str, *points: tuple[int, int]) -> QMimeData:
        """Bring a kind over the sheet, along points."""
        data = QMimeData()
        data.setData(KIND_MIME, QByteArray(kind.encode()))
        copy = Qt.DropAction.CopyAction
        first = self.pixel(points[0]).toPoint()
        enter = QDragEnterEvent(first, copy, data, LEFT, NONE)
        QApplication.sendEvent(self.view.viewport(), enter)
        for point in points:
            step = QDragMoveEvent(self.pixel(point).toPoint(), copy, data, LEFT, NONE)
            QApplication.sendEvent(self.view.viewport(), step)
        return data

    def drop(self, kind: str, at: tuple[int, int]) -> None:
        data = self.carry(kind, at)
        event = QDropEvent(self.pixel(at), Qt.DropAction.CopyAction, data, LEFT, NONE)
        QApplication.sendEvent(self.view.viewport(), event)

    def carry_off(self) -> None:
        QApplication.sendEvent(self.view.viewport(), QDragLeaveEvent())

    # what is shown

    def anchor(self, part: str, terminal: str) -> tuple[int, int]:
        layout = self.view.sheet_scene.layout
        assert layout is not None
        x, y, _ = layout.drawings[part].anchors[terminal]
        return x, y

    def place(self, part: str, place: str) -> tuple[int, int]:
        layout = self.view.sheet_scene.layout
        assert layout is not None
        x, y, _ = layout.drawings[part].places[place]
        return x, y

    def middle(self, element: str) -> tuple[int, int]:
        """The middle of a part; for a run the middle of its longest piece."""
        layout = self.view.sheet_scene.layout
        assert layout is not None
        if element in layout.ways:
            way = layout.ways[element]
            pairs = itertools.pairwise(way)
            a, b = max(pairs, key=lambda p: abs(p[0][0] - p[1][0]) + abs(p[0][1] - p[1][1]))
            return (a[0] + b[0]) // 2, (a[1] + b[1]) // 2
        return layout.drawings[element].box.center

    def overlays(self) -> list[str]:
        """The names of what the hand shows over the sheet."""
        kinds = (GhostItem, LinesItem, LitItem, FieldItem)
        return sorted(
            type(i).__name__ for i in self.view.sheet_scene.items() if isinstance(i, kinds)
        )

    def hint(self) -> str:
        hint = self.view._hint
        return hint.text() if hint.isVisible() else ""


def hand_on(qtbot: QtBot, design: Design | None = None) -> Hand:
    """A shown view of a design, whole page in the window, with a hand on it."""
    view = SheetView(History(small() if design is None else design))
    view.history.listen(view.follow)
    qtbot.addWidget(view)
    view.resize(1200, 850)
    with qtbot.waitExposed(view):
        view.show()
    view.setFocus()
    return Hand(view)
