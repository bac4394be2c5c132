"""Writing lies on nothing else and inside the frame, measured by the fonts' own tables."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import settings as examples
from hypothesis import strategies as st

from linework.design import Design
from linework.picture.geometry import Box
from linework.picture.measure import text_box
from linework.picture.model import Text
from linework.sheet.arranging.arrange import lay_out
from linework.sheet.compose import Composition, compose
from linework.sheet.laid import Options
from linework.sheet.lettering.labels import Placed, Room, Wanted, place
from linework.sheet.lettering.texts import Hung, Span, block_height, row_width, wrapped
from tests.sheet.samples import at_random, reversed_order, trailer, unplaced


def _written(sheet: Composition) -> list[tuple[str, Box]]:
    """Every line of every label with the box that its own font gives it."""
    return [(label.key, text_box(text)) for label in sheet.placed for text in _texts(label)]


def _faults(sheet: Composition) -> list[str]:
    lines = _written(sheet)
    found = [f"{key} leaves the frame" for key, box in lines if not sheet.frame.area.contains(box)]
    found += [f"{key} in the title block" for key, box in lines if sheet.frame.block.overlaps(box)]
    for (one, a), (other, b) in combinations(lines, 2):
        if a.overlaps(b):
            found.append(f"{one} on {other}")
    for key, box in lines:
        found += [
            f"{key} on the symbol of {drawing.id}"
            for drawing in sheet.drawings.values()
            if any(solid.overlaps(box) for solid in drawing.solid)
        ]
    return found


def _labelled(design: Design) -> set[str]:
    return {part.id for part in design.parts} | {run.id for run in design.runs}


def test_the_trailer_is_fully_written_and_nothing_overlaps() -> None:
    design = trailer()
    assert len(design.parts) >= 24
    sheet = compose(design)
    assert _faults(sheet) == []
    assert sheet.lost == ()
    assert {label.key for label in sheet.placed} >= _labelled(design)


@pytest.mark.parametrize("paper", ["A3", "A4", "tabloid", "letter"])
def test_a_laid_out_design_is_clean_on_every_paper(paper: str) -> None:
    sheet = compose(lay_out(unplaced(4)), options=Options(paper=paper))
    assert _faults(sheet) == []


@given(st.integers(0, 10_000))
@examples(max_examples=12)
def test_whatever_is_drawn_writing_lies_on_nothing_else(seed: int) -> None:
    design = at_random(seed)
    sheet = compose(design)
    assert _faults(sheet) == []
    outside = {part.id for part in design.parts if part.id in sheet.outside}
    written = {label.key for label in sheet.placed} | set(sheet.lost)
    parts = {part.id for part in design.parts}
    assert parts - outside <= written


def test_the_same_design_gives_the_same_picture() -> None:
    design = trailer()
    assert compose(design).picture == compose(design.snapshot()).picture


def test_the_order_in_which_a_design_was_drawn_does_not_matter() -> None:
    design = trailer()
    one, other = compose(design), compose(reversed_order(design))
    assert one.ways == other.ways
    assert one.placed == other.placed


def test_a_label_for_which_there_is_no_room_is_told() -> None:
    room = Room(Box(0, 0, 100, 60))
    block = ((Span("far too long for this frame"),),)
    placed, lost = place([Wanted("w", (), Box(50, 30, 50, 30), (block,))], room)
    assert placed == ()
    assert lost == ("w",)


def test_a_label_without_room_within_reach_is_written_shorter() -> None:
    room = Room(Box(0, 0, 2000, 1000))
    thing = Box(500, 500, 600, 600)
    room.take([thing, Box(0, 0, 2000, 440), Box(0, 640, 2000, 1000)])
    long = ((Span("QF1", bold=True),), (Span("two lines"),), (Span("do not fit"),))
    room.take([Box(0, 0, 380, 1000), Box(720, 0, 2000, 1000)])
    ((label,), lost) = place([Wanted("w", (), thing, (long, long[:1]))], room)
    assert lost == ()
    assert not label.whole
    assert [text.text for mark in label.hung for text in mark.items] == ["QF1"]


def test_no_line_leads_to_a_label_far_off() -> None:
    room = Room(Box(0, 0, 2000, 1000))
    room.take([Box(300, 300, 800, 800)])
    block = ((Span("here"),),)
    ((label,), lost) = place([Wanted("w", (), Box(420, 500, 430, 510), (block,))], room)
    assert lost == ()
    assert all(isinstance(item, Text) for mark in label.hung for item in mark.items)


def test_a_block_is_as_wide_and_high_as_its_letters() -> None:
    block = ((Span("QF1", bold=True, height=35), Span("main")), (Span("20 A"),))
    box = Hung(block, 100, 200).box()
    assert abs(box.width - max(map(row_width, block))) <= 3
    assert box.height >= block_height(block)
    assert box.left >= 100
    assert box.top >= 199


def test_an_upward_block_takes_the_room_of_the_level_one_turned() -> None:
    block = ((Span("W5", bold=True), Span("3 pcs 10 AWG, 5 ft")),)
    level, upward = Hung(block, 0, 0).box(), Hung(block, 0, 0, upward=True).box()
    assert (level.width, level.height) == (upward.height, upward.width)
    texts = Hung(block, 0, 0, upward=True).texts()
    assert all(upward.contains(_shrunk(text_box(text))) for text in texts)


def _shrunk(box: Box) -> Box:
    return Box(box.left + 1, box.top + 1, box.right - 1, box.bottom - 1)


def test_long_writing_is_wrapped_at_words() -> None:
    lines = wrapped("a rather long caption that does not fit", 200)
    assert " ".join(lines) == "a rather long caption that does not fit"
    assert len(lines) > 2


def test_a_figure_stays_with_its_unit() -> None:
    for width in range(100, 600, 20):
        lines = wrapped("Largest voltage of the array: 50 V", width)
        assert lines[-1].endswith("50 V")


def test_texts_keep_the_heights_of_the_sheet() -> None:
    """Names of sources and boards 3.5 mm, all else 2.5 mm (ISO 3098 series)."""
    heights = {text.height for label in compose(trailer()).placed for text in _texts(label)}
    assert heights == {25, 35}


def _texts(label: Placed) -> list[Text]:
    return [item for mark in label.hung for item in mark.items if isinstance(item, Text)]
