"""Heads of boards and sources tell what runs there; mains and free places are drawn."""

from __future__ import annotations

from linework.design import Draft
from linework.kinds import Answer
from linework.picture.model import Arc, Text, flatten
from linework.sheet.parts import PartDrawing, draw_part, wanted_for_part
from linework.sheet.parts.captions import system_of


def _drawn(kind: str, **ratings: Answer) -> tuple[str, PartDrawing]:
    draft = Draft()
    part = draft.part(kind, "P1", at=(1000, 1000), **ratings)
    return system_of(draft.design, part), draw_part(draft.design, part, at_origin=False)


def _words(drawing: PartDrawing) -> list[str]:
    return [f.item.text for f in flatten([drawing.group]) if isinstance(f.item, Text)]


def test_the_head_tells_voltage_kind_of_current_and_poles() -> None:
    system, board = _drawn("panel", voltage="120 V")
    assert system == "120 V AC L N"
    assert board.head[0][-1].text == system
    assert _drawn("battery", voltage="12 V")[0] == "12 V DC + \N{MINUS SIGN}"
    assert _drawn("battery")[0].startswith("[12 V]"), "assumed stands in brackets"
    assert _drawn("panel")[0] == system, "that of the design is given"
    assert _drawn("body")[0] == ""


def test_a_main_is_drawn_and_its_rating_stands_at_it() -> None:
    _, without = _drawn("panel", voltage="120 V")
    _, board = _drawn("panel", voltage="120 V", main="30 A")
    assert "main 30 A" in _words(board)
    assert not any("main" in word for word in _words(without))
    arcs = [f.item for f in flatten([board.group]) if isinstance(f.item, Arc)]
    assert arcs
    assert board.anchors["feed"][0] < without.anchors["feed"][0]
    assert board.box.left < without.box.left
    assert not any("30 A" in span.text for row in board.captions for span in row)


def test_free_places_are_called_free() -> None:
    draft = Draft()
    board = draft.part("panel", "QP1", at=(1000, 1000), places="4")
    draft.part("breaker", "QF1", rating="20 A")
    draft.seat("QF1", "QP1", "2")
    words = _words(draw_part(draft.design, board, at_origin=False))
    assert words.count("free") == 3
    assert {"1", "2", "3", "4"} <= set(words)


def test_a_head_gives_up_its_place_beside_before_its_title() -> None:
    """Narrower forms put what runs there below; the last but one still has the title."""
    draft = Draft()
    part = draft.part("supply", "GS1", "utility", at=(1000, 1000), voltage="120 V", breaker="100 A")
    forms = wanted_for_part(draw_part(draft.design, part, at_origin=False), 1).shapes
    told = [[" ".join(span.text for span in row) for row in form] for form in forms]
    assert ["GS1 utility", "120 V AC L N", "breaker 100 A"] in told
    assert told[-2:] == [["GS1 utility"], ["GS1"]]
