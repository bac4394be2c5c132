"""Wire sizes against published geometry, and the texts that name them."""

from __future__ import annotations

from itertools import pairwise
from math import pi, sqrt

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from linework.quantity import AWG_SIZES, QuantityError, WireSize, wire_size

# ASTM B 258: gauge, diameter in mm, area in mm2 and in circular mils, from its defining
# series d(in) = 0.005 * 92 ** ((36 - n) / 39).
GEOMETRY = [
    ("4/0", 11.68400, 107.21930, 211600.0),
    ("3/0", 10.40490, 85.02877, 167806.4),
    ("2/0", 9.26583, 67.43088, 133076.5),
    ("1/0", 8.25146, 53.47512, 105534.5),
    ("1", 7.34814, 42.40770, 83692.7),
    ("2", 6.54371, 33.63083, 66371.3),
    ("3", 5.82734, 26.67046, 52634.8),
    ("4", 5.18940, 21.15064, 41741.3),
    ("6", 4.11538, 13.30177, 26251.4),
    ("8", 3.26364, 8.36556, 16509.7),
    ("10", 2.58819, 5.26115, 10383.0),
    ("12", 2.05253, 3.30877, 6529.9),
    ("14", 1.62773, 2.08091, 4106.7),
    ("16", 1.29085, 1.30870, 2582.7),
    ("18", 1.02369, 0.82305, 1624.3),
    ("20", 0.81182, 0.51762, 1021.5),
    ("24", 0.51056, 0.20473, 404.0),
    ("30", 0.25464, 0.05093, 100.5),
]

# NEC chapter 9, table 8, column of areas in circular mils (rounded there); from memory.
TABLE_8_CMIL = {
    "18": 1620,
    "16": 2580,
    "14": 4110,
    "12": 6530,
    "10": 10380,
    "8": 16510,
    "6": 26240,
    "4": 41740,
    "2": 66360,
    "1/0": 105600,
    "2/0": 133100,
    "3/0": 167800,
    "4/0": 211600,
}


@pytest.mark.parametrize(("gauge", "diameter_mm", "area_mm2", "cmil"), GEOMETRY)
def test_gauges_have_the_published_geometry(
    gauge: str, diameter_mm: float, area_mm2: float, cmil: float
) -> None:
    size = wire_size(f"{gauge} AWG")
    assert size.awg == gauge
    assert size.area_mm2 == pytest.approx(area_mm2, abs=6e-6)
    assert sqrt(size.area_mm2 * 4 / pi) == pytest.approx(diameter_mm, abs=6e-6)
    assert size.cmil == pytest.approx(cmil, abs=0.06)


@pytest.mark.parametrize(("gauge", "cmil"), TABLE_8_CMIL.items())
def test_gauges_match_the_installers_table(gauge: str, cmil: int) -> None:
    assert wire_size(f"{gauge} AWG").cmil == pytest.approx(cmil, rel=3e-3)


def test_kcmil_is_a_fixed_area() -> None:
    assert wire_size("1000 kcmil").area_mm2 == 506.7075
    assert wire_size("250 kcmil").cmil == pytest.approx(250_000, rel=1e-12)
    # By definition a circular mil is the area of a circle one mil (0.0254 mm) wide.
    assert wire_size("1000 kcmil").area_mm2 == pytest.approx(1e6 * pi / 4 * 0.0254**2, rel=1e-7)


