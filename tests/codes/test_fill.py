"""Fill of boxes and raceways against published examples."""

from __future__ import annotations

from math import floor, pi

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


def test_published_mixed_box():
    """Two 10 and seven 12 AWG, grounds, an isolated ground, one switch: 30.0 in3, which fits
    30.3 in3 (box fill lesson, electriciansexam.com/learn/boxFill.jsp)."""
    need = box_fill_in3(
        {"12 AWG": 7, "10 AWG": 2},
        grounds=["10 AWG", "12 AWG"],
        isolated_grounds=["12 AWG"],
        yokes=["12 AWG"],
    )
    assert need == pytest.approx(30.0, abs=0.01)
    assert need <= box_volume_in3("square", "4 x 2-1/8").value


def test_published_box_counts():
    """Nine 12 AWG need the 4 x 1-1/2 square box; seven 14 AWG fit a 4 x 1-1/2 round one (trade
    magazine, ecmweb.com/content/code-calculations-9)."""
    twelve, fourteen = volume_allowance_in3("12 AWG").value, volume_allowance_in3("14 AWG").value
    assert floor(box_volume_in3("square", "4 x 1-1/2").value / twelve) == 9
    assert floor(box_volume_in3("square", "4 x 1-1/4").value / twelve) == 8
    assert floor(box_volume_in3("round/octagonal", "4 x 1-1/2").value / fourteen) == 7


def test_published_conduit():
    """One 12, one 10, three 8 AWG THHN: 0.1442 in2, 3/4 rigid conduit (Modern Commercial Wiring,
    2018, problem 6-8)."""
    areas = {size: conductor_area_in2(size, "THHN").value for size in ("12 AWG", "10 AWG", "8 AWG")}
    need = areas["12 AWG"] + areas["10 AWG"] + 3 * areas["8 AWG"]
    assert need == pytest.approx(0.1442, abs=0.0001)
    assert raceway_room_in2("RMC", "1/2", 5).value < need <= raceway_room_in2("RMC", "3/4", 5).value


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
