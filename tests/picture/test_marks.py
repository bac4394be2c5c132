"""The signs on conductors: counts, proportions, and what is refused."""

from __future__ import annotations

import pytest

from linework.picture import marks
from linework.picture.inks import Ink
from linework.picture.measure import bounds
from linework.picture.model import Arc, Circle, Line, Polyline, Text


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_a_few_conductors_are_told_by_as_many_strokes(count: int) -> None:
    strokes = marks.ticks(count)
    assert len(strokes) == count
    box = bounds(strokes)
    assert box is not None
    assert abs(box.left + box.right) <= 2


def test_many_conductors_are_told_by_a_number() -> None:
    stroke, number = marks.ticks(7)
    assert isinstance(stroke, Line)
    assert isinstance(number, Text)
    assert number.text == "7"


def test_no_conductor_is_no_line() -> None:
    with pytest.raises(ValueError, match="at least one"):
        marks.ticks(0)


def test_the_ground_wire_has_a_bar() -> None:
    """IEC 60617 S00447."""
    stroke, bar = marks.ground_mark()
    assert isinstance(stroke, Line)
    assert isinstance(bar, Line)
    assert (bar.x1 + bar.x2, bar.y1 + bar.y2) == (2 * stroke.x2, 2 * stroke.y2)


def test_earth_bars_shrink_three_two_one() -> None:
    """IEC 60617 S00200."""
    bars = [item for item in marks.earth(0, 0, 90) if isinstance(item, Line)]
    assert [bar.x2 - bar.x1 for bar in bars] == [90, 60, 30]


def test_the_sign_of_direct_current_is_a_line_over_three_dashes() -> None:
    over, *dashes = marks.direct(0, 0, 70)
    assert isinstance(over, Line)
    assert all(isinstance(dash, Line) and dash.y1 > over.y1 for dash in dashes)
    assert len(dashes) == 3


def test_a_jump_bows_over_the_line_it_crosses() -> None:
    (bow,) = marks.jump(0, 0, 12)
    assert isinstance(bow, Arc)
    box = bounds([bow])
    assert box is not None
    assert box.top < -11
    assert box.bottom <= 2


def test_an_arrow_points_at_its_second_end() -> None:
    line, head = marks.arrow(0, 0, 100, 0, size=20)
    assert isinstance(line, Line)
    assert isinstance(head, Polyline)
    assert head.points[0] == (100, 0)
    assert (line.x2, line.y2) == (80, 0)
    assert head.fill is Ink.INK
    with pytest.raises(ValueError, match="two different ends"):
        marks.arrow(5, 5, 5, 5)


def test_an_interlock_is_level_or_plumb() -> None:
    assert len(marks.interlock(0, 0, 100, 0)) == 2
    with pytest.raises(ValueError, match="level or plumb"):
        marks.interlock(0, 0, 10, 10)


def test_a_junction_is_a_full_dot() -> None:
    (dot,) = marks.junction(5, 6)
    assert dot == Circle(5, 6, 9, None, Ink.INK)
