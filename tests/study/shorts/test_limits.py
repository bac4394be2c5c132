"""How sources hold their current into a fault."""

from __future__ import annotations

import numpy as np
import pytest

from linework.study.shorts.limits import STEADY, Fall, falls_of
from linework.wiring import Limit, Source, Three


def source(limit: Limit | None) -> Source:
    none = Three.exactly(0.0)
    return Source("s", ("out", "L"), ("out", "N"), 120.0, 60.0, none, none, limit=limit)


OWN = Limit(Three(0.0, 20.0, 100.0), 0.35)
"""Collapses after 0.35 s, as a self-excited set may."""
ELECTRONIC = Limit(Three(40.0, 60.0, 80.0), 0.02, 5.0, Three(60.0, 80.0, 120.0))
STIFF = source(None)


def fall(sources: list[Source], amps: list[float], strong: bool = False) -> Fall:
    (found,) = falls_of(sources, np.array(amps)[:, None], strong)
    return found


def test_a_source_without_a_limit_holds_for_good() -> None:
    assert fall([STIFF], [500.0]) == STEADY


def test_a_weak_set_collapses_and_a_strong_one_holds_what_it_may() -> None:
    assert fall([source(OWN)], [160.0]) == Fall(1.0, 0.0, 0.35, None)
    assert fall([source(OWN)], [400.0], strong=True) == Fall(1.0, 0.25, 0.35, None)


def test_an_electronic_source_is_bounded_at_once_and_then_off() -> None:
    assert fall([source(ELECTRONIC)], [600.0]) == Fall(0.1, 40.0 / 600.0, 0.02, 5.0)
    assert fall([source(ELECTRONIC)], [600.0], strong=True) == Fall(0.2, 80.0 / 600.0, 0.02, 5.0)


def test_a_fault_below_the_limit_is_not_scaled() -> None:
    assert fall([source(ELECTRONIC)], [30.0]) == Fall(1.0, 1.0, 0.02, 5.0)


@pytest.mark.parametrize("trickle", [0.0, 1e-9, 4.5e-5])
def test_what_leaks_from_a_stiff_source_elsewhere_holds_nothing(trickle: float) -> None:
    # A supply that is live beside the set drives microamperes through cable capacitance.
    found = fall([source(OWN), STIFF], [160.0, trickle])
    assert found.scale == pytest.approx(1.0)
    assert found.later_scale == pytest.approx(0.0, abs=1e-6)
    assert found.later_s == 0.35
    held = fall([source(ELECTRONIC), STIFF], [160.0, trickle])
    assert held.off_s == 5.0


def test_beside_a_stiff_source_a_limited_one_gives_no_more_than_its_limit() -> None:
    found = fall([source(ELECTRONIC), STIFF], [600.0, 1000.0])
    assert found.scale == pytest.approx((60.0 + 1000.0) / 1600.0)
    assert found.later_scale == pytest.approx((40.0 + 1000.0) / 1600.0)
    assert found.off_s is None


def test_many_faults_at_once_are_as_one_by_one() -> None:
    sources = [source(OWN), source(ELECTRONIC), STIFF]
    amps = np.array([[160.0, 0.0, 90.0], [0.0, 600.0, 30.0], [1e-9, 0.0, 800.0]])
    together = falls_of(sources, amps, False)
    assert together == [fall(sources, list(column)) for column in amps.T]


def test_no_current_at_all_is_steady() -> None:
    assert fall([source(OWN)], [0.0]) == STEADY
