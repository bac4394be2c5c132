"""How long a frame of drawing takes. Run with --benchmark-enable for figures.

Goals: pan, zoom and drag 16 ms with 1,000 parts.
"""

from __future__ import annotations

from typing import Any

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from linework.design import Design, End, Part, Run, changed
from linework.design.edits import move_parts
from tests.bench.hands import Hand, hand_on

COLUMNS, PITCH = 40, 250


@pytest.fixture
def thousand(qtbot: QtBot) -> Hand:
    """1,000 breakers and the runs between them on one sheet, shown without writing."""
    hand = hand_on(qtbot, Design())
    hand.view.sync.hold(True)
    places = [(300 + n % COLUMNS * PITCH, 200 + n // COLUMNS * PITCH) for n in range(1000)]
    parts = [Part(f"p{n}", "breaker", f"QF{n}", x=x, y=y) for n, (x, y) in enumerate(places)]
    runs = [
        Run(f"w{n}", End(f"p{n}", "load"), End(f"p{n + 1}", "line"), f"W{n}", route=((x + 125, y),))
        for n, (x, y) in enumerate(places[:-1])
    ]
    hand.view.history.do(changed("", [(None, element) for element in (*parts, *runs)]))
    assert len(hand.view.sheet_scene.items_by_key) >= 1999
    return hand


def test_a_part_is_dragged(benchmark: Any, thousand: Hand) -> None:
    x, y = thousand.middle("p200")
    thousand.press((x, y))
    step = iter(range(10**9))

    def frame() -> None:
        thousand.move((x + 25 * (next(step) % 40), y + 100))
        QApplication.processEvents()

    benchmark(frame)
    assert "GhostItem" in thousand.overlays()


@pytest.mark.parametrize("zoom", [0.5, 1.0, 2.0])
def test_the_sheet_is_panned(benchmark: Any, thousand: Hand, zoom: float) -> None:
    view = thousand.view
    view.zoom_by(zoom / view.zoom)
    step = iter(range(10**9))

    def frame() -> None:
        view.scroll_by(QPoint(9 if next(step) % 2 else -9, 0))
        view.viewport().repaint()

    benchmark(frame)
    assert view.zoom == pytest.approx(zoom)


def test_a_moved_part_is_shown_at_once(benchmark: Any, thousand: Hand) -> None:
    step = iter(range(10**9))

    def edit() -> None:
        way = 25 if next(step) % 2 else -25
        thousand.view.history.do(move_parts(thousand.design, ["p200"], 0, way))

    benchmark(edit)
    assert not thousand.view.sync.settled
