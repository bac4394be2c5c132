"""Receptacles on circuits (210.21(B))."""

from __future__ import annotations

import pytest

from linework.codes import CodesError
from linework.codes.na.receptacles import receptacle_allowed, receptacle_ratings


@pytest.mark.parametrize(
    ("circuit_a", "receptacle_a", "sets", "ok"),
    [
        (15, 15, 2, True),
        (15, 20, 2, False),
        (20, 15, 2, True),  # a 15 A duplex on a 20 A circuit
        (20, 15, 1, False),  # one single 15 A receptacle is not
        (20, 20, 1, True),
        (30, 15, 2, False),
        (30, 30, 2, True),
        (40, 50, 2, True),
        (40, 50, 1, True),
        (30, 50, 1, True),
        (50, 30, 1, False),
    ],
)
def test_allowed(circuit_a, receptacle_a, sets, ok):
    assert receptacle_allowed(circuit_a, receptacle_a, sets).ok is ok


def test_the_rule_is_named():
    assert "210.21(B)(3)" in receptacle_allowed(20, 15, 4).rule.clause
    assert "210.21(B)(1)" in receptacle_allowed(20, 15, 1).rule.clause
    assert receptacle_ratings(40).value == (40.0, 50.0)


def test_several_on_another_circuit_cannot_be_answered():
    with pytest.raises(CodesError, match="30 A"):
        receptacle_allowed(25, 20, 2)
