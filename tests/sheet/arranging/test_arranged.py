"""Samples and rigs arranged from nothing are as plain as they once were found to be."""

from __future__ import annotations

import pytest

from linework.design.edits import change_settings
from linework.sheet.arranging import lay_out
from tests.sheet.arranged import drawn, names
from tests.sheet.plainness import Plainness, bare, plainness
from tests.trial.rigs import RIGS

HELD = {
    "beekeepers-trailer": (1, 0, 1),
    "mountain-hut-as-sketched": (8, 2, 1),
    "mountain-hut": (7, 2, 1),
    "vaccination-trailer-as-sketched": (6, 0, 1),
    "vaccination-trailer": (6, 0, 1),
    "weather-station": (12, 2, 1),
    "courier_van": (10, 2, 1),
    "camper_van": (13, 1, 1),
    "motor_home": (15, 3, 1),
    "workshop_trailer": (8, 2, 1),
    "food_truck": (2, 0, 1),
    "workboat": (14, 4, 2),
    "sailing_boat": (14, 6, 1),
    "cruiser_with_two_cords": (13, 1, 1),
    "tender": (4, 1, 1),
    "house_with_interlock": (2, 0, 1),
    "house_with_standby_board": (2, 0, 1),
    "clinic_with_own_neutral": (3, 0, 1),
    "house_with_barn": (2, 0, 1),
    "old_farm": (2, 0, 1),
    "house_with_trailer": (0, 0, 1),
    "cabin_on_one_hot": (2, 0, 1),
    "fishing_lodge": (1, 0, 1),
    "telephone_hut": (8, 2, 1),
    "ranger_hut": (10, 2, 1),
    "pump_station": (0, 0, 1),
    "field_camp": (0, 0, 1),
    "market_stall": (0, 0, 1),
    "tiny_house": (0, 0, 1),
    "relay_station": (6, 1, 1),
    "survey_truck": (0, 0, 1),
    "old_cottage": (5, 0, 1),
    "shepherds_van": (0, 0, 1),
    "orchard_pump": (6, 1, 1),
    "roadworks_trailer": (6, 1, 1),
    "rescue_van": (23, 6, 2),
    "ketch": (21, 8, 1),
    "trawler": (13, 5, 1),
    "lake_cabin": (11, 1, 1),
    "narrow_boat": (13, 1, 1),
    "expedition_truck": (19, 3, 1),
    "workshop_on_two_sets": (4, 0, 1),
    "homestead": (8, 0, 1),
    "trailer_on_a_dogbone": (13, 4, 1),
}
"""Bends, crossings and sheets that were reached, plus and minus on lines of their own; none may
become more."""


def test_every_sample_and_rig_is_held() -> None:
    assert set(HELD) == set(names())


@pytest.mark.parametrize("name", names())
def test_a_design_is_arranged_as_plainly_as_it_was(name: str) -> None:
    _check(plainness(lay_out(bare(drawn(name)))), *HELD[name])


@pytest.mark.parametrize("name", [name for name in names() if name not in RIGS])
def test_a_sample_is_drawn_as_plainly_as_it_is_arranged(name: str) -> None:
    _check(plainness(drawn(name)), *HELD[name])


def _check(found: Plainness, bends: int, crossed: int, sheets: int) -> None:
    assert found.bends <= bends
    assert found.crossings <= crossed
    assert found.sheets <= sheets
    assert found.outside == found.overlaps == 0


@pytest.mark.parametrize("paper", ["A4", "letter"])
@pytest.mark.parametrize("name", ["vaccination-trailer", "mountain-hut", "old_cottage"])
def test_on_small_paper_there_are_more_sheets_and_nothing_is_off_them(
    name: str, paper: str
) -> None:
    design = bare(drawn(name))
    design.apply(change_settings(design, sheet=paper))
    found = plainness(lay_out(design))
    assert found.outside == found.overlaps == 0
    assert found.sheets > 1
