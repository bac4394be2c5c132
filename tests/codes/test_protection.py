"""Standard ratings and the largest device for a conductor."""

from __future__ import annotations

import pytest

from linework.codes import CodesError
from linework.codes.na.ampacity import ampacity, base_ampacity
from linework.codes.na.protection import (
    appliance_device,
    design_current,
    largest_device,
    small_conductor_limit,
    standard_down,
    standard_ratings,
    standard_up,
)


def test_ten_ampere_breakers_are_new_in_2023():
    assert standard_ratings()[0].value == 10.0
    assert standard_ratings(edition="2020")[0].value == 15.0
    assert [each.value for each in standard_ratings("fuse", "2020")[:5]] == [1, 3, 6, 10, 15]
    assert [each.value for each in standard_ratings("fuse", "2023")[:5]] == [1, 3, 6, 10, 15]


@pytest.mark.parametrize(
    ("amps", "up", "down"),
    [(15.0, 15, 15), (15.1, 20, 15), (55.0, 60, 50), (61, 70, 60), (801, 1000, 800)],
)
def test_rounding_to_standard_ratings(amps, up, down):
    assert (standard_up(amps).value, standard_down(amps).value) == (up, down)


def test_beyond_the_list_there_is_an_error():
    with pytest.raises(CodesError, match="6000"):
        standard_up(6001)
    with pytest.raises(CodesError, match="10 A"):
        standard_down(9.9)


@pytest.mark.parametrize(
    ("size", "metal", "limit"),
    [
        # 240.4(D).
        ("14 AWG", "copper", 15),
        ("12 AWG", "copper", 20),
        ("10 AWG", "copper", 30),
        ("12 AWG", "aluminum", 15),
        ("10 AWG", "aluminium", 25),
        ("10 AWG", "copper-clad aluminum", 25),
        ("14 AWG", "copper-clad aluminum", 10),
    ],
)
def test_small_conductors(size, metal, limit):
    assert small_conductor_limit(size, metal).value == limit


def test_small_conductors_by_edition_and_condition():
    assert small_conductor_limit("14 AWG", "copper-clad aluminum", "2020") is None
    assert small_conductor_limit("8 AWG") is None
    assert "5.6 A" in small_conductor_limit("18 AWG").note


@pytest.mark.parametrize(
    ("size", "insulation_c", "terminal_c", "options", "amps"),
    [
        # 75 C columns with 240.4(D): 14, 12, 10 AWG end at 15, 20, 30 A.
        ("14 AWG", 75, 75, {}, 15),
        ("12 AWG", 75, 75, {}, 20),
        ("10 AWG", 75, 75, {}, 30),
        # 6 AWG at 60 C is 55 A: the next size up is 60 A, with several outlets 50 A.
        ("6 AWG", 75, 60, {}, 60),
        ("6 AWG", 75, 60, {"several_outlets": True}, 50),
        # 6 AWG at 75 C is 65 A.
        ("6 AWG", 75, 75, {}, 70),
        # Exactly a standard rating: nothing is rounded up.
        ("8 AWG", 75, 75, {}, 50),
        # 2 x 500 kcmil are not in question; one 1000 kcmil copper at 75 C is 545 A: 600 A.
        ("1000 kcmil", 75, 75, {}, 600),
    ],
)
def test_largest_device(size, insulation_c, terminal_c, options, amps):
    carried = ampacity(size, "copper", insulation_c, terminal_c=terminal_c)
    assert largest_device(carried, size, **options).value == amps


def test_above_800_ampere_nothing_is_rounded_up():
    carried = base_ampacity("1000 kcmil").became(810.0, "A", "two in parallel")
    found = largest_device(carried, "1000 kcmil")
    assert found.value == 800.0
    assert "240.4(C)" in found.clause
    just = base_ampacity("1000 kcmil").became(760.0, "A", "two in parallel")
    assert largest_device(just, "1000 kcmil").value == 800.0


def test_below_the_least_rating_the_ampacity_itself_is_the_limit():
    carried = base_ampacity("12 AWG").became(8.0, "A", "very hot")
    assert largest_device(carried, "12 AWG", several_outlets=True).value == 8.0
    assert largest_device(carried, "12 AWG").value == 10.0


def test_derating_counts_before_the_small_conductor_limit():
    """12 AWG THHN, ten together: 30 x 0.5 = 15 A."""
    carried = ampacity("12 AWG", "copper", 90, grouped=10, terminal_c=75)
    assert largest_device(carried, "12 AWG").value == 15.0


def test_mixed_and_fully_rated_loads():
    """210.20(A): 10 A for a while and 8 A for hours: 20 A; listed for 100 percent: 18 A."""
    assert design_current(10.0, 8.0).value == 20.0
    assert design_current(10.0, 8.0, full_rated=True).value == 18.0
    assert "210.20(A)" in design_current(10.0, 8.0).clause


@pytest.mark.parametrize(
    ("amps", "most"),
    [
        # 422.11(E): a water heater of 4,500 W at 240 V takes 18.75 A, 150 % are 28.1 A, so 30 A;
        # one of 1,500 W at 120 V 12.5 A, so 20 A
        (18.75, 30.0),
        (12.5, 20.0),
        (13.3, 20.0),
        (13.4, 25.0),
        (20.0, 30.0),
    ],
)
def test_devices_before_a_single_appliance(amps, most):
    assert appliance_device(amps).value == most
