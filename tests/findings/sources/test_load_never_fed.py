"""A load that no state energises."""

from __future__ import annotations

from linework.analysis import analyse
from linework.findings.model import Level
from tests.findings.camps import camp, changeover, levels
from tests.findings.told import found

RULE = "load-never-fed"


def test_a_load_without_a_hot_is_a_warning() -> None:
    draft = camp()
    draft.rate_run("W2", broken="L")
    assert levels(draft, RULE) == {("EA1",): Level.WARNING}


def test_a_load_without_a_neutral_too() -> None:
    draft = camp()
    draft.rate_run("W2", broken="N")
    assert levels(draft, RULE) == {("EA1",): Level.WARNING}


def test_a_load_that_is_fed_is_silent() -> None:
    assert found(camp(), RULE) == []


def test_one_state_that_feeds_it_is_enough() -> None:
    draft = changeover()
    draft.cut("W1")
    assert found(draft, RULE) == []


def test_it_waits_for_all_states() -> None:
    draft = camp()
    draft.rate_run("W2", broken="L")
    partial = analyse(draft.design, shown="G1=running")
    assert RULE not in {f.rule for f in partial.findings}
    assert not partial.sound
