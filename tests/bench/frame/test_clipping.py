"""Copying and pasting."""

from __future__ import annotations

import pytest

from linework.bench.frame.clipping import copied, pasted
from linework.bench.frame.interlocking import interlock
from linework.design import Draft, EditError
from linework.design.edits import add_note, reroute
from linework.storage import dumps, loads
from tests.bench.benches import small, two_sources


def test_a_copy_has_its_own_ids_and_names_and_keeps_its_runs_and_seats() -> None:
    design = two_sources().design
    text = copied(design, ("QP1", "EL1"))
    change, ids = pasted(design, text, 1)
    assert len(ids) == 3
    design.apply(change)
    names = sorted(p.designation for p in design.parts)
    assert names == ["EL1", "EL2", "G1", "GS1", "QF1", "QF2", "QP1", "QP2", "QT1"]
    assert len(design.runs) == 5
    assert len(design.seats) == 2
    board = design.by_designation("QP2")
    assert [design.part(s.part).designation for s in design.seated_in(board.id)] == ["QF2"]
    assert loads(dumps(design), "x").same_as(design)


def test_pasting_twice_and_taking_it_back() -> None:
    design = small().design
    text = copied(design, ("EL1",))
    for _ in range(2):
        change, _ = pasted(design, text, 1)
        design.apply(change)
    assert sorted(p.designation for p in design.parts if p.kind == "lamp") == ["EL1", "EL2", "EL3"]
    before = design.snapshot()
    change, _ = pasted(design, text, 1)
    design.apply(change)
    design.apply(change.inverse())
    assert design.same_as(before)


def test_copies_do_not_lie_on_one_another_or_lie_where_the_hand_points() -> None:
    design = small().design
    text = copied(design, ("EL1",))
    for _ in range(3):
        design.apply(pasted(design, text, 1)[0])
    lamps = [(p.x, p.y) for p in design.parts if p.kind == "lamp"]
    assert len(set(lamps)) == 4
    change, (lamp,) = pasted(design, text, 1, at=(2000, 1500))
    design.apply(change)
    assert (design.part(lamp).x, design.part(lamp).y) == (2000, 1500)


def test_copies_are_numbered_in_the_order_of_what_was_copied() -> None:
    draft = Draft(place="field")
    for number in range(1, 13):
        draft.part("lamp", f"EL{number}", title=f"lamp {number}")
    design = draft.design
    design.apply(pasted(design, copied(design, tuple(p.id for p in design.parts)), 1)[0])
    for number in range(1, 13):
        assert design.by_designation(f"EL{12 + number}").title == f"lamp {number}"


def test_bends_notes_and_interlocks_are_copied_along() -> None:
    draft = two_sources()
    draft.part("breaker", "QF8", at=(700, 900), rating="20 A")
    draft.part("breaker", "QF9", at=(700, 1200), rating="20 A")
    design = draft.design
    design.apply(interlock(design, ("QF8", "QF9")))
    design.apply(add_note(design, "feeds the pump", (300, 400)))
    design.apply(reroute(design, "W3", [(1100, 500), (1100, 700)]))
    (note,) = design.notes
    chosen = ("QT1", "QP1", "QF8", "QF9", note.id)
    change, ids = pasted(design, copied(design, chosen), 2, at=None)
    assert change.title == "paste"
    design.apply(change)
    assert len(design.notes) == 2
    assert {n.sheet for n in design.notes} == {1, 2}
    held = [{part for part, _, _ in lock.excludes} for lock in design.interlocks]
    assert len(held) == 2
    assert {"QF8", "QF9"} in held
    assert all(parts == {"QF8", "QF9"} or parts <= set(ids) for parts in held)
    old, new = (r for r in design.runs if r.route)
    (ax, ay), (bx, by) = old.route[0], new.route[0]
    board = design.by_designation("QP2")
    first = design.by_designation("QP1")
    assert (bx - ax, by - ay) == (board.x - first.x, board.y - first.y)
    # what is copied out of one drawing goes into another that knows nothing of it
    other = small().design
    other.apply(pasted(other, copied(design, chosen), 1)[0])
    assert other.by_designation("QT1").kind == "transfer_switch"
    assert loads(dumps(other), "x").same_as(other)


def test_what_is_no_drawing_is_not_pasted() -> None:
    for text in ("", "hello", "{}"):
        with pytest.raises(EditError):
            pasted(small().design, text, 1)
    with pytest.raises(EditError):
        copied(small().design, ())
