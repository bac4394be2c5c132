"""What has a position stays; what has none finds a place beside what it is joined to."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import settings as examples
from hypothesis import strategies as st

from linework.design import Design, Draft, changed
from linework.sheet.arranging import lay_out, needs_arranging, place_new
from linework.sheet.frame import frame_of
from linework.sheet.parts import draw_parts, seat_of
from linework.sheet.routing import end_of
from tests.designs import drafts
from tests.sheet.plainness import overlaps
from tests.sheet.samples import trailer, unplaced


def _forgotten(design: Design, *names: str) -> Design:
    """The design, some of whose parts have no position."""
    copy = design.snapshot()
    copy.apply(changed("", [(p, replace(p, x=0, y=0)) for p in map(copy.part, names)]))
    return copy


def _spots(design: Design) -> dict[str, tuple[int, int, int, int, bool]]:
    return {p.id: (p.x, p.y, p.sheet, p.turn, p.mirror) for p in design.parts}


def test_a_design_that_is_drawn_needs_nothing() -> None:
    assert not needs_arranging(trailer())
    assert needs_arranging(_forgotten(trailer(), "EX3"))


def test_where_nothing_has_a_position_all_is_laid_out() -> None:
    assert _spots(place_new(unplaced())) == _spots(lay_out(unplaced()))


@pytest.mark.parametrize("names", [("EX3",), ("QT1",), ("GB1",), ("QP1", "EX1", "XB1")])
def test_nothing_else_moves(names: tuple[str, ...]) -> None:
    before = trailer()
    after = place_new(_forgotten(before, *names))
    assert not needs_arranging(after)
    moved = {key for key, spot in _spots(after).items() if spot != _spots(before)[key]}
    assert moved <= set(names)
    assert overlaps(draw_parts(after, at_origin=False)) == []


def test_a_load_without_a_position_lies_level_with_its_breaker() -> None:
    drawings = draw_parts(place_new(_forgotten(trailer(), "EX3")), at_origin=False)
    feed, load = end_of(drawings, "QF3", "load"), end_of(drawings, "EX3", "in")
    assert feed[1] == load[1]
    assert feed[0] < load[0]


def test_a_part_that_is_joined_to_nothing_lies_on_the_paper() -> None:
    draft = Draft()
    draft.part("lamp", "EL1", at=(1000, 1000))
    draft.part("lamp", "EL2")
    laid = place_new(draft.design)
    drawing = draw_parts(laid, at_origin=False)["EL2"]
    assert frame_of("A3").area.contains(drawing.box)


@given(drafts(), st.data())
@examples(max_examples=10)
def test_whatever_lacks_a_position_nothing_overlaps(draft: Draft, data: st.DataObject) -> None:
    laid = lay_out(draft.design)
    tops = sorted(part.id for part in laid.parts if seat_of(laid, part) is None)
    names = data.draw(st.lists(st.sampled_from(tops), min_size=1, unique=True))
    after = place_new(_forgotten(laid, *names))
    assert not needs_arranging(after)
    assert overlaps(draw_parts(after, at_origin=False)) == []
    if len(names) < len(tops):
        moved = {key for key, spot in _spots(after).items() if spot != _spots(laid)[key]}
        assert moved <= set(names)


def test_a_fuse_without_a_position_lies_level_with_the_arm_of_a_fork() -> None:
    draft = Draft()
    draft.part("battery", "GB1", at=(600, 1000), voltage="12 V")
    draft.part("fuse", "F1", rating="50 A")
    draft.part("busbar", "WC1", bar="minus", at=(1500, 1600))
    draft.run("GB1.dc", "F1.line", poles="+>+", size="6 AWG", length="1 ft")
    draft.run("GB1.dc", "WC1.feed", poles="->-", size="6 AWG", length="1 ft")
    drawings = draw_parts(place_new(draft.design), at_origin=False)
    plus, line = drawings["GB1"].anchors["dc.+"], end_of(drawings, "F1", "line")
    assert plus[1] == line[1]
    assert plus[0] < line[0]
