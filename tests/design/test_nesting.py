"""Nothing sits in itself, by whatever way: who follows seats comes to an end."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linework.design import Design, Draft, EditError, Part, Seat, changed
from linework.design.edits import seat
from linework.design.edits.seats import why_no_seat
from linework.design.integrity import flaws_of
from linework.design.nesting import DEEPEST, nesting_faults
from linework.storage import FileFaults, dumps, loads_with_warnings


def cords(number: int) -> Draft:
    draft = Draft()
    for count in range(1, number + 1):
        draft.part("cord_set", f"WX{count}")
    return draft


@pytest.mark.parametrize("number", [2, 3, 5])
def test_a_ring_of_seats_is_refused_by_the_edit(number: int) -> None:
    draft = cords(number)
    for one, other in pairwise(range(1, number + 1)):
        draft.seat(f"WX{one}", f"WX{other}", "face")
    why = why_no_seat(draft.design, f"WX{number}", "WX1", "face")
    assert why == f"WX{number} cannot sit in WX1, which sits in WX{number} itself"
    with pytest.raises(EditError, match="which sits in"):
        seat(draft.design, f"WX{number}", "WX1", "face")


def test_no_change_whatever_makes_a_ring() -> None:
    draft = cords(2)
    seats = [Seat("s1", "WX1", "WX2", "face"), Seat("s2", "WX2", "WX1", "face")]
    before = draft.design.snapshot()
    with pytest.raises(EditError, match="which sits in"):
        draft.design.apply(changed("", [(None, one) for one in seats]))
    assert draft.design.same_as(before)


@pytest.mark.parametrize("strict", [True, False])
@pytest.mark.parametrize("kind", ["cord_set", "flux_converter"])
def test_a_ring_of_seats_is_refused_by_the_reader(kind: str, strict: bool) -> None:
    design = Design()
    parts = [Part(f"p{n}", kind, f"WX{n}") for n in range(3)]
    ring = [Seat(f"s{n}", f"p{n}", f"p{(n + 1) % 3}", "face") for n in range(3)]
    other = [Part("x", "outlet", "X1"), Part("y", "plug_load", "E1"), Seat("sy", "y", "x", "face")]
    design.apply(changed("", [(None, element) for element in (*parts, *ring[:2], *other)]))
    text = dumps(design).decode()
    line = '{"id": "s2", "part": "p2", "in": "p0", "place": "face"},\n'
    data = text.replace('"seats": [\n', '"seats": [\n' + line).encode()
    with pytest.raises(FileFaults) as caught:
        loads_with_warnings(data, "a", strict=strict)
    told = [fault for fault in caught.value.faults if "itself" in fault.message]
    assert len(told) == 3  # each seat of the ring, and no other
    assert all(fault.path.startswith("seats[") for fault in told)


def test_a_chain_is_as_deep_as_it_may_be_and_no_deeper() -> None:
    draft = cords(DEEPEST + 2)
    for one, other in pairwise(range(1, DEEPEST + 2)):
        draft.seat(f"WX{one}", f"WX{other}", "face")
    assert flaws_of(draft.design) == []
    with pytest.raises(EditError, match="one in the other"):
        draft.seat(f"WX{DEEPEST + 1}", f"WX{DEEPEST + 2}", "face")


@given(st.lists(st.tuples(st.sampled_from("abcdef"), st.sampled_from("abcdef")), max_size=12))
def test_without_a_fault_every_way_up_ends(seats: list[tuple[str, str]]) -> None:
    faults = nesting_faults(seats, str)
    left = [pair for number, pair in enumerate(seats) if number not in faults]
    reached = {pair[0] for pair in left}
    for _ in range(len(left) + 1):
        reached = {host for part, host in left if part in reached}
    assert not reached
    assert not nesting_faults(left, str)
    if faults:  # and each that is named is one of a ring
        for number, (part, host) in enumerate(seats):
            ways = {host}
            for _ in seats:
                ways |= {up for below, up in seats if below in ways}
            assert (part in ways) == (number in faults)
