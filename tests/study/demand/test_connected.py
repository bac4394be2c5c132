"""Connected load with what is added to it."""

from __future__ import annotations

import pytest

from linework.codes import family
from linework.study.demand.connected import connected

DEMANDS = family("NA", "2023").demands()


def test_three_motors_on_a_feeder() -> None:
    # 12, 11 and 6 A ask for 32 A (430.24; electricallicenserenewal.com, sectionID 1319)
    assert connected(29.0, 0.0, 12.0, DEMANDS).total == pytest.approx(32.0)


def test_long_loads_count_a_quarter_more() -> None:
    found = connected(20.0, 16.0, 0.0, DEMANDS)
    assert found.total == pytest.approx(24.0)
    assert [line.by.clause for line in found.lines if line.by] == [
        "NFPA 70 (2023) 215.2(A)(1)",
        "NFPA 70 (2023) 430.24",
    ]
    assert found.confirmed
