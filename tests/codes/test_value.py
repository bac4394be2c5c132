"""A value keeps its source, and a result is never surer than its steps."""

from __future__ import annotations

import pytest

from linework.codes import Sourced
from linework.codes.value import Working, weakest


def figure(value: float, confidence: str) -> Sourced[float]:
    return Sourced(value, "A", "clause", "row", confidence, "source", "2023")


@pytest.mark.parametrize(
    ("mark", "sure"),
    [("C2", True), ("derived", True), ("by definition", True), ("C1", False), ("M", False)],
)
def test_only_two_sources_or_theory_confirm(mark, sure):
    assert figure(1.0, mark).confirmed is sure


def test_an_unknown_mark_is_refused():
    with pytest.raises(ValueError, match="C3"):
        figure(1.0, "C3")


@pytest.mark.parametrize(
    ("marks", "worst"),
    [(("C2", "M", "C1"), "M"), (("C2", "C1"), "C1"), (("derived", "C2"), "derived")],
)
def test_the_weakest_mark_counts(marks, worst):
    assert weakest(*marks) == worst


def test_a_derived_value_is_never_surer_than_its_origin():
    derived = figure(2.0, "M").became(4.0, "A", "doubled")
    assert (derived.value, derived.confidence, derived.source) == (4.0, "M", "source")


def test_steps_show_what_decided():
    work = Working("table", figure(40.0, "C2"))
    work.times("ambient", figure(1.0, "C2"))
    work.times("grouped", figure(0.8, "C2"))
    work.at_most("terminals", figure(30.0, "C1"))
    work.at_most("other", figure(35.0, "C2"))
    done = work.done()
    assert done.value == 30.0
    assert [step.decides for step in done.steps] == [True, False, True, True, False]
    assert done.decided_by.what == "terminals"
    assert [step.result for step in done.steps] == [40.0, 40.0, 32.0, 30.0, 30.0]
    assert not done.confirmed
    assert done.confidence == "C1"


def test_products_do_not_pass_a_standard_rating_by_a_hair():
    work = Working("table", figure(55.0, "C2"))
    work.times("ambient", figure(0.91, "C2"))
    work.times("back", figure(1 / 0.91, "C2"))
    assert work.value == 55.0
