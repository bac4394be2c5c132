"""The whole mountain hut drawn from nothing in a real window, by pointer and keys alone."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtGui import QGuiApplication

from linework.bench.frame.window import BenchWindow
from linework.storage import load
from tests.bench.copyist import Copyist, drawn_alike

pytestmark = pytest.mark.window

HUT = Path(__file__).resolve().parents[3] / "samples" / "mountain-hut.linework"


@pytest.fixture
def copyist(empty_bench: BenchWindow) -> Copyist:
    return Copyist(empty_bench)


@pytest.mark.timeout(1800)
def test_the_whole_hut_is_drawn_from_nothing(
    copyist: Copyist, capsys: pytest.CaptureFixture[str]
) -> None:
    assert QGuiApplication.platformName() == "xcb"
    hut = load(HUT)
    copyist.draw(hut)
    assert drawn_alike(copyist.design, hut) == []
    judging = copyist.bench.judging
    copyist.wait(lambda: judging.up_to_date)
    assert judging.analysis is not None
    assert judging.analysis.silent, "the sample is sound, and so is what was drawn"
    with capsys.disabled():
        print(f"\nThe whole hut from nothing: {copyist.tally()}")
