"""Strings on a cold morning, against published lessons and a discussed design."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from linework.kinds import Answer
from tests.findings.banks import one_by_one, van
from tests.findings.told import cured, found, gaps, number, places

RULE = "string-voltage-high"
DISCUSSED = {"voc": "49.5 V", "isc": "10 A", "voc_per_degree": "-0.28 %", "coldest": "0 degC"}


def field(limit: str, **array: Answer) -> Draft:
    """An array straight on a controller for 48 V."""
    d = Draft(place="building")
    d.part("solar_array", "GP1", **array)
    d.part(
        "solar_controller",
        "TC1",
        dc_voltage="48 V",
        current="60 A",
        pv_voltage=limit,
        pv_current="60 A",
    )
    d.part("battery", "GB1", voltage="48 V")
    d.run("GP1.dc", "TC1.pv", "w", size="10 AWG", length="80 ft")
    d.run("TC1.dc", "GB1.dc", "b", size="4 AWG", length="4 ft")
    return d


def test_ten_modules_are_too_many_at_freezing_point() -> None:
    """A public thread on worst-case array design (r.arson.gg/r/SolarAmerica/comments/1rcph98):
    ten modules reach 529.7 V, the limit is 500 V; its poster went to nine."""
    draft = field("500 V", **DISCUSSED, series="10")
    draft.rate_run("w", size="8 AWG")  # for two strings
    (hit,) = found(draft, RULE)
    assert (hit.subjects, hit.level) == (("GP1", "TC1"), Level.DANGER)
    volts = number(hit, "open-circuit voltage on the coldest day")
    assert volts == pytest.approx(529.7, abs=0.1)
    assert found(draft, "string-unfused") == []
    assert hit.mend is not None
    assert hit.mend.title == "Wire the 10 modules of GP1 as 2 strings of 5"
    assert [f.rule for f in cured(draft, hit).findings if f.rule == RULE] == []


def test_nine_are_not() -> None:
    """The final design of the same thread: 476.7 V."""
    draft = field("500 V", **DISCUSSED, series="9")
    assert found(draft, RULE) == []
    assert gaps(draft, RULE) == []
    assert found(draft, "string-unfused") == []


@pytest.mark.parametrize(("modules", "high"), [("18", False), ("19", True)])
def test_a_string_sizing_lesson(modules: str, high: bool) -> None:
    """amozeshbargh.ir/post-69: on 1000 V at -5 C eighteen modules of 49.5 V and no more."""
    module = {**DISCUSSED, "coldest": "-5 degC"}
    assert bool(found(field("1000 V", **module, series=modules), RULE)) is high


def test_an_unknown_temperature_decides() -> None:
    module = {key: value for key, value in DISCUSSED.items() if key != "coldest"}
    draft = field("500 V", **module, series="9")  # 476.7 V at 0 C, 526.6 V at -40 C
    assert found(draft, RULE) == []
    (gap,) = gaps(draft, RULE)
    assert "the lowest temperature decides" in gap.reason
    # whatever the temperature: said
    assert places(field("470 V", **module, series="9"), RULE) == {("GP1", "TC1")}
    # nowhere too high: silent
    assert gaps(field("530 V", **module, series="9"), RULE) == []


def test_a_switch_and_a_fuse_in_the_string_count_too() -> None:
    draft = van()
    assert found(draft, RULE) == []
    draft.rate("QB2", voltage="48 V")  # two modules reach 49.9 V at -20 C
    assert places(draft, RULE) == {("GP1", "QB2")}
    draft.rate("QB2", voltage="50 V")
    assert found(draft, RULE) == []
    draft.rate("QB2", voltage=None)
    (gap,) = gaps(draft, RULE)
    assert gap.where == ("QB2",)


def test_devices_of_the_battery_do_not() -> None:
    """The controller joins minus through, and the bank's fuses stand less than the array."""
    draft = van(series="4", coldest="-10 degC")
    draft.rate("F2", voltage="32 V", type="ato")
    assert found(draft, RULE) == []
    assert gaps(draft, RULE) == []


def test_an_array_straight_on_an_inverter() -> None:
    draft = van()
    draft.part("inverter", "TB1", power="300 VA", neutral="floating")
    draft.run("QB2.load", "TB1.dc", "W30", size="10 AWG", length="2 ft")
    assert ("GP1", "TB1") in places(draft, RULE)


def test_arrays_drawn_one_by_one_in_series_add_up() -> None:
    draft = one_by_one()
    assert found(draft, RULE) == []
    draft.rate("TC1", pv_voltage="40 V")  # two modules reach 49.9 V at -20 C
    (hit,) = found(draft, RULE)
    assert (hit.subjects, hit.level) == (("GP1", "GP2", "TC1"), Level.DANGER)
    volts = number(hit, "open-circuit voltage on the coldest day")
    assert volts == pytest.approx(2 * 22.0 * 1.135, abs=0.1)


def test_a_switch_between_two_arrays_in_series_opens_the_whole_voltage() -> None:
    draft = one_by_one()
    draft.part("isolator", "QB3", circuit="dc", rating="16 A", voltage="48 V", direct="yes")
    draft.cut("W11")
    draft.run("GP1.dc", "QB3.line", "W11", poles="->+", size="10 AWG", length="5 ft")
    draft.run("QB3.load", "GP2.dc", "W14", poles="+", size="10 AWG", length="5 ft")
    assert ("GP1", "GP2", "QB3") in places(draft, RULE)


@pytest.mark.parametrize(
    ("kind", "plate", "told", "open_"),
    [
        ("motor", None, False, True),
        ("motor", "45 V", True, False),
        ("motor", "50 V", False, False),
        ("lamp", None, True, False),
        ("lamp", "50 V", False, False),
    ],
)
def test_a_load_straight_on_the_array(
    kind: str, plate: str | None, told: bool, open_: bool
) -> None:
    """Two modules of 22 V, -0.3 % a degree, on a pump or lamp of 36 V: 47.3 V at freezing point."""
    d = Draft(place="field")
    module = {"voc": "22 V", "isc": "9 A", "vmp": "18 V", "voc_per_degree": "-0.3 %"}
    d.part("solar_array", "GP1", series="2", coldest="0 degC", **module)
    d.part(kind, "MA1", circuit="dc", voltage="36 V", power="250 W", case="insulated")
    d.rate("MA1", most_voltage=plate)
    d.run("GP1.dc", "MA1.in", "W1", size="10 AWG", length="20 ft", insulation="90")
    assert bool(found(d, RULE)) is told
    assert bool(gaps(d, RULE)) is open_
