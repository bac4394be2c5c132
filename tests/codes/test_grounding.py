"""Ground wires, bonding jumpers, electrode conductors: tables, exact proportion, boundaries."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linework.codes import CodesError, size_of, standard_sizes
from linework.codes.na.grounding import (
    battery_bond,
    bonding_jumper,
    electrode_conductor,
    ground_wire,
    ground_wire_base,
    vehicle_bond,
)


@pytest.mark.parametrize(
    ("device_a", "copper", "aluminum"),
    [
        # Table 250.122, with both sides of its steps.
        (15, "14 AWG", "12 AWG"),
        (20, "12 AWG", "10 AWG"),
        (21, "10 AWG", "8 AWG"),
        (60, "10 AWG", "8 AWG"),
        (61, "8 AWG", "6 AWG"),
        (100, "8 AWG", "6 AWG"),
        (200, "6 AWG", "4 AWG"),
        (201, "4 AWG", "2 AWG"),
        (500, "2 AWG", "1/0 AWG"),
        (1200, "3/0 AWG", "250 kcmil"),
        (6000, "800 kcmil", "1250 kcmil"),
    ],
)
def test_table_by_device(device_a, copper, aluminum):
    assert ground_wire_base(device_a).value == copper
    assert ground_wire_base(device_a, "aluminium").value == aluminum


def test_beyond_the_table():
    with pytest.raises(CodesError, match="6000"):
        ground_wire_base(6001)


def test_never_above_the_circuit():
    """250.122(A): a 40 A device on 14 AWG (a motor circuit) does not call for 10 AWG."""
    need = ground_wire(40, "14 AWG")
    assert need.size == "14 AWG"
    assert "250.122(A)" in need.clause
    # Of another metal the comparison of areas would say nothing.
    assert ground_wire(40, "12 AWG", material="aluminum").size == "8 AWG"


def test_without_a_minimum_nothing_grows():
    assert ground_wire(20, "8 AWG").size == "12 AWG"
    assert ground_wire(20, "12 AWG", minimum_size="10 AWG").size == "12 AWG"
    assert ground_wire(20, "12 AWG").confirmed
    assert not ground_wire(20, "10 AWG", minimum_size="12 AWG").confirmed


def test_a_proportion_is_no_more_exact_than_its_areas():
    """250.122(B): behind 60 A 10 AWG, grown as 4 AWG in place of 6 AWG, is 10380 x 41740 / 26240 =
    16511.5 cmil; 8 AWG has 16510, and four gauges are four gauges."""
    assert ground_wire(60, "4 AWG", minimum_size="6 AWG").size == "8 AWG"
    assert ground_wire(60, "3 AWG", minimum_size="6 AWG").size == "6 AWG"  # 20815 cmil


@given(
    st.sampled_from(standard_sizes()),
    st.sampled_from(standard_sizes()),
    st.sampled_from([15, 20, 30, 60, 100, 200, 400]),
)
def test_the_need_is_met_by_the_size_named_and_never_above_the_circuit(used, minimum, device_a):
    need = ground_wire(device_a, used, minimum_size=minimum)
    assert need.met_by(need.size)
    assert need.met_by(used)
    base = size_of(ground_wire_base(device_a).value).cmil
    # a proportion of rounded areas holds to a thousandth
    ratio_holds = need.cmil * 1001 * size_of(minimum).cmil >= 1000 * base * size_of(used).cmil
    assert ratio_holds or need.cmil == size_of(used).cmil or used == minimum or need.cmil == base


def test_vehicle_and_battery_bonds():
    """551.56(C), 552.10(C)(4): 8 AWG, and not below the battery lead."""
    assert vehicle_bond().value == "8 AWG"
    assert vehicle_bond().confirmed
    assert battery_bond(None).size == "8 AWG"
    assert battery_bond("10 AWG").size == "8 AWG"
    assert battery_bond("2/0 AWG").size == "2/0 AWG"
    assert not battery_bond("2/0 AWG").met_by("1/0 AWG")


@pytest.mark.parametrize(
    ("conductor", "metal", "jumper"),
    [
        ("10 AWG", "copper", "8 AWG"),
        ("2 AWG", "copper", "8 AWG"),
        ("1 AWG", "copper", "6 AWG"),
        ("250 kcmil", "copper", "2 AWG"),  # forum thread on bond sizes: 250 kcmil, 2 AWG
        ("750 kcmil", "copper", "2/0 AWG"),  # same thread: 3 x 250 kcmil, 2/0
        ("1/0 AWG", "aluminum", "8 AWG"),
        ("2/0 AWG", "aluminum", "6 AWG"),
    ],
)
def test_bonding_jumper(conductor, metal, jumper):
    assert bonding_jumper(conductor, metal).size == jumper


def test_bonding_jumper_beyond_and_below_the_table():
    """Above 1100 kcmil 12.5 percent: 2000 kcmil, 250 kcmil. Small sources: their own size."""
    assert bonding_jumper("2000 kcmil").size == "250 kcmil"
    assert bonding_jumper("14 AWG", source_va=1000.0).size == "14 AWG"
    assert bonding_jumper("18 AWG", source_va=500.0).size == "14 AWG"
    assert bonding_jumper("14 AWG", source_va=1001.0).size == "8 AWG"


@pytest.mark.parametrize(
    ("conductor", "metal", "size"),
    [
        ("12 AWG", "copper", "8 AWG"),
        ("1/0 AWG", "copper", "6 AWG"),
        ("2/0 AWG", "copper", "4 AWG"),
        ("350 kcmil", "copper", "2 AWG"),
        ("500 kcmil", "copper", "1/0 AWG"),
        ("1000 kcmil", "copper", "2/0 AWG"),
        ("1250 kcmil", "copper", "3/0 AWG"),
        ("250 kcmil", "aluminum", "4 AWG"),
    ],
)
def test_electrode_conductor(conductor, metal, size):
    assert electrode_conductor(conductor, metal).value == size


def test_to_a_rod_alone_six_gauge_suffices():
    assert electrode_conductor("2/0 AWG", to_rod=True).value == "6 AWG"
    assert electrode_conductor("12 AWG", to_rod=True).value == "8 AWG"
