"""Generator, cord set, inlet by the drags that come to mind first; what cannot go there says what
can, where the pointer is."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from linework.design import Draft
from tests.bench.hands import Hand, hand_on


@pytest.fixture
def hand(qtbot: QtBot) -> Hand:
    draft = Draft(place="vehicle")
    draft.part("generator", "G1", at=(500, 600), power="5 kVA")
    draft.part("outlet", "XD1", at=(1000, 600), configuration="L5-30")
    cord = {"configuration": "L5-30", "size": "10 AWG", "length": "25 ft"}
    draft.part("cord_set", "WX1", at=(1600, 1200), **cord)
    draft.part("inlet", "XI1", at=(2300, 600), configuration="L5-30")
    draft.part("breaker", "QF1", at=(2900, 600), rating="30 A")
    draft.run("G1.out", "XD1.feed")
    draft.run("XI1.inside", "QF1.line")
    return hand_on(qtbot, draft.design)


def seats(hand: Hand) -> set[tuple[str, str, str]]:
    return {(seat.part, seat.host, seat.place) for seat in hand.design.seats}


def test_a_cord_dropped_on_an_inlet_goes_on_it_and_the_inlet_stays_where_it_lies(
    hand: Hand,
) -> None:
    at = hand.anchor("XI1", "outside")
    hand.drag(hand.middle("WX1"), hand.middle("XI1"))
    assert seats(hand) == {("XI1", "WX1", "face")}
    assert hand.anchor("XI1", "outside") == at
    assert hand.anchor("WX1", "face") == at
    hand.view.history.undo()
    assert seats(hand) == set()


@pytest.mark.parametrize(
    ("begin", "goal"),
    [(("WX1", "face"), ("XI1", "outside")), (("XI1", "outside"), ("WX1", "face"))],
    ids=["from the free end", "from the inlet"],
)
def test_a_free_end_is_drawn_into_an_inlet_from_either_side(
    hand: Hand, begin: tuple[str, str], goal: tuple[str, str]
) -> None:
    runs = len(hand.design.runs)
    hand.drag(hand.anchor(*begin), hand.anchor(*goal))
    assert seats(hand) == {("XI1", "WX1", "face")}
    assert len(hand.design.runs) == runs, "no cable is drawn from a mouth to pins"


def test_both_ends_of_a_cord(hand: Hand) -> None:
    hand.drag(hand.middle("WX1"), hand.middle("XD1"))
    hand.view.sync.settle()
    hand.drag(hand.anchor("WX1", "face"), hand.middle("XI1"))
    assert seats(hand) == {("WX1", "XD1", "face"), ("XI1", "WX1", "face")}


def test_a_cord_dropped_on_a_generator_says_what_takes_it(hand: Hand) -> None:
    before = hand.anchor("WX1", "face")
    hand.press(hand.middle("WX1"))
    hand.move(hand.middle("G1"))
    assert "outlet" in hand.hint()
    hand.release(hand.middle("G1"))
    assert seats(hand) == set()
    assert hand.anchor("WX1", "face") == before
    assert "outlet" in hand.said[-1]
    assert "outlet" in hand.hint(), "where the pointer is"


def test_a_wire_is_drawn_from_a_breaker_to_an_outlet_that_could_sit_behind_it(hand: Hand) -> None:
    hand.drag(hand.anchor("QF1", "load"), hand.anchor("XD1", "feed"))
    assert seats(hand) == set()
    assert len(hand.design.runs) == 3
