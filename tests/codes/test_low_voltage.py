"""Direct-current wiring in vehicles, cabins and boats."""

from __future__ import annotations

from math import sqrt

import pytest

from linework.codes import CodesError
from linework.codes.na.low_voltage import (
    battery_interrupting,
    device_distance_m,
    low_voltage_device,
    marine_ampacity,
    marine_base_ampacity,
    marine_constant,
    marine_largest_device,
)
from linework.codes.tables import rows


@pytest.mark.parametrize(
    ("size", "amps"),
    [("18 AWG", 6), ("16 AWG", 8), ("14 AWG", 15), ("12 AWG", 20), ("10 AWG", 30)],
)
def test_vehicle_devices(size, amps):
    """Table 552.10(E)(1); none of its rows is confirmed by two sources."""
    assert low_voltage_device(size).value == amps
    assert not low_voltage_device(size).confirmed


def test_vehicle_devices_end_at_10_awg():
    with pytest.raises(CodesError, match="10 AWG"):
        low_voltage_device("8 AWG")


@pytest.mark.parametrize(
    ("place", "source", "sheathed", "inches"),
    [
        # ABYC E-11: 7, 40 and 72 inches; 552.10(E)(4): 18 inches.
        ("boat", "battery", False, 7),
        ("boat", "battery", True, 72),
        ("boat", "other source", True, 40),
        ("boat", "other source", False, 7),
        ("recreational", "battery", False, 18),
        ("vehicle", "battery", True, 18),
        ("building", "battery", False, 18),
    ],
)
def test_distance_of_the_first_device(place, source, sheathed, inches):
    found = device_distance_m(place, source, sheathed=sheathed)
    assert found.value == pytest.approx(inches * 0.0254)


def test_practice_and_unknown_places():
    assert not device_distance_m("field").confirmed
    assert device_distance_m("boat").confirmed
    with pytest.raises(CodesError, match="boat"):
        device_distance_m("balloon")


def test_engine_spaces_follow_the_temperature_relation():
    """33 CFR 183.425: inside = outside x sqrt((T - 50) / (T - 30)), but for 200 C."""
    checked = 0
    for row in rows("na/ampacity_marine_33_cfr_183_425"):
        top = float(row["insulation_C"])
        if top == 200.0:
            continue
        inside = float(row["outside_engine_space_A"]) * sqrt((top - 50) / (top - 30))
        # The regulation rounds the factor to 0.01 and the result to whole amperes.
        slack = 0.01 * float(row["outside_engine_space_A"]) + 0.5
        assert float(row["inside_engine_space_A"]) == pytest.approx(inside, abs=slack)
        checked += 1
    assert checked == 90


def test_marine_ampacity():
    """33 CFR 183.425, 105 C: 4 AWG 160 A outside, 136 A inside engine spaces."""
    assert marine_base_ampacity("4 AWG", 105).value == 160
    assert marine_base_ampacity("4 AWG", 105, engine_space=True).value == 136
    assert marine_base_ampacity("4 AWG", 110).value == 160
    assert marine_base_ampacity("4 AWG", 105).confirmed


def test_marine_heat():
    assert marine_ampacity("4 AWG", 105).value == 160
    assert marine_ampacity("4 AWG", 105, ambient_c=20).value == 160
    assert marine_ampacity("4 AWG", 105, ambient_c=50).value == pytest.approx(136, rel=0.01)
    assert marine_ampacity("4 AWG", 105, ambient_c=50, engine_space=True).value == 136
    assert marine_ampacity("4 AWG", 105, ambient_c=105).value == 0.0


def test_marine_devices():
    assert marine_largest_device(marine_base_ampacity("4 AWG", 105)).value == 240
    assert marine_constant().value == 10.75


@pytest.mark.parametrize(
    "ask",
    [
        lambda: marine_base_ampacity("250 kcmil", 105),
        lambda: marine_base_ampacity("4 AWG", 50),
    ],
)
def test_unanswerable_questions_are_errors(ask):
    with pytest.raises(CodesError):
        ask()


def test_devices_at_lead_batteries_afloat():
    """ABYC E-11 table V-A, as a maker of breakers reprints it."""
    assert battery_interrupting(650, main=True).value == 1500
    assert battery_interrupting(651, main=False).value == 1500
    assert battery_interrupting(2200, main=True).value == 5000
    with pytest.raises(CodesError, match="2200"):
        battery_interrupting(2201, main=True)
