"""One way to hold a figure against a limit."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import linework
from linework.study.slack import exceeds, within

FIGURES = st.floats(min_value=0.0, max_value=1e9)


@pytest.mark.parametrize(("value", "limit"), [(3 * 0.1, 0.3), (15.0, 15.0), (0.0, 0.0)])
def test_what_is_at_its_limit_is_within_it(value: float, limit: float) -> None:
    assert within(value, limit)
    assert not exceeds(value, limit)


def test_what_an_instrument_could_tell_is_beyond_it() -> None:
    assert exceeds(15.001, 15.0)
    assert within(14.999, 15.0)


def test_nothing_is_beyond_a_limit_that_is_none() -> None:
    assert within(1e9, math.inf)
    assert within(math.inf, math.inf)
    assert exceeds(math.inf, 1e9)


@given(FIGURES, FIGURES)
def test_each_figure_is_either_within_or_beyond(value: float, limit: float) -> None:
    assert within(value, limit) is not exceeds(value, limit)
    assert within(min(value, limit), limit)


def test_no_rule_and_no_other_study_compares_with_a_slack_of_its_own() -> None:
    root = Path(linework.__file__).parent
    own = re.compile(r"SLACK\b|\* \(?1(\.0)? \+ 1e-")
    found = [
        path.name
        for folder in ("findings", "study", "advice")
        for path in (root / folder).rglob("*.py")
        if own.search(path.read_text(encoding="utf-8"))
    ]
    assert found == ["slack.py"]
