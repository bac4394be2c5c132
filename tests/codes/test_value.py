"""A value keeps its source, and a result is never surer than its steps."""

from __future__ import annotations

import pytest

from linework.codes import Sourced
from linework.codes.tables import confidence_of
from linework.codes.value import Working, weakest
from linework.data import Confidence


def figure(value: float, confidence: Confidence) -> Sourced[float]:
    return Sourced(value, "A", "clause", "row", confidence, "source", "2023")


@pytest.mark.parametrize(
    ("mark", "sure"),
    [
        (Confidence.AGREED, True),
        (Confidence.DERIVED, True),
        (Confidence.DEFINED, True),
        (Confidence.PUBLISHED, False),
        (Confidence.MEMORY, False),
    ],
)
def test_only_two_sources_or_theory_confirm(mark, sure):
    assert figure(1.0, mark).confirmed is sure


def test_an_unknown_mark_is_refused():
    with pytest.raises(ValueError, match="C3"):
        confidence_of({"confidence": "C3"})


@pytest.mark.parametrize(
    ("marks", "worst"),
    [
        ((Confidence.AGREED, Confidence.MEMORY, Confidence.PUBLISHED), Confidence.MEMORY),
        ((Confidence.AGREED, Confidence.PUBLISHED), Confidence.PUBLISHED),
        ((Confidence.PRACTICE, Confidence.PUBLISHED), Confidence.PRACTICE),
        ((Confidence.DERIVED, Confidence.AGREED), Confidence.DERIVED),
    ],
)
def test_the_weakest_mark_counts(marks, worst):
    assert weakest(*marks) is worst


def test_a_derived_value_is_never_surer_than_its_origin():
    derived = figure(2.0, Confidence.MEMORY).became(4.0, "A", "doubled")
    assert (derived.value, derived.confidence, derived.source) == (4.0, Confidence.MEMORY, "source")


def test_steps_show_what_decided():
    work = Working("table", figure(40.0, Confidence.AGREED))
    work.times("ambient", figure(1.0, Confidence.AGREED))
    work.times("grouped", figure(0.8, Confidence.AGREED))
    work.at_most("terminals", figure(30.0, Confidence.PUBLISHED))
    work.at_most("other", figure(35.0, Confidence.AGREED))
    done = work.done()
    assert done.value == 30.0
    assert [step.decides for step in done.steps] == [True, False, True, True, False]
    assert done.decided_by.what == "terminals"
    assert [step.result for step in done.steps] == [40.0, 40.0, 32.0, 30.0, 30.0]
    assert not done.confirmed
    assert done.confidence == Confidence.PUBLISHED


def test_products_do_not_pass_a_standard_rating_by_a_hair():
    work = Working("table", figure(55.0, Confidence.AGREED))
    work.times("ambient", figure(0.91, Confidence.AGREED))
    work.times("back", figure(1 / 0.91, Confidence.AGREED))
    assert work.value == 55.0
