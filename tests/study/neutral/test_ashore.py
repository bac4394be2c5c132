"""What stands on shore and what aboard."""

from __future__ import annotations

from linework.design import Draft
from linework.study.neutral.ashore import ashore, inlets_fed, loose_leads, seated_with
from tests.findings.camps import camp, caravan


def test_a_plug_parts_the_shore_from_what_is_aboard() -> None:
    assert ashore(caravan().design, "G1") == {"G1", "QF1", "XD1", "QF2", "XD2"}


def test_from_aboard_the_plug_leads_nowhere_and_the_chassis_is_met() -> None:
    assert ashore(caravan().design, "QP1") == set()


def test_where_no_plug_parts_anything_nothing_stands_on_shore() -> None:
    assert ashore(camp("vehicle").design, "G1") == set()


def test_a_set_joined_to_the_chassis_is_aboard_whatever_its_plug_says() -> None:
    draft = caravan()
    draft.run("G1.frame", "XB1.tie", "W9", size="8 AWG", length="2 ft", installation="jumper")
    assert ashore(draft.design, "G1") == set()


def test_what_sits_in_a_part_goes_with_it_but_not_a_plug() -> None:
    design = caravan().design
    assert seated_with(design, "G1") == {"G1", "QF1", "XD1", "QF2", "XD2"}
    assert seated_with(design, "XD1") == {"XD1"}
    assert seated_with(design, "QP1") == {"QP1", "QF3"}


def test_a_lead_is_loose_and_an_outlet_wired_behind_a_plug_is_not() -> None:
    d = Draft(place="recreational")
    d.part("plug", "XP1", configuration="5-15")
    d.part("outlet", "XD1", configuration="5-15")
    d.run("XP1.cord", "XD1.feed", "w", size="14 AWG", length="10 ft", installation="cord")
    assert "XP1" in loose_leads(d.design)
    assert "XD1" in loose_leads(d.design)
    d.rate_run("w", installation="conduit_pvc")
    assert "XD1" not in loose_leads(d.design)
    d.part("outlet", "XD2", configuration="5-15")
    assert "XD2" not in loose_leads(d.design)


def with_cord(design_of: Draft, outlet: str) -> Draft:
    design_of.part("cord_set", "WX1", size="12 AWG", length="25 ft")
    design_of.seat("WX1", outlet, "face")
    return design_of


def test_a_cord_with_nothing_at_its_end_parts_nothing() -> None:
    d = with_cord(camp("vehicle"), "XD1")
    assert ashore(d.design, "G1") == set()
    d.part("plug_load", "EP9", power="300 W")
    d.seat("EP9", "WX1", "face")
    assert ashore(d.design, "G1") == set()


def test_a_cord_that_ends_on_an_inlet_does() -> None:
    d = with_cord(camp("vehicle"), "XD1")
    d.part("inlet", "XI1", configuration="5-15")
    d.seat("XI1", "WX1", "face")
    assert "G1" in ashore(d.design, "G1")


def test_a_tool_on_a_cord_parts_nothing() -> None:
    d = camp("vehicle")
    d.part("plug", "XP1", configuration="5-15")
    d.seat("XP1", "XD1", "face")
    d.part("heater", "EH1", power="1 kW")
    d.run("XP1.cord", "EH1.in", "c", size="14 AWG", length="6 ft", installation="cord")
    assert ashore(d.design, "G1") == set()
    assert inlets_fed(d.design, "XD1") == set()


def test_the_cord_of_a_trailer_that_ends_on_its_board_does() -> None:
    d = camp("vehicle")
    d.part("plug", "XP1", configuration="5-15")
    d.seat("XP1", "XD1", "face")
    d.part("panel", "QP9")
    d.run("XP1.cord", "QP9.feed", "c", size="14 AWG", length="20 ft", installation="cord")
    assert "G1" in ashore(d.design, "G1")
