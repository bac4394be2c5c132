from __future__ import annotations

import pytest

from linework.design import Design, Draft
from linework.design.edits import add_interlock, rate, seat, unseat
from linework.design.edits.seats import place_of, places_of, why_no_seat
from tests.design.sketches import done, refused, shed, untouched


@pytest.fixture
def design() -> Design:
    draft = shed()
    draft.part("breaker", "QF2", rating="15 A")
    draft.part("breaker", "QF3", circuit="ac240", rating="15 A")
    draft.part("outlet", "XD3")
    draft.part("fuse", "F1", rating="10 A")
    draft.part("battery", "GB1")
    draft.part("plug", "XP2", circuit="split")
    draft.part("panel", "QP2", circuit="split")
    return draft.design


@pytest.mark.parametrize(
    ("part", "host", "place"),
    [
        ("QF2", "QP1", "2"),
        ("QF2", "QP2", "3"),  # a single-pole breaker on one leg
        ("QF3", "QP2", "3"),  # a two-pole one on both
        ("QF2", "G1", "1"),
        ("XD3", "G1", "2"),
        ("XD3", "QF2", "load"),
        ("F1", "GB1", "post"),
        ("EP1", "XD3", "face"),
        ("XP1", "XD3", "face"),
        ("EP1", "XD1", "face"),  # a plug may also be put there
    ],
)
def test_a_part_is_seated(design: Design, part: str, host: str, place: str) -> None:
    with untouched(design):
        change = seat(design, part, host, place)
    assert change.title == f"{part} into {host}"
    made = done(design, change).seats[-1]
    assert (made.part, made.host, made.place) == (part, host, place)


@pytest.mark.parametrize(
    ("part", "host", "place", "reason"),
    [
        ("nobody", "QP1", "2", "this part is no longer there"),
        ("QF2", "nobody", "2", "this part is no longer there"),
        ("QF2", "QP1", "7", "QP1 has no place '7'"),
        ("QF2", "EA1", "1", "EA1 has no place '1'"),
        ("QF2", "QF2", "load", "QF2 cannot sit in itself"),
        ("EA1", "QP1", "2", "EA1 does not sit in QP1"),
        ("XD3", "QP1", "2", "XD3 does not sit in QP1"),
        ("QF2", "QP1", "1", "place 1 of QP1 is taken"),
        ("QF1", "QP1", "2", "QF1 sits elsewhere already"),
        ("QF3", "QP1", "2", "QF3 needs L1, L2, which place 2 of QP1 does not have"),
        ("F1", "QP1", "2", r"F1 needs \+, -, which place 2 of QP1 does not have"),
        ("XP2", "XD3", "face", "XP2 needs L1, L2, which place face of XD3 does not have"),
        ("XP1", "XD1", "face", "XP1 can be put there already"),
    ],
)
def test_a_seat_is_refused(design: Design, part: str, host: str, place: str, reason: str) -> None:
    with refused(design, reason):
        seat(design, part, host, place)
    if "nobody" not in (part, host):
        assert why_no_seat(design, part, host, place)


def test_two_plugs_may_be_meant_for_one_outlet() -> None:
    draft = shed()
    draft.part("plug", "XP2")
    assert done(draft.design, seat(draft.design, "XP2", "XD1", "face"))


def test_what_sits_is_taken_out(design: Design) -> None:
    (old,) = design.seats_of("QF1")
    with untouched(design):
        change = unseat(design, old.id)
    after = done(design, change)
    assert after.seats_of("QF1") == []
    assert after.seats_of("XP1") == design.seats_of("XP1")
    for gone in (old.id, "QF1"):
        with refused(after, "this seat is no longer there"):
            unseat(after, gone)


def test_interlocks_lose_the_position_of_a_plug_taken_out(design: Design) -> None:
    items = [("XP1", "plug", "XD1"), ("XP1", "plug", "XD2"), ("G1", "set", "running")]
    design.apply(add_interlock(design, items))
    first = next(s for s in design.seats_of("XP1") if s.host == "XD1")
    after = done(design, unseat(design, first.id))
    assert after.interlocks[0].excludes == tuple(items[1:])
    second = next(s for s in after.seats_of("XP1") if s.host == "XD2")
    assert done(after, unseat(after, second.id)).interlocks == []


def test_places_by_name() -> None:
    design = Draft().design
    draft = Draft()
    host = draft.part("panel", "QP1", places="3")
    design = draft.design
    assert [place.name for place in places_of(design, host)] == ["1", "2", "3"]
    found = place_of(design, host, "2")
    assert found is not None
    assert found.name == "2"
    assert place_of(design, host, "4") is None


def two_legs() -> Draft:
    draft = Draft(place="building")
    draft.part("panel", "QP1", circuit="split", places="6")
    draft.part("breaker", "QF1", circuit="ac240", rating="20 A")
    for name in ("QF2", "QF3"):
        draft.part("breaker", name, rating="20 A")
    return draft


def test_a_breaker_of_two_poles_takes_the_place_below_too() -> None:
    draft = two_legs()
    draft.seat("QF1", "QP1", "1")
    assert why_no_seat(draft.design, "QF2", "QP1", "3") == "place 3 of QP1 is taken"
    assert why_no_seat(draft.design, "QF2", "QP1", "2") == ""
    assert why_no_seat(draft.design, "QF2", "QP1", "5") == ""


def test_it_finds_no_room_where_the_place_below_is_taken_or_missing() -> None:
    draft = two_legs()
    draft.seat("QF2", "QP1", "3")
    assert why_no_seat(draft.design, "QF1", "QP1", "1") == "place 3 of QP1 is taken"
    assert "none lies below place 5" in why_no_seat(draft.design, "QF1", "QP1", "5")
    assert why_no_seat(draft.design, "QF1", "QP1", "2") == ""


def test_a_breaker_does_not_become_one_of_two_poles_where_it_has_no_room() -> None:
    draft = two_legs()
    draft.seat("QF2", "QP1", "1")
    draft.seat("QF3", "QP1", "3")
    with refused(draft.design, "place 3 of QP1 is taken"):
        rate(draft.design, "QF2", {"circuit": "ac240"})
    draft.remove("QF3")
    draft.rate("QF2", circuit="ac240")
