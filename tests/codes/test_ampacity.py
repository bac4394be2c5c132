"""Ampacity as installed: table, ambient, grouping, house cable, terminals."""

from __future__ import annotations

from math import sqrt

import pytest

from linework.codes import CodesError
from linework.codes.na.ampacity import (
    ambient_factor,
    ampacity,
    base_ampacity,
    grouping_factor,
    terminal_temperature,
)
from linework.codes.na.low_voltage import marine_base_ampacity
from linework.codes.tables import number, rows


def test_published_example_at_120_f():
    """10 AWG THHN copper at 120 F (49 C): 40 x 0.82 = 32.8 A (code training article,
    stallcupeducation.learnworlds.com/blog/applying-correction-factors-article)."""
    found = ampacity("10 AWG", "copper", 90, ambient_c=49, terminal_c=None)
    assert found.value == pytest.approx(32.8, abs=0.05)
    assert [step.figure.value for step in found.steps] == [40.0, 0.82, 1.0]
    assert found.confirmed
    # The same with the 80 percent for four conductors in one raceway: 26.24 A.
    grouped = ampacity("10 AWG", "copper", 90, ambient_c=49, grouped=4, terminal_c=None)
    assert grouped.value == pytest.approx(26.24, abs=0.005)


@pytest.mark.parametrize("column", [60, 75, 90])
def test_every_ambient_cell_follows_the_equation(column):
    """Table 310.15(B)(1) against sqrt((Tc - Ta) / (Tc - 30)): no cell off by more than 0.006."""
    checked = 0
    for row in rows("na/ambient_310_15_B_1"):
        cell = number(row[f"factor_{column}C"])
        if cell is None:
            continue
        top = float(row["ambient_max_C"])
        assert cell == pytest.approx(sqrt((column - top) / (column - 30)), abs=0.006)
        assert ambient_factor(column, top).value == cell
        checked += 1
    assert checked >= 10


@pytest.mark.parametrize(
    ("insulation_c", "ambient_c", "factor"),
    [
        (75, 30.0, 1.00),
        (75, 30.5, 0.94),  # a band ends at its whole degree: the hotter row holds
        (75, 35.0, 0.94),
        (60, 55.0, 0.41),
        (60, 58.0, sqrt(2 / 30)),  # blank in the table: the equation
        (60, 60.0, 0.0),
        (90, 85.0, 0.29),
        (90, 87.0, sqrt(3 / 60)),
        (90, 95.0, 0.0),
        (105, 40.0, 0.91),  # no column above 90 C
        (75, -20.0, 1.20),
    ],
)
def test_ambient_between_and_beyond_the_rows(insulation_c, ambient_c, factor):
    assert ambient_factor(insulation_c, ambient_c).value == pytest.approx(factor)


@pytest.mark.parametrize(
    ("count", "share"),
    [
        (1, 1.0),
        (3, 1.0),
        (4, 0.8),
        (6, 0.8),
        (7, 0.7),
        (10, 0.5),
        (21, 0.45),
        (31, 0.4),
        (41, 0.35),
        (90, 0.35),
    ],
)
def test_grouping(count, share):
    assert grouping_factor(count).value == share


@pytest.mark.parametrize(
    ("size", "metal", "column", "amps"),
    [
        # The eleven places where tables before 2011 differ; pages still circulate them.
        ("14 AWG", "copper", 60, 15),
        ("12 AWG", "copper", 60, 20),
        ("12 AWG", "aluminum", 60, 15),
        ("8 AWG", "aluminum", 60, 35),
        ("6 AWG", "aluminum", 90, 55),
        ("3 AWG", "copper", 90, 115),
        ("1 AWG", "copper", 90, 145),
        ("300 kcmil", "aluminum", 60, 195),
        ("300 kcmil", "aluminum", 90, 260),
        ("600 kcmil", "copper", 60, 350),
        ("700 kcmil", "aluminum", 75, 375),
    ],
)
def test_the_table_is_that_of_2011_and_later(size, metal, column, amps):
    assert base_ampacity(size, metal, column).value == amps


@pytest.mark.parametrize("name", ["na/ampacity_310_16", "na/ampacity_310_17"])
def test_ampacity_rises_with_size_and_insulation(name):
    for prefix in ("cu", "al_cca"):
        for column in (60, 75, 90):
            cells = [number(row[f"{prefix}_{column}C_A"]) for row in rows(name)]
            filled = [cell for cell in cells if cell is not None]
            assert filled == sorted(set(filled))
    for row in rows(name):
        copper = [number(row[f"cu_{column}C_A"]) for column in (60, 75, 90)]
        assert copper == sorted(copper, key=lambda cell: cell or 0.0)


def test_free_air_has_its_own_table():
    assert base_ampacity("4/0 AWG", "copper", 75, free_air=True).value == 360
    assert base_ampacity("4/0 AWG", "copper", 75).value == 230
    assert "310.17" in base_ampacity("4/0 AWG", free_air=True).clause


