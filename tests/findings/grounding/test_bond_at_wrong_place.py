"""The link sits where it must not."""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import CORD, camp, caravan, levels
from tests.findings.told import found

RULE = "bond-at-wrong-place"


def beyond(bond: str) -> Draft:
    """A floating set, a first board and a second one behind it; the link in one of them."""
    draft = camp(neutral="floating")
    draft.part("breaker", "QF3", rating="20 A")
    draft.seat("QF3", "QP1", "3")
    draft.part("panel", "QP2", bond="absent", bus="60 A")
    draft.run("QF3.load", "QP2.feed", "W4", size="12 AWG", length="30 ft")
    draft.rate(bond, bond="fitted")
    return draft


def test_a_recreational_vehicles_board_never_carries_it() -> None:
    # NFPA 70 551.54(C): the grounded conductor is insulated from the enclosure
    draft = caravan(neutral="floating")
    draft.rate("QP1", bond="fitted")
    assert levels(draft, RULE) == {("QP1",): Level.DANGER}


def test_the_board_of_another_vehicle_may_on_its_own_floating_set() -> None:
    draft = caravan("vehicle", neutral="floating")
    draft.rate("QP1", bond="fitted")
    assert found(draft, RULE) == []


def shored(place: str) -> Draft:
    draft = Draft(place=place)
    draft.part("supply", "GS1", breaker="30 A")
    draft.part("inlet", "XI1", configuration="TT-30")
    draft.run("GS1.out", "XI1.outside", "W1", length="25 ft", **CORD)
    draft.part("panel", "QP1", bond="fitted")
    draft.run("XI1.inside", "QP1.feed", "W2", size="10 AWG", length="5 ft")
    draft.part("body", "XB1")
    draft.run("QP1.ground", "XB1.tie", "W3", size="8 AWG", length="2 ft", installation="jumper")
    return draft


def test_no_vehicles_or_boats_board_carries_it_while_shore_feeds_it() -> None:
    for place in ("recreational", "vehicle", "boat"):
        assert levels(shored(place), RULE) == {("QP1",): Level.DANGER}


def test_it_stands_under_the_doubled_link_that_it_makes() -> None:
    doubled = found(shored("vehicle"), "bond-doubled")
    assert [c.rule for c in doubled[0].consequences] == [RULE]


def test_the_only_link_beyond_the_first_board_is_a_danger() -> None:
    # NFPA 70 250.30(A)(1): at the source or its first disconnect
    assert levels(beyond("QP2"), RULE) == {("QP2",): Level.DANGER}


def test_in_the_first_board_it_is_silent() -> None:
    assert found(beyond("QP1"), RULE) == []
