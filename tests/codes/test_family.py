"""The seam by which rules ask, as North America answers; an error for families nobody knows."""

from __future__ import annotations

import pytest

from linework.codes import CodesError, Family, Sourced, family
from linework.codes.na.edition import fact
from linework.data import Confidence
from linework.kinds.run import RUN_RATINGS
from linework.wiring import Pole


def test_unknown_families_and_editions_are_refused():
    with pytest.raises(CodesError, match="NA"):
        family("XX", "2023")
    with pytest.raises(CodesError, match="2023"):
        family("NA", "2026")


def test_the_edition_stands_in_every_clause():
    older = family("NA", "2017")
    assert older.title == "NFPA 70 (2017)"
    assert older.ground_wire(20, "12 AWG").clause == "NFPA 70 (2017) Table 250.122"
    assert family("NA", "2023").cite("250.30") == "NFPA 70 (2023) 250.30"
    assert (family("NA", "2023").key, family("NA", "2023").edition) == ("NA", "2023")


def carry(rules: Family, size: str, **options: object) -> float:
    asked: dict[str, object] = {
        "laid": "cable",
        "ambient_c": 30.0,
        "grouped": 2,
        "terminal_c": 60,
    } | options
    return rules.ampacity(size, "copper", 90.0, **asked).value  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("options", "amps"),
    [
        ({}, 20.0),
        ({"terminal_c": 75}, 25.0),
        ({"laid": "house_cable", "terminal_c": 75}, 20.0),
        ({"laid": "free_air", "terminal_c": None}, 40.0),
        ({"laid": "cord"}, 25.0),
        ({"laid": "cord", "grouped": 3}, 20.0),
        ({"laid": "insulation"}, 20.0),
        ({"laid": "engine", "ambient_c": 50.0}, 20.0),
        # Afloat below 50 V the marine table holds, above it the land table.
        ({"place": "boat", "dc_v": 12.0}, 40.0),
        ({"place": "boat", "dc_v": 12.0, "laid": "engine"}, 33.0),
        ({"place": "boat", "dc_v": 120.0}, 20.0),
        ({"place": "boat"}, 20.0),
    ],
)
def test_ampacity_by_how_a_run_is_laid(options, amps):
    assert carry(family("NA", "2023"), "12 AWG", **options) == amps


@pytest.mark.parametrize("choice", RUN_RATINGS["installation"].choices, ids=lambda c: c.value)
def test_every_way_of_laying_that_can_be_drawn_has_an_answer(choice):
    assert carry(family("NA", "2023"), "12 AWG", laid=choice.value) > 0.0


def test_what_no_table_covers_is_refused():
    with pytest.raises(CodesError, match="cable"):
        carry(family("NA", "2023"), "12 AWG", laid="kite")
    for options in ({"laid": "cord"}, {"laid": "cable", "place": "boat", "dc_v": 12.0}):
        with pytest.raises(CodesError, match="aluminum"):
            family("NA", "2023").ampacity(
                "6 AWG", "aluminum", 75.0, ambient_c=30.0, grouped=2, terminal_c=60, **options
            )


def test_the_family_answers_every_topic():
    """Each answer once, from the tables named in its clause."""
    rules = family("NA", "2023")
    carried = rules.ampacity(
        "10 AWG", "copper", 75.0, laid="cable", ambient_c=30.0, grouped=2, terminal_c=60
    )
    assert rules.largest_device(carried, "10 AWG").value == 30.0
    assert rules.standard_up(31.0).value == 35.0
    assert rules.design_current(0.0, 16.0).value == 20.0
    assert rules.terminal_temperature("10 AWG", 30.0).value == 60
    assert rules.counted_conductors((Pole.L, Pole.N, Pole.PE)).value == 2
    assert rules.ground_wire(30.0, "10 AWG").size == "10 AWG"
    assert rules.bonding_jumper("6 AWG").size == "8 AWG"
    assert rules.electrode_conductor("6 AWG").value == "8 AWG"
    assert rules.vehicle_bond().value == "8 AWG"
    assert rules.battery_bond("4 AWG").size == "4 AWG"
    assert rules.low_voltage_device("12 AWG").value == 20.0
    assert rules.device_distance_m("recreational").value == pytest.approx(0.4572)
    assert rules.receptacle_allowed(20.0, 15.0, 2).ok
    half_horsepower = Sourced(
        9.8, "A", "Table 430.248", "1/2 hp, 115 V", Confidence.AGREED, "1999; 2011"
    )
    assert rules.motor_device(half_horsepower).value == 25.0  # 9.8 x 2.5 = 24.5
    assert rules.touch_limit_v(dc=False, wet=True).value == 25.0
    assert rules.disconnection_s(120.0).value == 0.8
    assert "practice" in rules.disconnection_s(120.0).clause
    assert (rules.clearing_multiple().value, rules.quick_multiple().value) == (2.0, 5.0)
    assert (rules.drop_advice("branch").value, rules.drop_advice("total").value) == (3.0, 5.0)


def test_rules_in_plain_words_keep_their_clause():
    bond = fact("M32")
    assert "8 AWG" in bond.value
    assert bond.clause == "NFPA 70 (2023) 551.56(C)"
    assert fact("G24").clause == "ABYC E-11"
