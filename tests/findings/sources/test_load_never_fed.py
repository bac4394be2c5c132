"""A load that no state energises."""

from __future__ import annotations

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import camp, changeover, levels
from tests.findings.told import found, gaps

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


def test_a_load_across_batteries_in_series_is_fed_and_nothing_is_left_unjudged() -> None:
    draft = Draft(place="vehicle")
    for name in ("GB1", "GB2"):
        draft.part("battery", name)
    draft.part("load", "EA1", circuit="dc", voltage="24 V", power="50 W")
    draft.run("GB1.dc", "GB2.dc", poles="->+", size="10 AWG", length="1 ft")
    draft.run("GB1.dc", "EA1.in", "plus", poles="+", size="10 AWG", length="1 ft")
    draft.run("GB2.dc", "EA1.in", poles="-", size="10 AWG", length="1 ft")
    assert found(draft, RULE) == []
    assert gaps(draft, "not-analysed") == []
    draft.cut("plus")
    assert levels(draft, RULE) == {("EA1",): Level.WARNING}
