"""A table in two halves: every row once and in order, on as many pages as it takes."""

from __future__ import annotations

import io

import pypdf
import pytest
from reportlab.platypus import SimpleDocTemplate, Spacer

from linework.handover.sheets import Room
from linework.handover.styles import in_two

WIDTH, HEIGHT = 1082.8346456692914, 600.0
"""The room of a wide paper: a width that halves with a rest."""


def pages(count: int, before: float) -> list[list[str]]:
    """The first words of the rows on each page, in the order in which they were written."""
    rows = [[f"row{n}", "word " * (1 + 7 * n % 40), "right"] for n in range(count)]
    out = io.BytesIO()
    page = (WIDTH + 12, HEIGHT + 12)
    document = SimpleDocTemplate(
        out, pagesize=page, leftMargin=0, rightMargin=0, topMargin=0, bottomMargin=0
    )
    made = in_two(["name", "what", "side"], rows, Room(WIDTH, HEIGHT))
    document.build([Spacer(1, before), *made])
    found = pypdf.PdfReader(io.BytesIO(out.getvalue())).pages
    return [[w for w in p.extract_text().split() if w.startswith("row")] for p in found]


@pytest.mark.parametrize("before", [0.0, 250.0, 590.0])
@pytest.mark.parametrize("count", [9, 40, 41, 150])
def test_every_row_stands_once_and_in_order(count: int, before: float) -> None:
    told = [name for page in pages(count, before) for name in page]
    assert told == [f"row{n}" for n in range(count)]


def test_a_short_table_stays_on_its_page() -> None:
    assert len(pages(20, 250.0)) == 1


def test_a_page_is_filled_before_the_next() -> None:
    first, *_ = pages(200, 0.0)
    single = pages(8, 0.0)
    assert len(single) == 1
    assert len(first) > 30
