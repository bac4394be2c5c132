"""array-too-low: a controller makes a voltage lower, never higher."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.banks import one_by_one, van
from tests.findings.told import cured, found, number

RULE = "array-too-low"


def array(vmp: str, series: str, bank: str = "12 V", slope: str = "-0.3 %") -> Draft:
    d = van(series=series, vmp=vmp, voc="22 V" if vmp == "18 V" else "37 V", voc_per_degree=slope)
    d.rate("GB1", voltage=bank)
    d.rate("TC1", dc_voltage=bank)
    d.rate("EL1", voltage=bank)
    return d


@pytest.mark.parametrize(
    ("vmp", "series", "bank", "hit"),
    [
        # 36 cells give 18 V and on 12 V are charged to 14.4 V; hot 18 (1 - 0.003 x 40) = 15.8 V
        ("18 V", "1", "12 V", False),
        ("18 V", "1", "24 V", True),
        ("18 V", "2", "24 V", False),
        # 60 cells: 30 V, hot 26.4 V, below the 28.8 V of a bank of 24 V
        ("30 V", "1", "24 V", True),
        ("30 V", "1", "12 V", False),
        ("30 V", "2", "48 V", True),
    ],
)
def test_modules_and_banks(vmp: str, series: str, bank: str, hit: bool) -> None:
    told = {f.subjects: f.level for f in found(array(vmp, series, bank), RULE)}
    assert told == ({("GP1", "TC1"): Level.WARNING} if hit else {})


def test_it_tells_what_is_missing_when_hot_and_always() -> None:
    (cool,) = found(array("18 V", "1", "24 V"), RULE)
    assert number(cool, "voltage at its greatest power") == pytest.approx(18.0)
    assert number(cool, "needed to charge") == pytest.approx(28.8)
    assert "never gets full" in cool.message
    (hot,) = found(array("30 V", "1", "24 V"), RULE)
    assert number(hot, "voltage at its greatest power") == pytest.approx(26.4)
    assert "On sunny days" in hot.message


def test_the_mend_is_another_module_in_series() -> None:
    d = array("18 V", "1", "24 V")
    (finding,) = found(d, RULE)
    cured(d, finding)
    assert d.design.part("GP1").ratings["series"] == "2"


def test_the_slope_of_the_module_decides_when_it_is_hot() -> None:
    # 30 V (1 - 0.001 x 40) = 28.8 V
    assert not found(array("30 V", "1", "24 V", "-0.1 %"), RULE)
    assert found(array("30 V", "1", "24 V", "-0.11 %"), RULE)


def test_a_battery_that_is_charged_to_less_needs_less() -> None:
    d = array("30 V", "1", "24 V")
    d.rate("GB1", charged_voltage="26 V")
    assert not found(d, RULE)


def test_modules_drawn_one_by_one_in_series_are_one_string() -> None:
    assert not found(one_by_one(), RULE)
    d = one_by_one(vmp="13 V", voc="16 V")
    (hit,) = found(d, RULE)
    assert hit.subjects == ("GP1", "GP2", "TC1")
    assert number(hit, "voltage at its greatest power") == pytest.approx(26.0)
