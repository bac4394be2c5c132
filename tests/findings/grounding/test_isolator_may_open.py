"""isolator-may-open: a galvanic isolator without a mark, without a monitor (ABYC A-28)."""

from __future__ import annotations

import pytest

from linework.findings.model import Level
from tests.cases.test_case_073 import drawn
from tests.findings.camps import levels
from tests.findings.told import found, gaps

RULE = "isolator-may-open"


@pytest.mark.parametrize("failure", ["closed", "watched"])
def test_one_that_stays_closed_or_is_watched_is_silent(failure: str) -> None:
    draft = drawn("boat")
    draft.rate("RB1", failure=failure)
    assert found(draft, RULE) == []
    assert gaps(draft, RULE) == []


def test_one_that_may_open_unseen_is_told() -> None:
    draft = drawn("boat")
    draft.rate("RB1", failure="open")
    assert levels(draft, RULE) == {("RB1",): Level.WARNING}


def test_one_of_which_nothing_is_said_is_not_checked() -> None:
    assert [gap.where for gap in gaps(drawn("boat"), RULE)] == [("RB1",)]


def test_one_that_lies_in_no_ground_wire_is_another_matter() -> None:
    draft = drawn("boat")
    draft.part("galvanic_isolator", "RB2", failure="open")
    assert levels(draft, RULE) == {}
