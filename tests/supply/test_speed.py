"""How long it takes: a year well below a second, a thousand below a minute (of processor time)."""

from __future__ import annotations

import time

import pytest

from linework.supply.answers import many_years, scene_of
from linework.supply.assumed import assumptions
from tests.supply.plants import cabin, with_set


@pytest.mark.parametrize(("years", "most_s"), [(1, 0.8), (100, 6.0)])
def test_years_of_a_cabin_with_a_set(years: int, most_s: float):
    """Measured: 0.14 s for one, 3.3 s for a hundred, on a machine that was busy."""
    scene = scene_of(with_set(cabin()).design)
    unknown = assumptions(scene)
    began = time.process_time()
    many_years(scene, unknown, years, 1)
    assert time.process_time() - began < most_s
