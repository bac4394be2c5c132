"""Sizes: areas as the tables print them, compared exactly."""

from __future__ import annotations

from fractions import Fraction
from math import pi

import pytest

from linework.codes import (
    CodesError,
    area_mm2,
    circular_mils,
    size_not_below,
    size_of,
    standard_sizes,
)
from linework.quantity import wire_size


@pytest.mark.parametrize(
    ("text", "cmil"),
    [
        # NFPA 70 chapter 9 table 8.
        ("14 AWG", 4110),
        ("12 AWG", 6530),
        ("10 AWG", 10380),
        ("4/0 AWG", 211600),
        ("250 kcmil", 250000),
        ("1250 kcmil", 1250000),
        # SAE J1127/J1128 least areas.
        ("12 SAE", 5833),
    ],
)
def test_areas_in_circular_mils_are_exact(text, cmil):
    assert size_of(text).cmil == Fraction(cmil)


@pytest.mark.parametrize("text", standard_sizes())
def test_printed_areas_agree_with_the_definition_of_the_gauge(text):
    """ASTM B 258: the gauge is a geometric series; the table rounds it."""
    assert area_mm2(text) == pytest.approx(wire_size(text).area_mm2, rel=0.004)


def test_one_circular_mil_is_a_circle_of_a_thousandth_of_an_inch():
    assert area_mm2("1000 kcmil") == pytest.approx(1e6 * pi / 4 * 0.0254**2, rel=1e-12)


def test_metric_and_thin_sizes_have_areas_too():
    assert area_mm2("2.5 mm2") == pytest.approx(2.5, rel=1e-6)
    assert circular_mils("20 AWG") == pytest.approx(1021.5, rel=1e-3)  # ASTM B 258


@pytest.mark.parametrize(
    ("cmil", "size"),
    [
        (Fraction(58436), "2 AWG"),
        (Fraction(66360), "2 AWG"),
        (Fraction(66361), "1 AWG"),
        (1, "18 AWG"),
    ],
)
def test_the_next_size_is_not_below_the_need(cmil, size):
    assert size_not_below(Fraction(cmil)) == size


def test_beyond_the_largest_size_there_is_an_error():
    with pytest.raises(CodesError, match="1000 kcmil"):
        size_not_below(Fraction(1_000_001))


@pytest.mark.parametrize("text", ["12", "twelve AWG", "99 SAE"])
def test_what_is_no_size_is_refused(text):
    with pytest.raises(CodesError):
        size_of(text)
