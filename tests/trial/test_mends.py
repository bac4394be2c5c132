"""The trial of mends: what is offered holds when it is judged afresh."""

from __future__ import annotations

from tests.trial.mends import BELOW, Attempt, mend_lines, mend_table, mended
from tests.trial.trial import Task

TASK = Task("breaker_two_up", "camper_van", 1)


def test_the_mends_of_a_mistake_are_tried_and_what_is_offered_holds_afresh() -> None:
    attempts = mended(TASK)
    offered = [each for each in attempts if each.offered]
    assert [each.title for each in offered] == ["Make QF2 20 A"]
    assert all(not each.afresh for each in offered)
    assert BELOW in {each.reason for each in attempts}  # an outlet behind it offers none of its own


def test_the_table_counts_and_shows_what_does_not_hold() -> None:
    told = ("rule", ("W1",), "Make W1 thicker")
    attempts = [
        Attempt(TASK, *told),
        Attempt(TASK, *told, reason="EA1 is not fed by GS1 as before"),
        Attempt(TASK, *told, offered=True, afresh="its finding stays"),
    ]
    table = mend_table(attempts)
    assert "proposed 2, proven 1, refused 1; offered 1, of these not proven afresh 1" in table
    assert "refused    1: is not fed by as before" in table
    assert "NOT PROVEN AFRESH: breaker_two_up 1 in camper_van: rule at W1" in table
    assert mend_lines(attempts).count("\n") == 2
