"""Placings, groups and flattening: pure geometry, checked by its own laws."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linework.picture.geometry import HERE, Box, Placing, box_around
from linework.picture.inks import Ink, Pen
from linework.picture.measure import box_of
from linework.picture.model import (
    Arc,
    Circle,
    Group,
    Item,
    Line,
    Link,
    Polyline,
    Rect,
    Target,
    Text,
    flatten,
    joined_inks,
    pieces,
)

NUMBERS = st.integers(-500, 500)
PLACINGS = st.builds(Placing, NUMBERS, NUMBERS, st.integers(0, 3), st.booleans())


@given(PLACINGS, PLACINGS, NUMBERS, NUMBERS)
def test_a_placing_after_another_does_what_both_do_in_turn(
    inner: Placing, outer: Placing, x: int, y: int
) -> None:
    assert inner.after(outer).point(x, y) == outer.point(*inner.point(x, y))


def test_a_quarter_turn_is_clockwise_on_paper() -> None:
    assert Placing(turn=1).point(10, 0) == (0, 10)
    assert Placing(turn=1).angle(0) == 90


def test_a_mirror_comes_before_the_turn() -> None:
    assert Placing(turn=1, mirror=True).point(10, 0) == (0, -10)


@given(PLACINGS)
def test_angles_turn_as_points_do(at: Placing) -> None:
    for degrees, vector in ((0, (1, 0)), (90, (0, 1)), (180, (-1, 0)), (270, (0, -1))):
        turned = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}[at.angle(degrees)]
        assert turned == at.vector(*vector)


SHAPES: list[Item] = [
    Line(1, 2, 30, 4),
    Polyline(((0, 0), (10, 5), (3, 9)), closed=True),
    Rect(1, 2, 30, 4, radius=1),
    Circle(3, 4, 5),
    Arc(10, 20, 30, 12, 0, 90),
    Arc(10, 20, 30, 12, 200, -130),
    Link("there", 1, 2, 3, 4),
    Target("here", 5, 6),
]


@pytest.mark.parametrize("shape", SHAPES, ids=lambda shape: type(shape).__name__)
@given(at=PLACINGS)
def test_the_box_of_a_placed_shape_is_the_placed_box(shape: Item, at: Placing) -> None:
    assert not isinstance(shape, Group)
    before = box_of(shape)
    corners = [at.point(before.left, before.top), at.point(before.right, before.bottom)]
    assert box_of(shape.placed(at)) == box_around(corners)


def test_an_arc_keeps_its_ends_when_mirrored() -> None:
    # From the right, clockwise to below; mirrored: from the left, against the clock to below.
    assert Arc(0, 0, 9, 9, 0, 90).placed(Placing(mirror=True)) == Arc(0, 0, 9, 9, 180, -90)


def test_text_stays_upright_and_hangs_from_the_other_end() -> None:
    text = Text(10, 0, "G", across="start", level="base")
    mirrored = text.placed(Placing(mirror=True))
    assert (mirrored.x, mirrored.across, mirrored.level) == (-10, "end", "base")
    assert not mirrored.upward


@given(PLACINGS, st.sampled_from(["start", "middle", "end"]), st.booleans())
def test_text_extends_to_the_side_to_which_its_place_is_turned(
    at: Placing, across: str, upward: bool
) -> None:
    """The middle of its box lies, seen from its point, where the placing turns the old middle."""
    text = Text(0, 0, "Hxxxxxxx", 30, across, "top", upward=upward)  # type: ignore[arg-type]
    placed = text.placed(at)
    old = at.vector(*_side(box_of(text), 0, 0))
    assert _side(box_of(placed), placed.x, placed.y) == old


def _side(box: Box, x: int, y: int) -> tuple[int, int]:
    """To which side of the point the box lies; within 2 tenths it lies about the point."""
    doubled = (box.left + box.right - 2 * x, box.top + box.bottom - 2 * y)
    dx, dy = (0 if abs(value) <= 2 else value // abs(value) for value in doubled)
    return dx, dy


def test_flatten_keeps_order_and_gives_the_innermost_tag() -> None:
    inner = Group((Line(0, 0, 1, 0),), x=5, tag="B1")
    drawing = (Group((Circle(0, 0, 1), inner), x=100, turn=1, tag="A1"), Line(0, 0, 2, 0))
    flats = list(flatten(drawing))
    assert [flat.tag for flat in flats] == ["A1", "B1", ""]
    assert flats[1].item == Line(100, 5, 100, 6)


def test_groups_exchange_inks_the_inner_first() -> None:
    inner = Group((Line(0, 0, 1, 0), Circle(0, 0, 1, None, Ink.TINT)), inks=((Ink.INK, Ink.QUIET),))
    outer = Group((inner, Line(0, 0, 1, 1)), inks=((Ink.QUIET, Ink.SOURCE_1),))
    line, circle, other = (flat.item for flat in flatten((outer,)))
    assert isinstance(line, Line)
    assert line.pen.ink is Ink.SOURCE_1
    assert circle == Circle(0, 0, 1, None, Ink.TINT)
    assert other == Line(0, 0, 1, 1)


@given(
    st.dictionaries(st.sampled_from(list(Ink)), st.sampled_from(list(Ink)), max_size=3),
    st.dictionaries(st.sampled_from(list(Ink)), st.sampled_from(list(Ink)), max_size=3),
)
def test_joined_inks_do_what_both_do(inner: dict[Ink, Ink], outer: dict[Ink, Ink]) -> None:
    joined = dict(joined_inks(tuple(inner.items()), tuple(outer.items())))
    for ink in Ink:
        first = inner.get(ink, ink)
        assert joined.get(ink, ink) == outer.get(first, first)


def test_named_groups_can_be_kept_whole_at_their_place() -> None:
    named = Group((Line(0, 0, 1, 0),), x=3, name="lamp")
    (kept,) = pieces((Group((named,), x=10),), keep_named=True)
    assert kept.item == named
    assert named.placing.after(kept.at) == Placing(13, 0)
    with pytest.raises(TypeError, match="group"):
        kept.flat()


def test_boxes_touching_at_an_edge_do_not_overlap() -> None:
    assert not Box(0, 0, 10, 10).overlaps(Box(10, 0, 20, 10))
    assert Box(0, 0, 10, 10).overlaps(Box(9, 9, 20, 20))
    assert Box(0, 0, 10, 10).contains(Box(0, 2, 10, 8))
    assert Box(0, 0, 10, 10).holds(10, 10)


def test_nothing_moves_at_home() -> None:
    line = Line(1, 2, 3, 4, Pen(Ink.NOTE))
    assert line.placed(HERE) == line
