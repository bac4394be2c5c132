"""Fill of boxes and raceways against published examples."""

from __future__ import annotations

from math import pi

import pytest

from linework.codes import CodesError
from linework.codes.na.fill import (
    box_fill_in3,
    box_volume_in3,
    conductor_area_in2,
    ground_allowances,
    raceway_room_in2,
    volume_allowance_in3,
)
from linework.codes.tables import rows


@pytest.mark.parametrize(("conductors", "share"), [(1, 0.53), (2, 0.31), (3, 0.40), (9, 0.40)])
def test_share_by_count(conductors, share):
    """Chapter 9 table 1; EMT 1/2: 0.304 in2."""
    assert raceway_room_in2("EMT", "1/2", conductors).value == pytest.approx(0.304 * share)


@pytest.mark.parametrize(
    "row", rows("na/raceway_areas_ch9_4"), ids=lambda r: r["raceway"] + r["trade_size_in"]
)
def test_raceway_areas_follow_their_diameters(row):
    area = pi / 4 * float(row["internal_diameter_in"]) ** 2
    assert float(row["total_area_in2"]) == pytest.approx(area, rel=0.0045)


def test_ground_wires_beyond_four_count_a_quarter_since_2020():
    assert [ground_allowances(n).value for n in (0, 1, 4, 5, 8)] == [0.0, 1.0, 1.0, 1.25, 2.0]
    assert ground_allowances(8, "2017").value == 1.0


def test_clamps_count_once_by_the_largest():
    assert box_fill_in3({"14 AWG": 2}, clamps=True) == 6.0
    assert box_fill_in3({"14 AWG": 2, "12 AWG": 1}, clamps=True) == 4.0 + 2.25 + 2.25


@pytest.mark.parametrize(
    "ask",
    [
        lambda: conductor_area_in2("12 AWG", "silk"),
        lambda: conductor_area_in2("1000 kcmil", "THHN"),
        lambda: raceway_room_in2("EMT", "5", 3),
        lambda: raceway_room_in2("hose", "1", 3),
        lambda: volume_allowance_in3("4 AWG"),
        lambda: box_volume_in3("square", "5 x 5"),
    ],
)
def test_unanswerable_questions_are_errors(ask):
    with pytest.raises(CodesError):
        ask()
