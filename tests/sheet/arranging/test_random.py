"""Whatever is drawn, its arrangement is sound: nothing overlaps, nothing is off the paper."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given
from hypothesis import settings as examples

from linework.design import Design, Draft
from linework.picture.geometry import MODULE
from linework.sheet.arranging import lay_out
from linework.sheet.compose import compose_all
from linework.sheet.frame import frame_of
from linework.sheet.parts import draw_parts, seat_of
from tests.chance import ALL
from tests.chance import draft as random_draft
from tests.designs import drafts
from tests.sheet.measures import measured
from tests.sheet.plainness import overlaps
from tests.sheet.samples import reversed_order


def _spots(design: Design) -> dict[str, tuple[int, int, int, bool]]:
    return {part.id: (part.x, part.y, part.sheet, part.mirror) for part in design.parts}


@given(drafts())
@examples(max_examples=20)
def test_nothing_overlaps_and_all_lies_on_the_paper(draft: Draft) -> None:
    design = lay_out(draft.design)
    drawings = draw_parts(design, at_origin=False)
    frame = frame_of(design.settings.sheet)
    assert overlaps(drawings) == []
    for drawing in drawings.values():
        assert frame.area.contains(drawing.box), drawing.id
        assert not frame.block.overlaps(drawing.box), drawing.id


@given(drafts())
@examples(max_examples=8)
def test_all_lies_on_the_grid(draft: Draft) -> None:
    design = lay_out(draft.design)
    for part in design.parts:
        if seat_of(design, part) is None:
            assert part.x % MODULE == part.y % MODULE == 0
            assert part.x > 0
            assert part.y > 0


@given(drafts())
@examples(max_examples=8)
def test_the_order_in_the_file_and_where_parts_lay_are_all_the_same(draft: Draft) -> None:
    once = _spots(lay_out(draft.design))
    assert _spots(lay_out(reversed_order(draft.design))) == once
    assert _spots(lay_out(lay_out(draft.design))) == once


HARD = (8, 44, 50, 53, 56, 70, 90, 94, 96, 118, 126, 129, 133, 141, 154)
"""Of cut conductors that share a terminal, of ties, of several sheets, with little room."""
CHOSEN = range(ALL) if ALL else sorted({*HARD, *Random(1).sample(range(200), 25)})


@pytest.mark.parametrize("number", CHOSEN)
def test_nothing_is_lost_and_nothing_lies_on_anything(number: int) -> None:
    """LINEWORK_RANDOM_DESIGNS=200 arranges 200 designs of chance instead of a seeded choice."""
    design = lay_out(random_draft(number).design)
    sheets = compose_all(design)
    drawn = [key for sheet in sheets for key in sheet.drawings]
    assert sorted(drawn) == sorted(part.id for part in design.parts)
    laid = {key for sheet in sheets for key in sheet.items}
    assert {run.id for run in design.runs} <= laid
    for sheet in sheets:
        found = measured(design, sheet)
        assert found.overlaps == []
        assert found.erased == []
        assert found.outside == []
        assert found.through == []
        assert found.touching == []
        assert sheet.outside == ()
        assert sheet.lost == ()