def test_rows_from_memory_stay_unconfirmed():
    assert not base_ampacity("700 kcmil", "aluminum", 75).confirmed
    assert base_ampacity("700 kcmil", "copper", 75).confirmed
    assert not base_ampacity("14 AWG", "copper", 60, free_air=True).confirmed


def test_house_cable_derates_from_90_but_ends_at_60():
    """334.80: 12-2 NM, 30 C: 20 A; nine conductors together: 0.7 x 30 = 21, still 20 A;
    ten to twenty: 15 A."""

    def nm(grouped: int) -> float:
        return ampacity(
            "12 AWG", "copper", 90, grouped=grouped, terminal_c=60, house_cable=True
        ).value

    assert [nm(2), nm(9), nm(10)] == [20.0, 20.0, 15.0]


def test_terminals_cap_but_do_not_derate():
    """110.14(C): the cap is the uncorrected column of table 310.16."""
    hot = ampacity("6 AWG", "copper", 90, ambient_c=45, terminal_c=60)
    assert hot.value == 55.0  # 75 x 0.87 = 65.25, capped by the 60 C column
    assert "110.14(C)" in hot.clause
    assert ampacity("6 AWG", "copper", 90, ambient_c=45, terminal_c=75).value == 65.0
    assert ampacity("6 AWG", "copper", 90, ambient_c=45, terminal_c=None).value == 65.25


@pytest.mark.parametrize(
    ("size", "device_a", "marked", "celsius"),
    [
        ("12 AWG", 20, None, 60),
        ("3 AWG", 100, None, 60),
        ("1 AWG", 110, None, 75),
        ("12 AWG", 20, 75, 75),
        ("12 AWG", 20, 90, 75),
        ("1 AWG", None, None, 60),
        ("1/0 AWG", None, None, 75),
    ],
)
def test_terminal_temperature(size, device_a, marked, celsius):
    assert terminal_temperature(size, device_a, marked).value == celsius


def test_thermal_insulation_has_no_factor_and_says_so():
    plain = ampacity("12 AWG", "copper", 75, terminal_c=60)
    wrapped = ampacity("12 AWG", "copper", 75, terminal_c=60, in_insulation=True)
    assert wrapped.value == plain.value
    assert any("334.80" in step.figure.row for step in wrapped.steps)
    assert not wrapped.confirmed


def test_clauses_follow_the_edition():
    assert base_ampacity("12 AWG").clause == "NFPA 70 (2023) Table 310.16"
    assert base_ampacity("12 AWG", edition="2017").clause == "NFPA 70 (2017) Table 310.15(B)(16)"
    assert grouping_factor(4, "2014").clause == "NFPA 70 (2014) Table 310.15(B)(3)(a)"


@pytest.mark.parametrize(
    ("ask", "named"),
    [
        (lambda: base_ampacity("2.5 mm2"), "12 AWG"),
        (lambda: base_ampacity("18 AWG", "copper", 75), "14 AWG"),
        (lambda: base_ampacity("14 AWG", "aluminum", 75), "12 AWG"),
        (lambda: base_ampacity("900 kcmil"), "750 kcmil"),
        (lambda: base_ampacity("12 AWG", "steel"), "steel"),
        (lambda: base_ampacity("12 AWG", "copper", 40), "60 C"),
        (lambda: base_ampacity("12 AWG", edition="2008"), "2011"),
        (lambda: base_ampacity("12 AWG", edition="2026"), "2023"),
        (lambda: grouping_factor(0), "0"),
    ],
)
def test_missing_rows_are_named(ask, named):
    with pytest.raises(CodesError, match=named):
        ask()


SIZES_6_TO_4_0 = ("6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0")


@pytest.mark.parametrize("gauge", SIZES_6_TO_4_0)
@pytest.mark.parametrize("column", [60, 75])
def test_free_air_agrees_with_the_boat_regulation(gauge, column):
    """33 CFR 183.425 table 5 (60 and 75 C, outside engine spaces) carries the free-air figures."""
    land = base_ampacity(f"{gauge} AWG", "copper", column, free_air=True).value
    assert land == marine_base_ampacity(f"{gauge} AWG", column).value


@pytest.mark.parametrize("name", ["na/ampacity_310_16", "na/ampacity_310_17"])
def test_columns_and_metals_keep_their_ratios(name):
    """Heat balance: 60 to 75 C about sqrt(30/45) over the rise of resistance, 0.83 to 0.86;
    aluminum to copper about sqrt(1/1.64) = 0.78. A slipped cell would stand out."""
    for row in rows(name):
        sixty, seventy_five, aluminum = (
            number(row[key]) for key in ("cu_60C_A", "cu_75C_A", "al_cca_75C_A")
        )
        if sixty and seventy_five and seventy_five >= 50:
            assert sixty / seventy_five == pytest.approx(0.84, abs=0.04)
        if aluminum and seventy_five and seventy_five >= 50:
            assert aluminum / seventy_five == pytest.approx(0.785, abs=0.04)
