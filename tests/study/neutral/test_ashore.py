"""What stands on shore and what aboard."""

from __future__ import annotations

from linework.study.neutral.ashore import ashore, seated_with
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
