"""Interlocks of what is chosen."""

from __future__ import annotations

import pytest

from linework.bench.frame.interlocking import interlock, unlock
from linework.bench.process.levers import lever_board
from linework.design import EditError
from linework.design.history import History
from linework.picture.model import flatten
from linework.sheet.compose import compose
from tests.bench.benches import two_sources


def test_chosen_breakers_are_interlocked_and_freed() -> None:
    draft = two_sources()
    draft.rate("QP1", main="30 A")
    design = draft.design
    with pytest.raises(EditError):
        interlock(design, ("QF1", "G1"))
    design.apply(interlock(design, ("QF1", "QP1")))
    (lock,) = design.interlocks
    assert {(part, position) for part, _, position in lock.excludes} == {
        ("QF1", "closed"),
        ("QP1", "closed"),
    }
    design.apply(unlock(design, ("QF1",)))
    assert design.interlocks == []
    with pytest.raises(EditError):
        unlock(design, ("QF1",))


def test_an_interlock_is_shown_moves_as_levers_and_goes_with_undo() -> None:
    draft = two_sources()
    draft.rate("QP1", main="30 A")
    history = History(draft.design)
    levers, before = set(lever_board(history.design).rest()), history.design.snapshot()
    history.do(interlock(history.design, ("QF1", "QP1")))
    (lock,) = history.design.interlocks
    assert lock.id in {flat.tag for flat in flatten(compose(history.design).picture.items)}
    board = lever_board(history.design)
    locked = {("QF1", "breaker"), ("QP1", "main")}
    assert set(board.rest()) - levers == locked
    held = board.rest() | dict.fromkeys(locked, "open") | {("QF1", "breaker"): "closed"}
    assert "QF1" in board.why_not(held, ("QP1", "main"), "closed")
    history.undo()
    assert history.design.same_as(before)
    history.redo()
    assert history.design.interlocks == [lock]
    history.do(unlock(history.design, (lock.id,)))
    assert history.design.interlocks == []
    history.undo()
    assert history.design.interlocks == [lock]
