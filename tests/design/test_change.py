from __future__ import annotations

import pytest

from linework.design import Change, EditError, Note, changed, merged

A, B, C = Note("n", "a"), Note("n", "b"), Note("n", "c")
OTHER = Note("m", "other")


def test_pairs_that_do_not_differ_are_left_out() -> None:
    assert changed("x", [(A, A), (None, OTHER), (None, None)]).pairs == {"m": (None, OTHER)}
    assert not changed("x", [(A, Note("n", "a"))])
    assert changed("x", [(A, B)])


def test_the_inverse_swaps_and_keeps_the_title() -> None:
    change = changed("write", [(A, B), (None, OTHER)])
    assert change.inverse() == Change("write", {"n": (B, A), "m": (OTHER, None)})
    assert change.inverse().inverse() == change


def test_changes_one_after_the_other_become_one() -> None:
    one = merged("both", changed("1", [(A, B)]), changed("2", [(B, C), (None, OTHER)]))
    assert one == Change("both", {"n": (A, C), "m": (None, OTHER)})


def test_there_and_back_is_nothing() -> None:
    assert not merged("both", changed("1", [(A, B)]), changed("2", [(B, A)]))
    assert not merged("both", changed("1", [(None, A)]), changed("2", [(A, None)]))
    assert not merged("none")


def test_changes_that_do_not_follow_each_other_are_refused() -> None:
    """Both begin with A: the second would undo the first without a word."""
    with pytest.raises(EditError, match="does not follow"):
        merged("both", changed("1", [(A, B)]), changed("2", [(A, C)]))
    with pytest.raises(EditError, match="does not follow"):
        merged("both", changed("1", [(A, None)]), changed("2", [(A, C)]))
