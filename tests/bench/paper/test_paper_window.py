"""A real window: a part is dragged out of the strip with a real mouse and lies on the sheet."""

from __future__ import annotations

import subprocess

import pytest
from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from linework.bench.paper.view import SheetView
from linework.bench.strip.strip import PartsStrip
from linework.design import History
from linework.picture.inks import Ink
from linework.sheet.parts.places import seat_of
from tests.bench.hands import small

pytestmark = pytest.mark.window


class Desk(QWidget):
    """The sheet over the strip."""

    def __init__(self) -> None:
        super().__init__()
        self.view = SheetView(History(small()))
        self.view.history.listen(self.view.follow)
        self.strip = PartsStrip("NA")
        column = QVBoxLayout(self)
        column.addWidget(self.view, 1)
        column.addWidget(self.strip)

    def point(self, at: tuple[int, int]) -> QPoint:
        """A point of the paper, in the window."""
        pixel = self.view.viewportTransform().map(QPoint(*at))
        return self.view.viewport().mapTo(self, pixel)


@pytest.fixture
def desk(qtbot: QtBot) -> Desk:
    made = Desk()
    qtbot.addWidget(made)
    made.setGeometry(0, 0, 1280, 900)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    return made


def pointer(*words: object) -> None:
    subprocess.run(["xdotool", *map(str, words)], check=True, timeout=10)


def drag_by_hand(desk: Desk, a: QPoint, b: QPoint) -> None:
    """With the real pointer, step by step while Qt's own drag loop runs."""
    middle = (a + b) / 2
    at = [desk.mapToGlobal(point) for point in (a, a + QPoint(0, -12), middle, b, b)]
    steps = [lambda p=p: pointer("mousemove", p.x(), p.y()) for p in at]
    steps.insert(1, lambda: pointer("mousedown", 1))
    steps.append(lambda: pointer("mouseup", 1))
    for number, step in enumerate(steps):
        QTimer.singleShot(150 * (number + 1), step)
    QTest.qWait(150 * (len(steps) + 3))


def test_a_part_is_dragged_from_the_strip_into_the_panel(desk: Desk) -> None:
    known = {part.id for part in desk.view.design.parts}
    tile = desk.strip.tile("breaker")
    layout = desk.view.sheet_scene.layout
    assert layout is not None
    x, y, _ = layout.drawings["QP1"].places["3"]
    drag_by_hand(desk, tile.mapTo(desk, tile.rect().center()), desk.point((x, y)))
    (part,) = [part for part in desk.view.design.parts if part.id not in known]
    seat = seat_of(desk.view.design, part)
    assert part.kind == "breaker"
    assert seat is not None
    assert (seat.host, seat.place) == ("QP1", "3")


def test_a_part_is_moved_and_a_run_is_drawn_with_the_mouse(desk: Desk) -> None:
    view, window = desk.view, desk.windowHandle()
    layout = view.sheet_scene.layout
    assert layout is not None
    battery = layout.drawings["GB1"].box.center
    there = (battery[0] + 400, battery[1] + 100)
    left = Qt.MouseButton.LeftButton
    QTest.mousePress(window, left, pos=desk.point(battery))
    QTest.mouseMove(window, desk.point((battery[0] + 100, battery[1])))
    QTest.mouseMove(window, desk.point(there))
    QTest.mouseRelease(window, left, pos=desk.point(there))
    part = view.design.part("GB1")
    assert (part.x, part.y) == (900, 1700)
    view.sync.settle()
    assert view.sheet_scene.layout is not None
    start = view.sheet_scene.layout.drawings["GB1"].anchors["dc"][:2]
    goal = view.sheet_scene.layout.drawings["XB1"].anchors["tie"][:2]
    QTest.mousePress(window, left, pos=desk.point(start))
    QTest.mouseMove(window, desk.point((start[0] + 100, start[1])))
    QTest.mouseMove(window, desk.point(goal))
    QTest.mouseRelease(window, left, pos=desk.point(goal))
    assert view.design.runs_at("GB1") == [], "minus to chassis is asked"
    assert view._menu is not None
    QTest.keyClick(view._menu, Qt.Key.Key_Down)
    QTest.keyClick(view._menu, Qt.Key.Key_Return)
    assert [run.b.part for run in view.design.runs_at("GB1")] == ["XB1"]


def test_what_is_painted_is_on_the_screen(desk: Desk) -> None:
    desk.view.sheet_scene.choose(("G1",))
    QTest.qWait(200)
    image = desk.screen().grabWindow(desk.winId()).toImage()
    paper = desk.point((3887, 312))
    assert image.pixelColor(paper).name() == "#fffefa"
    layout = desk.view.sheet_scene.layout
    assert layout is not None
    box = layout.drawings["G1"].box
    edge = desk.point((box.left - 14, (box.top + box.bottom) // 2))
    near = [image.pixelColor(edge.x() + off, edge.y()).name() for off in range(-3, 4)]
    assert desk.view.sheet_scene.look.color(Ink.CHOSEN).name() in near, "the outline"