@pytest.mark.parametrize(
    ("typed", "text", "awg"),
    [
        ("12 AWG", "12 AWG", "12"),
        ("12awg", "12 AWG", "12"),
        ("#12 AWG", "12 AWG", "12"),
        ("#12", "12 AWG", "12"),
        ("AWG 12", "12 AWG", "12"),
        ("012 AWG", "12 AWG", "12"),
        ("4/0 AWG", "4/0 AWG", "4/0"),
        ("4/0", "4/0 AWG", "4/0"),
        ("#4/0", "4/0 AWG", "4/0"),
        ("0000 AWG", "4/0 AWG", "4/0"),
        ("#00", "2/0 AWG", "2/0"),
        ("0 AWG", "1/0 AWG", "1/0"),
        ("1/0", "1/0 AWG", "1/0"),
        ("250 kcmil", "250 kcmil", None),
        ("250KCMIL", "250 kcmil", None),
        ("250 MCM", "250 kcmil", None),
        ("2.5 mm2", "2.5 mm2", None),
        ("2,50 mm²", "2.5 mm2", None),
        ("10.0 mm2", "10 mm2", None),
        ("16 sq mm", "16 mm2", None),
    ],
)
def test_one_canonical_text(typed: str, text: str, awg: str | None) -> None:
    size = wire_size(typed)
    assert (size.text, size.awg) == (text, awg)
    assert wire_size(size.text) == size


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "12",
        "0",
        "00",
        "12/2",
        "12-2",
        "12/2 AWG",
        "5/0",
        "5/0 AWG",
        "0/0",
        "1/2",
        "1/2 mm2",
        "-3 AWG",
        "37 AWG",
        "12.5 AWG",
        "12 AWG 3",
        "12 gauge",
        "12 ga",
        "No. 12",
        "AWG",
        "#",
        "2.5",
        "2.5 mm",
        "0 mm2",
        "-2.5 mm2",
        "2,500 mm2",
        "2501 mm2",
        "250000 kcmil",
        "26240 cmil",
        "2 x 2.5 mm2",
        "3 x 12 AWG",
        "2.5 mm2 4 mm2",
        "¹² AWG",
        "٤ AWG",
    ],
)
def test_refused_with_an_example(typed: str) -> None:
    with pytest.raises(QuantityError, match=r"rite .*\d") as fault:
        wire_size(typed)
    assert typed in str(fault.value)


def test_a_bare_number_is_not_guessed() -> None:
    for typed, meanings in (
        ("12", "write 12 AWG or 12 mm2"),
        ("2.5", "write 2.5 mm2"),
        ("250", "write 250 kcmil or 250 mm2"),
        ("-1", "write 12 AWG, 250 kcmil"),
    ):
        with pytest.raises(QuantityError, match=meanings):
            wire_size(typed)


@pytest.mark.parametrize("typed", ["12/2", "12-2", "1/2"])
def test_a_cable_is_not_taken_for_a_fraction(typed: str) -> None:
    with pytest.raises(QuantityError, match=r"not a wire gauge .* write for example 12 AWG"):
        wire_size(typed)


def test_the_list_of_gauges_runs_from_thin_to_thick() -> None:
    sizes = [wire_size(text) for text in AWG_SIZES]
    assert [size.text for size in sizes] == list(AWG_SIZES)
    assert (AWG_SIZES[0], AWG_SIZES[-1]) == ("36 AWG", "4/0 AWG")
    assert sizes == sorted(sizes)
    # The ratio of neighbors is constant: 92 ** (2 / 39), by the definition.
    for thin, thick in pairwise(sizes):
        assert thick.area_mm2 / thin.area_mm2 == pytest.approx(92 ** (2 / 39), rel=1e-12)


def test_sizes_of_all_systems_are_ordered_by_area() -> None:
    order = ["14 AWG", "2.5 mm2", "12 AWG", "4 mm2", "95 mm2", "4/0 AWG", "120 mm2", "250 kcmil"]
    assert sorted(map(wire_size, reversed(order))) == [wire_size(text) for text in order]
    assert wire_size("12 AWG") <= wire_size("12 AWG")
    assert max(wire_size("6 AWG"), wire_size("8 AWG")).awg == "6"


SIZES = st.one_of(
    st.sampled_from(AWG_SIZES).map(wire_size),
    st.integers(1, 2000).map(lambda kcmil: wire_size(f"{kcmil} kcmil")),
    st.decimals("0.01", 2500, places=2).map(lambda area: wire_size(f"{area} mm2")),
)


@given(SIZES, SIZES)
def test_order_is_that_of_the_areas_and_total(one: WireSize, other: WireSize) -> None:
    if one.area_mm2 != other.area_mm2:
        assert (one < other) == (one.area_mm2 < other.area_mm2)
    assert (one < other) + (one > other) + (one == other) == 1
    assert (one <= other) == (not one > other)
    assert wire_size(one.text) == one


@given(st.integers(1, 2499), st.integers(1, 2499), st.sampled_from(["kcmil", "mm2"]))
def test_a_larger_number_is_a_larger_area(one: int, other: int, unit: str) -> None:
    assert (wire_size(f"{one} {unit}") < wire_size(f"{other} {unit}")) == (one < other)


@given(st.text(alphabet="0123456789/#.,- awgAWGkcmilMm²", max_size=12) | st.text())
@example("{0} AWG")
@example("\ud800")
@example("1" * 500)
def test_no_text_crashes(text: str) -> None:
    try:
        size = wire_size(text)
    except QuantityError as refusal:
        fault = refusal
    else:
        assert size.area_mm2 > 0
        assert wire_size(size.text) == size
        return
    assert str(fault)
