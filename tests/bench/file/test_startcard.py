"""The card on an empty sheet."""

from __future__ import annotations

from pytestqt.qtbot import QtBot

from linework.bench.file.startcard import StartCard, samples


def test_the_start_card_offers_the_samples(qtbot: QtBot) -> None:
    assert samples()
    card = StartCard(("/nonexistent/file.linework",))
    qtbot.addWidget(card)
    from PySide6.QtWidgets import QPushButton

    texts = [b.text() for b in card.findChildren(QPushButton)]
    assert "vaccination trailer" in texts
    assert "file.linework" not in texts
    button = next(b for b in card.findChildren(QPushButton) if b.text() == "vaccination trailer")
    with qtbot.waitSignal(card.sampled) as heard:
        button.click()
    assert heard.args == [next(p for p in samples() if p.stem == "vaccination-trailer")]
