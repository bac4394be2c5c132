"""Flexible cords: ampacity depends on the counted conductors."""

from __future__ import annotations

import pytest

from linework.codes import CodesError
from linework.codes.na.cords import base_cord_ampacity, cord_ampacity, counted_conductors
from linework.wiring import Pole

TWO_WIRE = (Pole.L, Pole.N, Pole.PE)
FOUR_WIRE = (Pole.L1, Pole.L2, Pole.N, Pole.PE)


@pytest.mark.parametrize(
    ("poles", "nonlinear", "count"),
    [
        (TWO_WIRE, False, 2),
        (FOUR_WIRE, False, 2),
        (FOUR_WIRE, True, 3),
        ((Pole.L1, Pole.L2, Pole.PE), False, 2),
        ((Pole.L1, Pole.L2, Pole.L3, Pole.N, Pole.PE), False, 4),
        ((Pole.POS, Pole.NEG), False, 2),
    ],
)
def test_counting(poles, nonlinear, count):
    assert counted_conductors(poles, neutral_nonlinear=nonlinear).value == count


@pytest.mark.parametrize(
    ("size", "counted", "amps"),
    [
        # Table 400.5(A)(1).
        ("16 AWG", 2, 13),
        ("16 AWG", 3, 10),
        ("14 AWG", 2, 18),
        ("12 AWG", 2, 25),
        ("10 AWG", 2, 30),
        ("10 AWG", 3, 25),
        ("6 AWG", 2, 55),
    ],
)
def test_table(size, counted, amps):
    assert base_cord_ampacity(size, counted).value == amps


def test_more_than_three_take_a_share_of_the_three_conductor_column():
    """400.5(A)(3): 80 percent of 20 A."""
    found = cord_ampacity("12 AWG", 4)
    assert found.value == 16.0
    assert [step.figure.value for step in found.steps] == [20.0, 1.0, 0.8]
    assert not found.confirmed


def test_heat_counts_with_the_class_of_the_cord():
    """A 60 C cord at 45 C: 0.71; a 90 C cord 0.87 (table 310.15(B)(1))."""
    assert cord_ampacity("10 AWG", 2, ambient_c=45).value == pytest.approx(21.3)
    assert cord_ampacity("10 AWG", 2, insulation_c=105, ambient_c=45).value == pytest.approx(26.1)


@pytest.mark.parametrize(("size", "counted"), [("1 AWG", 2), ("17 AWG", 3), ("12 AWG", 0)])
def test_missing_rows_are_errors(size, counted):
    with pytest.raises(CodesError):
        cord_ampacity(size, counted)
