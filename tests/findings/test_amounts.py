"""Small currents in words."""

from __future__ import annotations

import pytest

from linework.findings.amounts import milliampere


@pytest.mark.parametrize(
    ("amps", "told"),
    [
        (2.67e-8, "less than 0.1"),
        (0.0, "less than 0.1"),
        (0.00025, "0.25"),
        (0.0318, "31.8"),
        (8.123, "8123"),
    ],
)
def test_nothing_is_told_that_nobody_could_measure(amps: float, told: str) -> None:
    assert milliampere(amps) == told
