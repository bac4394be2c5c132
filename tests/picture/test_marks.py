"""The signs on conductors: counts, proportions, and what is refused."""

from __future__ import annotations

import pytest

from linework.picture import marks
from linework.picture.inks import Ink
from linework.picture.measure import bounds
from linework.picture.model import Arc, Circle, Line, Polyline


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
