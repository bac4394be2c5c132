from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from linework.bench.paper.view import KIND_MIME
from linework.bench.strip.strip import HEADINGS, PartsStrip
from linework.kinds import STRIP, kinds
from linework.picture.palettes import DARK


@pytest.fixture
def strip(qtbot: QtBot) -> PartsStrip:
    made = PartsStrip("NA")
    qtbot.addWidget(made)
    made.resize(900, made.height())
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_every_kind_has_a_tile_in_the_order_of_the_power(strip: PartsStrip) -> None:
    assert [tile.kind.key for tile in strip.tiles] == list(kinds())
    places = [STRIP.index(tile.kind.strip) for tile in strip.tiles]
    assert places == sorted(places)
    assert set(HEADINGS) == set(STRIP)


def test_every_tile_has_a_name_for_who_cannot_see_it(strip: PartsStrip) -> None:
    names = [tile.accessibleName() for tile in strip.tiles]
    assert all(names)
    assert len(set(names)) == len(names)
    assert all(tile.focusPolicy() == Qt.FocusPolicy.StrongFocus for tile in strip.tiles)


def test_every_name_fits_its_tile(strip: PartsStrip) -> None:
    for tile in strip.tiles:
        lines = tile.fontMetrics().boundingRect(
            0, 0, tile.width() - 6, 999, int(Qt.TextFlag.TextWordWrap), tile.text()
        )
        assert lines.height() <= 2 * tile.fontMetrics().lineSpacing(), tile.text()
        assert lines.width() <= tile.width() - 6, tile.text()


def test_enter_and_click_choose_a_kind(strip: PartsStrip, qtbot: QtBot) -> None:
    told: list[object] = []
    strip.chosen.connect(told.append)
    strip.tile("lamp").setFocus()
    QTest.keyClick(strip.tile("lamp"), Qt.Key.Key_Return)
    QTest.keyClick(strip.tile("lamp"), Qt.Key.Key_Space)
    QTest.mouseClick(strip.tile("fuse"), Qt.MouseButton.LeftButton)
    assert told == ["lamp", "lamp", "fuse"]


def test_the_arrow_keys_walk_along_and_bring_the_tile_into_view(strip: PartsStrip) -> None:
    strip.tiles[0].setFocus()
    QTest.keyClick(strip.tiles[0], Qt.Key.Key_Right)
    assert strip.tiles[1].hasFocus()
    QTest.keyClick(strip.tiles[1], Qt.Key.Key_End)
    last = strip.tiles[-1]
    assert last.hasFocus()
    assert not last.visibleRegion().isEmpty()
    QTest.keyClick(last, Qt.Key.Key_Right)
    assert strip.tiles[0].hasFocus()
    QTest.keyClick(strip.tiles[0], Qt.Key.Key_Left)
    assert last.hasFocus()


@pytest.mark.parametrize("wide", [700, 1280, 4000])
def test_everything_is_whole_at_any_width(strip: PartsStrip, qtbot: QtBot, wide: int) -> None:
    strip.resize(wide, strip.height())
    qtbot.waitUntil(lambda: strip.width() == wide)
    QApplication.processEvents()
    bar = strip._area.horizontalScrollBar()
    for tile in strip.tiles:
        lower = tile.mapTo(strip, tile.rect().bottomLeft())
        assert tile.height() >= tile.sizeHint().height()
        assert lower.y() <= strip.height() - (bar.height() if bar.isVisible() else 0)
    tops = {tile.mapTo(strip, tile.rect().topLeft()).y() for tile in strip.tiles}
    assert len(tops) == (1 if wide == 4000 else 2)
    if wide == 4000:
        assert not bar.isVisible()


def test_up_and_down_go_to_the_other_row_of_a_group(strip: PartsStrip) -> None:
    strip.tile("battery").setFocus()
    QTest.keyClick(strip.tile("battery"), Qt.Key.Key_Down)
    below = next(tile for tile in strip.tiles if tile.hasFocus())
    assert below.kind.strip == "sources"
    assert below.y() > strip.tile("battery").y()
    QTest.keyClick(below, Qt.Key.Key_Down)
    assert below.hasFocus()
    QTest.keyClick(below, Qt.Key.Key_Up)
    assert strip.tile("battery").hasFocus()


def test_what_is_dragged_out_carries_the_kind(strip: PartsStrip) -> None:
    drag = strip.tile("generator").drag()
    assert drag.mimeData().data(KIND_MIME).toStdString() == "generator"
    assert drag.mimeData().formats() == [KIND_MIME]
    assert not drag.pixmap().isNull()
    drag.deleteLater()


def test_the_other_family_says_it_in_its_words(strip: PartsStrip) -> None:
    assert strip.tile("outlet").text() == "outlet"
    strip.set_family("INT")
    assert strip.tile("outlet").text() == "socket-outlet"
    assert [tile.kind.key for tile in strip.tiles] == list(kinds())


def test_every_symbol_is_painted_in_every_palette(strip: PartsStrip) -> None:
    for palette in (None, DARK):
        if palette is not None:
            strip.use_palette(palette)
        for tile in strip.tiles:
            image = tile.grab().toImage()
            row = image.height() // 3
            tones = {image.pixel(x, y) for x in range(image.width()) for y in range(4, row + 8)}
            assert len(tones) > 3, tile.text()
