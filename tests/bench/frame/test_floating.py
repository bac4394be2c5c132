"""Where the card floats."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRect, QSize

from linework.bench.frame.floating import place_beside, regrown

ROOM = QRect(0, 0, 1000, 700)


@pytest.mark.parametrize("x", [20, 480, 940])
@pytest.mark.parametrize("y", [20, 330, 640])
def test_the_card_lies_in_the_window_and_off_its_part(x: int, y: int) -> None:
    part = QRect(x, y, 40, 40)
    place = place_beside(part, QSize(300, 250), ROOM, [])
    assert ROOM.contains(place)
    assert not place.intersects(part)


def test_the_card_keeps_off_what_else_is_drawn_where_it_can() -> None:
    part = QRect(480, 330, 40, 40)
    others = [QRect(530, 100, 400, 500)]
    place = place_beside(part, QSize(300, 250), ROOM, others)
    assert not place.intersects(others[0])


def test_a_card_that_says_more_keeps_its_upper_edge_and_grows_over_nothing() -> None:
    room, part = QRect(0, 0, 1000, 700), QRect(500, 300, 60, 40)
    lain = QRect(600, 200, 300, 200)
    assert regrown(lain, 260, part, room) == QRect(600, 200, 300, 260)
    assert regrown(lain, 900, part, room).bottom() < room.bottom(), "not out of the room"
    above = QRect(400, 80, 300, 200)
    grown = regrown(above, 400, part, room)
    assert grown.topLeft() == above.topLeft()
    assert not grown.intersects(part), "not over its part"


def test_a_card_larger_than_the_window_is_cut_to_it() -> None:
    place = place_beside(QRect(10, 10, 40, 40), QSize(3000, 2500), ROOM, [])
    assert ROOM.contains(place)
