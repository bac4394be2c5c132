"""Devices of transformers against worked examples that were published."""

from __future__ import annotations

import pytest

from linework.codes.na.transformers import transformer_device


def test_a_device_on_the_primary_alone() -> None:
    # 75 kVA, 480 V, three-phase: 90.2 A; 125 % are 113 A, the next standard rating 125 A
    # ("Sizing Conductors, Part XXX", ecmag.com)
    assert transformer_device("primary", 75000.0 / 480.0 / 3**0.5).value == 125.0
    # 25 kVA, 480 V, one phase: 52 A (a published course); 65.1 A, so 70 A
    assert transformer_device("primary", 25000.0 / 480.0).value == 70.0


@pytest.mark.parametrize(
    ("amps", "most"), [(9.0, 15.0), (8.99, 8.99 * 1.67), (2.0, 3.34), (1.99, 5.97)]
)
def test_small_currents_may_have_more_and_are_not_rounded_up(amps: float, most: float) -> None:
    assert transformer_device("primary", amps).value == pytest.approx(most)


def test_with_a_device_on_the_secondary_the_primary_may_have_more() -> None:
    assert transformer_device("primary of both", 50.0).value == 125.0
    assert transformer_device("primary of both", 30.1).value == pytest.approx(75.25)
    assert transformer_device("secondary", 83.3).value == 110.0
    assert transformer_device("secondary", 5.0).value == pytest.approx(8.35)
