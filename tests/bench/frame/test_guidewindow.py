"""The guide in its window: what it opens at, how it is gone through."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QImage, QTextDocument
from pytestqt.qtbot import QtBot

from linework.bench.frame.guidewindow import GuideWindow, symbol_image
from linework.bench.frame.window import BenchWindow
from linework.storage import dumps
from tests.bench.benches import two_sources


@pytest.fixture
def guide(qtbot: QtBot) -> GuideWindow:
    found = GuideWindow()
    qtbot.addWidget(found)
    return found


def shown(guide: GuideWindow) -> list[str]:
    return [line.text(0) for line in guide._lines() if not line.isHidden()]


def test_it_begins_with_the_example_and_names_every_page(guide: GuideWindow) -> None:
    guide.open("", "NA")
    assert guide.key == "beginning"
    assert guide.text.toPlainText().startswith("Ten minutes by example")
    assert len(shown(guide)) > 130
    assert guide.contents.currentItem().text(0) == "Ten minutes by example"


def test_what_is_looked_for_is_found_in_what_pages_say(guide: GuideWindow, qtbot: QtBot) -> None:
    guide.open("", "NA")
    qtbot.keyClicks(guide.wanted, "galvanic nonsense")
    assert shown(guide) == []
    guide.wanted.setText("zinc saver")
    assert shown(guide) == ["Galvanic isolator"]
    qtbot.keyClick(guide.wanted, Qt.Key.Key_Return)
    assert guide.key == "part/galvanic_isolator"


def test_a_link_leads_on_and_pictures_are_painted(guide: GuideWindow) -> None:
    guide.open("rule/bond-missing", "NA")
    guide.text.anchorClicked.emit(QUrl("page:part/generator"))
    assert guide.key == "part/generator"
    image = guide.text.loadResource(
        QTextDocument.ResourceType.ImageResource.value, QUrl("symbol:generator.NA")
    )
    assert isinstance(image, QImage)
    colors = {image.pixelColor(x, y).name() for x in range(image.width()) for y in (20, 30, 40)}
    assert len(colors) > 1
    shot = guide.text.loadResource(
        QTextDocument.ResourceType.ImageResource.value, QUrl("shot:beginning-5")
    )
    assert isinstance(shot, QImage)
    assert not shot.isNull()


def test_a_symbol_is_as_sharp_as_the_screen() -> None:
    assert symbol_image("panel.NA", 2.0).width() == pytest.approx(
        2 * symbol_image("panel.NA", 1.0).width(), abs=2
    )


def test_the_other_family_has_its_own_words(guide: GuideWindow) -> None:
    guide.open("words", "NA")
    assert "GFCI" in guide.text.toPlainText()
    guide.open("words", "INT")
    assert "RCD" in guide.text.toPlainText()
    assert "GFCI" not in guide.text.toPlainText()


def test_escape_puts_it_away(guide: GuideWindow, qtbot: QtBot) -> None:
    guide.open("", "NA")
    qtbot.keyClick(guide, Qt.Key.Key_Escape)
    assert not guide.isVisible()


def test_it_opens_at_what_the_hand_is_on(
    empty_bench: BenchWindow, qtbot: QtBot, tmp_path: Path
) -> None:
    bench, file = empty_bench, tmp_path / "two.linework"
    ask = bench.menus.actions["guide"].trigger
    ask()
    assert bench.guide.key == "beginning"
    file.write_bytes(dumps(two_sources().design))
    bench.filing.open(file)
    part, run = bench.history.design.parts[0], bench.history.design.runs[0]
    bench.view.select((part.id,))
    ask()
    assert bench.guide.key == f"part/{part.kind}"
    bench.view.select((run.id,))
    ask()
    assert bench.guide.key == "part/run"
    qtbot.waitUntil(lambda: bench.judging.up_to_date and bool(bench.margin.cards), timeout=60_000)
    card = bench.margin.cards[0]
    assert card.finding is not None
    assert bench.margin.finding_at(card.why) is card.finding
    assert bench.margin.finding_at(bench.view) is None
