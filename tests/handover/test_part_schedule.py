"""The part schedule: every part once, its ratings as given, what is assumed in brackets."""

from __future__ import annotations

import datetime
import io
from pathlib import Path

import pypdf
import pytest

from linework.handover.document import set_bytes
from linework.storage import load

SAMPLES = Path(__file__).resolve().parents[2] / "samples"


@pytest.fixture(scope="module")
def pages() -> list[str]:
    design = load(SAMPLES / "beekeepers-trailer.linework")
    made = set_bytes(design, date=datetime.date(2026, 1, 2))
    return [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(made)).pages]


def squeezed(text: str) -> str:
    return " ".join(text.split())


def test_the_ratings_of_the_array_are_on_paper(pages: list[str]) -> None:
    schedule = squeezed(next(page for page in pages if "What is in [brackets]" in page))
    assert "Open-circuit voltage of a module: 22.5 V" in schedule
    assert "Change of the open-circuit voltage for each degree: -0.3 %" in schedule
    assert "Lowest temperature: -20 degC" in schedule
    assert "Voltage: [125 V]" in schedule  # of a fuse whose marking is not given
    for name in ("GB1", "GP1 roof", "TC1", "QB1", "QB2", "F1", "F5", "EL1 lights"):
        assert name in schedule


def test_an_empty_table_of_faults_says_so(pages: list[str]) -> None:
    faults = squeezed(next(page for page in pages if "Dead short from" in page))
    assert "In no state does a fault on alternating current drive current" in faults
    assert "least / most current" not in faults
