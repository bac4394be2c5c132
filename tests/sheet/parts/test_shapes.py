"""Boards drawn to what sits in them."""

from __future__ import annotations

from linework.design import Draft
from linework.picture.model import Text
from linework.sheet.parts.shapes import rows_of, symbol_of


def test_a_breaker_of_two_poles_takes_one_row_with_both_numbers() -> None:
    draft = Draft(place="building")
    board = draft.part("panel", "QP1", circuit="split", places="6")
    draft.part("breaker", "QF1", circuit="ac240", rating="20 A")
    draft.part("breaker", "QF2", rating="20 A")
    draft.seat("QF1", "QP1", "1")
    draft.seat("QF2", "QP1", "2")
    assert rows_of(draft.design, board) == ("1", "2", "4", "5", "6")
    symbol = symbol_of(draft.design, board)
    assert set(symbol.places) == {"1", "2", "4", "5", "6"}
    texts = [item for item in symbol.group.items if isinstance(item, Text)]
    assert {item.text for item in texts} >= {"1", "2", "3", "4", "5", "6"}
    (first, third) = (next(t for t in texts if t.text == name) for name in "13")
    assert third.x == first.x
    assert first.y < third.y < symbol.places["2"].y
