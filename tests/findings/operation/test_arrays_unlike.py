"""Strings of different voltage on one controller."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.banks import PLATE, one_by_one, van
from tests.findings.told import found, number, places

RULE = "arrays-unlike"


def beside(**array: str) -> Draft:
    """Two modules of 22 V in series, and another array on the same switch."""
    draft = van()
    draft.part("solar_array", "GP2", **(PLATE | array))
    draft.run("GP2.dc", "QB2.line", "W30", size="10 AWG", length="10 ft")
    return draft


def test_a_single_module_beside_two_in_series() -> None:
    (hit,) = found(beside(), RULE)
    assert (hit.subjects, hit.level) == (("GP2", "GP1"), Level.WARNING)
    assert number(hit, "voltage between them") == pytest.approx(22.0)
    assert "GP2 of 22 V lies beside GP1 of 44 V" in hit.message


@pytest.mark.parametrize(("voc", "told"), [("20.1 V", False), ("19.9 V", True), ("25 V", True)])
def test_a_tenth_apart_is_alike(voc: str, told: bool) -> None:
    """44 V beside two modules of 20 V are exactly 1.1 times as much."""
    assert bool(found(beside(series="2", voc=voc, vmp="16 V"), RULE)) is told


def test_arrays_that_are_drawn_one_by_one_count_as_one_row() -> None:
    draft = one_by_one()
    assert found(draft, RULE) == []
    draft.part("solar_array", "GP3", **PLATE)
    draft.run("GP3.dc", "QB2.line", "W30", size="10 AWG", length="10 ft")
    assert places(draft, RULE) == {("GP3", "GP1", "GP2")}


def test_a_controller_each_keeps_them_apart() -> None:
    draft = beside()
    draft.cut("W30")
    draft.part("solar_controller", "TC2", current="20 A", pv_voltage="100 V", pv_current="30 A")
    draft.run("GP2.dc", "TC2.pv", "W30", size="10 AWG", length="10 ft")
    draft.run("TC2.dc", "TC1.dc", "W31", size="8 AWG", length="1 ft")
    assert found(draft, RULE) == []
