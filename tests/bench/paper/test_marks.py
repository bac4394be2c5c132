"""What is chosen has an outline, and nothing of the sheet is hidden by it."""

from __future__ import annotations

import numpy as np
import pytest
from pytestqt.qtbot import QtBot

from linework.bench.paper.view import SheetView
from linework.picture.inks import Ink
from tests.bench.hands import hand_on


def pixels(view: SheetView) -> np.ndarray:
    """Red, green and blue of every pixel of the viewport."""
    image = view.viewport().grab().toImage()
    image = image.convertToFormat(image.Format.Format_RGBA8888)
    flat = np.frombuffer(bytes(image.constBits()), dtype=np.uint8)
    return flat.reshape(image.height(), image.width(), 4)[:, :, :3].astype(int)


@pytest.mark.parametrize("chosen", ["G1", "QP1", "QF1", "XD1"])
def test_choosing_hides_no_ink_and_shows_an_outline(qtbot: QtBot, chosen: str) -> None:
    hand = hand_on(qtbot)
    run = hand.design.runs_at("XD1")[0].id
    before = pixels(hand.view)
    hand.view.select((chosen, run))
    after = pixels(hand.view)
    ink = before.max(axis=2) < 40
    assert ink.sum() > 500
    assert (before[ink] == after[ink]).all()
    mark = hand.view.sheet_scene.look.color(Ink.CHOSEN)
    outline = (after == (mark.red(), mark.green(), mark.blue())).all(axis=2)
    assert outline.sum() > 60
    hand.view.select(())
    assert (pixels(hand.view) == before).all()
