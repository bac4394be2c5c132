"""Frame, zones and title block, held against the standards' figures."""

from __future__ import annotations

from dataclasses import replace

import pytest

from linework.design import Settings
from linework.picture.measure import boxes, text_box
from linework.picture.model import Rect, Text
from linework.sheet.frame import PAPERS, PaperError, frame_of
from linework.sheet.titleblock import (
    AID,
    Revision,
    TitleBlock,
    fitted,
    revision_table,
    revisions_of,
    title_block,
    titled,
)

FULL = TitleBlock(
    title="One-line diagram",
    job="Travelling clinic trailer",
    site="Any road 1",
    sheet=2,
    sheets=5,
    revision="B",
    date="2025-05-01",
    drawn="A. Person",
    checked="B. Person",
    rules="NFPA 70 (2023)",
    document="one-line diagram",
    owner="The clinic",
    reference="The workshop",
    status="design, not built",
    number="VX-1-E02",
)


def test_sizes_of_paper() -> None:
    """ISO 216: A3 420 mm by 297 mm, A4 297 mm by 210 mm. ASME Y14.1: 17 in by 11 in, 11 by 8.5."""
    assert PAPERS["A3"] == (4200, 2970)
    assert PAPERS["A4"] == (2970, 2100)
    assert PAPERS["tabloid"] == ((17 * 254), (11 * 254))
    assert PAPERS["letter"] == ((11 * 254), round(8.5 * 254))


def test_zones_stand_on_four_sides_but_on_two_of_a4() -> None:
    """ISO 5457 (from memory): A4 has its grid reference above and at the right only."""
    for paper, sides in (("A3", 2), ("A4", 1)):
        frame = frame_of(paper)
        signs = [item.text for item in frame.items if isinstance(item, Text)]
        assert (signs.count("1"), signs.count("A")) == (sides, sides)


def test_every_corner_is_marked_for_trimming() -> None:
    """ISO 5457 (from memory): two bars of 10 mm by 5 mm in each corner of the paper."""
    frame = frame_of("A4", upright=True)
    assert (frame.width, frame.height) == (2100, 2970)
    bars = {(r.x, r.y, r.width, r.height) for r in frame.items if isinstance(r, Rect) and not r.pen}
    assert {(0, 0, 100, 50), (2050, 2870, 50, 100), (2000, 0, 100, 50)} < bars
    assert len(bars) == 8


def test_revisions_stand_at_the_left_of_the_title_block() -> None:
    frame = frame_of("A3")
    settings = Settings(
        revisions="A; first issue; 2026-03-01; K. O.\n\nB ; second board", number="X"
    )
    lines = revisions_of(settings)
    assert lines == (
        Revision("A", "first issue", "2026-03-01", "K. O."),
        Revision("B", "second board"),
    )
    items = revision_table(frame, lines * 5)
    written = [item.text for item in items if isinstance(item, Text)]
    assert written[:4] == ["rev", "change", "date", "by"]
    assert written[-2:] == ["B", "second board"]
    for boxed in boxes(items):
        assert frame.strip.grown(7).contains(boxed.box)
    # An A4 that stands upright has no room beside its title block.
    assert revision_table(frame_of("A4", upright=True), lines) == ()
    assert titled(settings, TitleBlock(sheet=4)).number == "X-E04"


@pytest.mark.parametrize(("paper", "columns", "rows"), [("A3", 8, 6), ("A4", 6, 4)])
def test_number_of_zones(paper: str, columns: int, rows: int) -> None:
    """ISO 5457 table 2 (from memory): A3 has 8 by 6 zones, A4 has 6 by 4."""
    frame = frame_of(paper)
    assert (len(frame.columns) - 1, len(frame.rows) - 1) == (columns, rows)


def test_margins() -> None:
    """ISO 5457 (from memory): 20 mm at the left for filing, 10 mm on the other sides."""
    area = frame_of("A3").area
    assert (area.left, area.top, 4200 - area.right, 2970 - area.bottom) == (200, 100, 100, 100)


def test_zones_are_counted_from_the_left_upper_corner() -> None:
    frame = frame_of("A3")
    assert frame.zone_at(frame.area.left, frame.area.top) == "A1"
    assert frame.zone_at(frame.area.right, frame.area.bottom) == "F8"
    assert frame.zone_at(2100 + 10, 1485 - 10) == "C5"
    assert frame.zone_at(10, 10) == ""


def test_an_unknown_paper_is_refused_by_name() -> None:
    with pytest.raises(PaperError, match="A3, A4, tabloid, letter"):
        frame_of("A7")


def test_the_name_of_a_paper_may_be_written_small() -> None:
    assert frame_of("a4") == frame_of("A4")


@pytest.mark.parametrize("paper", list(PAPERS))
def test_the_title_block_lies_in_the_corner_with_all_its_fields(paper: str) -> None:
    """ISO 7200 (from memory): 180 mm wide, in the right lower corner."""
    frame = frame_of(paper)
    assert frame.block.width == 1800
    assert (frame.block.right, frame.block.bottom) == (frame.area.right, frame.area.bottom)
    items = title_block(frame, FULL)
    written = [item.text for item in items if isinstance(item, Text)]
    wanted = {value for value in vars(FULL).values() if isinstance(value, str)}
    wanted -= {FULL.job, FULL.site}
    assert wanted <= {*written}
    assert {"2 of 5", f"{FULL.job} · {FULL.site}", AID} <= {*written}


@pytest.mark.parametrize("upright", [False, True])
def test_writing_in_the_title_block_stays_in_its_cells(upright: bool) -> None:
    frame = frame_of("A4", upright)
    long = "A very long name of a job that nobody would ever write into so small a field " * 3
    items = title_block(
        frame, replace(FULL, **dict.fromkeys(("title", "job", "number", "drawn", "rules"), long))
    )
    lines = [item for item in items if isinstance(item, Text)]
    for number, one in enumerate(lines):
        assert frame.block.contains(text_box(one)), one.text
        for other in lines[number + 1 :]:
            assert not text_box(one).overlaps(text_box(other)), (one.text, other.text)


def test_what_is_cut_says_so() -> None:
    assert fitted("short", 0, 0, 500, 35).text == "short"
    assert fitted("a little long", 0, 0, 170, 35).height < 35
    assert fitted("far too long for this", 0, 0, 100, 35).text.endswith("…")


def test_the_frame_lies_on_the_paper() -> None:
    frame = frame_of("letter")
    for boxed in boxes(frame.items):
        assert 0 <= boxed.box.left <= boxed.box.right <= frame.width
        assert 0 <= boxed.box.top <= boxed.box.bottom <= frame.height
