"""Resistance and reactance against the tables' own constants, geometry and published examples."""

from __future__ import annotations

import pytest

from linework.codes import (
    CodesError,
    circular_mils,
    drop_constant,
    effective_impedance,
    reactance,
    resistance,
    resistance_from_geometry,
)
from linework.codes.conductors import METERS_PER_KFT
from linework.codes.sizes import by_construction
from linework.data import Confidence

ROWS = sorted(by_construction())


@pytest.mark.parametrize(("size", "built"), ROWS)
def test_resistance_times_area_is_constant(size, built):
    """Self-check of table 8: R x cmil is 12.6 (solid) and 12.9 (stranded) for copper at 75 C,
    20.8 and 21.2 for aluminum; a slipped row would stand out."""
    product = resistance(size, "copper", built).value * METERS_PER_KFT / 1000 * circular_mils(size)
    assert product == pytest.approx(12.6 if built == "solid" else 12.88, rel=0.006)
    product = (
        resistance(size, "aluminum", built).value * METERS_PER_KFT / 1000 * circular_mils(size)
    )
    assert product == pytest.approx(20.75 if built == "solid" else 21.2, rel=0.008)


@pytest.mark.parametrize(("size", "built"), ROWS)
@pytest.mark.parametrize("metal", ["copper", "aluminum"])
@pytest.mark.parametrize("celsius", [20.0, 75.0])
def test_table_and_geometry_agree(size, built, metal, celsius):
    """IEC 60028 / 60889 resistivity over the area: within 1.5 % of chapter 9 table 8."""
    table = resistance(size, metal, built, celsius)
    geometry = resistance_from_geometry(size, metal, built, celsius)
    assert table.value == pytest.approx(geometry.value, rel=0.015)


@pytest.mark.parametrize(
    ("size", "per_kft"),
    [
        # Standard wire tables at 20 C, solid copper, ohm per 1000 ft (ASTM B 258 with 100 % IACS).
        ("16 AWG", 4.016),
        ("14 AWG", 2.525),
        ("12 AWG", 1.588),
        ("10 AWG", 0.999),
        ("8 AWG", 0.628),
    ],
)
def test_cold_solid_copper(size, per_kft):
    cold = resistance(size, "copper", "solid", 20.0)
    assert cold.value * METERS_PER_KFT == pytest.approx(per_kft, rel=0.005)


@pytest.mark.parametrize(
    ("celsius", "factor"), [(70, 1.1965), (90, 1.2750), (105, 1.3340), (160, 1.5501), (250, 1.9037)]
)
def test_warming_from_20_c(celsius, factor):
    """IEC 60949: (234.5 + t) / 254.5. Note 2 of table 8 is the same line."""
    cold, warm = (resistance("12 AWG", temperature_c=t).value for t in (20.0, celsius))
    assert warm / cold == pytest.approx(factor, rel=2e-3)


def test_iec_60228_metric_sizes():
    """IEC 60228: 2.5 mm2 class 2 at most 7.41 ohm/km at 20 C, class 5 7.98."""
    assert resistance("2.5 mm2", temperature_c=20.0).value == pytest.approx(7.41e-3)
    assert resistance("2.5 mm2", "copper", "flexible", 20.0).value == pytest.approx(7.98e-3)
    assert resistance("2.5 mm2", "tinned copper", "flexible", 20.0).value == pytest.approx(8.21e-3)
    assert "60228" in resistance("2.5 mm2").clause
    # Published loop: 10 m of 1.5 and 1.0 mm2, x 1.2: 0.36 ohm (a forum answer on finding Zs,
    # diydoctor.org.uk/forums/question-urgent-for-sparks-t2402.html).
    loop = sum(resistance(s, temperature_c=20.0).value for s in ("1.5 mm2", "1 mm2")) * 10 * 1.2
    assert loop == pytest.approx(0.36, abs=0.005)


def test_a_size_without_a_row_says_that_it_comes_from_geometry():
    odd = resistance("20 AWG")
    assert "table 8" not in odd.clause
    assert odd.value == pytest.approx(resistance("18 AWG").value * 1620 / 1021.5, rel=0.02)
    assert not odd.confirmed


def test_stand_ins_are_marked():
    assert resistance("12 AWG", "copper", "flexible").confidence is Confidence.MEMORY
    assert resistance("12 AWG", "copper-clad aluminum").confidence is Confidence.MEMORY
    assert resistance("6 AWG").confirmed


def test_tinned_copper_has_its_own_column():
    """Chapter 9 table 8: 12 AWG stranded, coated 2.05 against 1.98."""
    assert resistance("12 AWG", "tinned copper").value * METERS_PER_KFT == pytest.approx(2.05)
    assert resistance("12 AWG").value * METERS_PER_KFT == pytest.approx(1.98)


def test_the_drop_constants_of_the_trade_belong_to_temperatures():
    """12.9 is stranded copper at 75 C; the marine 10.75 lies near 25 to 30 C (solid) and
    the trade's 12 between; they must not be mixed."""
    assert drop_constant().value == pytest.approx(12.9, abs=0.05)
    assert drop_constant("copper", "solid", 25.0).value < 10.75
    assert drop_constant("copper", "solid", 30.0).value > 10.75
    assert drop_constant("copper", "stranded", 20.0).value < 12.0 < drop_constant().value


def test_reactance_by_raceway_and_frequency():
    """Chapter 9 table 9: 12 AWG 0.054 in plastic and 0.068 in steel conduit."""
    plastic = reactance("12 AWG", "pvc", 60.0)
    assert plastic.value * METERS_PER_KFT == pytest.approx(0.054)
    assert reactance("12 AWG", "steel", 60.0).value * METERS_PER_KFT == pytest.approx(0.068)
    assert reactance("12 AWG", "steel", 50.0).value == pytest.approx(
        reactance("12 AWG", "steel", 60.0).value * 5 / 6
    )
    assert reactance("12 AWG", None, 60.0).value == 0.08e-3
    assert not reactance("12 AWG", None, 60.0).confirmed
    assert reactance("2.5 mm2", "steel", 50.0).value == 0.08e-3
    assert reactance("12 AWG", "steel", 0.0).value == 0.0


@pytest.mark.parametrize(
    "ask",
    [
        lambda: resistance("12 AWG", "gold"),
        lambda: resistance("12 AWG", "copper", "braided"),
        lambda: resistance("12 AWG", temperature_c=-300.0),
        lambda: reactance("12 AWG", None, 400.0),
        lambda: effective_impedance("18 AWG", "copper", "steel", 0.9),
        lambda: effective_impedance("14 AWG", "aluminum", "steel", 0.9),
    ],
)
def test_unanswerable_questions_are_errors(ask):
    with pytest.raises(CodesError):
        ask()


def test_both_spellings_of_aluminum_are_read():
    assert resistance("6 AWG", "aluminium") == resistance("6 AWG", "aluminum")
