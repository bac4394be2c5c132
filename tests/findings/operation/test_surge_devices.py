"""surge-and-lightning and surge-device-wrong: devices at what leads outside."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.design.edits import change_settings
from linework.findings.model import Level
from linework.kinds import Answer
from tests.findings.banks import one_by_one, van
from tests.findings.camps import house, levels
from tests.findings.told import found, gaps, number

ASKED, WRONG = "surge-and-lightning", "surge-device-wrong"


def guarded(lead: str = "1 ft", **device: Answer) -> Draft:
    """The house with a device behind a breaker of its board."""
    d = house()
    d.part("breaker", "QF2", rating="20 A", interrupting="10 kA")
    d.seat("QF2", "QP1", "2")
    d.part("surge_device", "FA1", **({"continuous_voltage": "150 V"} | device))
    d.run("QF2.load", "FA1.line", "W9", size="12 AWG", length=lead)
    return d


def test_a_device_on_the_board_answers_the_caution() -> None:
    assert levels(house(), ASKED) == {("GS1",): Level.NOTE}
    assert levels(guarded(), ASKED) == {}
    assert levels(guarded(), WRONG) == {}


def test_an_array_is_asked_for_one_of_its_own() -> None:
    d = guarded()
    d.part("solar_array", "GP1", voc="22 V", isc="6 A", vmp="18 V", imp="5.5 A")
    assert levels(d, ASKED) == {("GP1",): Level.NOTE}
    d.part("surge_device", "FA2", circuit="dc", continuous_voltage="150 V")
    d.run("GP1.dc", "FA2.line", "W10", size="10 AWG", length="1 ft")
    assert levels(d, ASKED) == {}


@pytest.mark.parametrize(("stands", "told"), [("125 V", True), ("132 V", False)])
def test_a_device_for_a_lower_voltage_burns(stands: str, told: bool) -> None:
    """IEC 60364-5-53 534 (from memory): 1.1 times 120 V are 132 V."""
    d = guarded(continuous_voltage=stands)
    assert levels(d, WRONG) == ({("FA1",): Level.DANGER} if told else {})
    for hit in found(d, WRONG):
        assert number(hit, "on it") == pytest.approx(132.0)


@pytest.mark.parametrize(("behind", "told"), [("1 kA", True), ("10 kA", False)])
def test_a_device_for_a_smaller_fault_current(behind: str, told: bool) -> None:
    d = guarded(short_circuit=behind)
    assert levels(d, WRONG) == ({("FA1",): Level.DANGER} if told else {})


def test_long_leads_are_a_note() -> None:
    assert levels(guarded("1.6 ft"), WRONG) == {}
    assert levels(guarded("1.7 ft"), WRONG) == {("FA1",): Level.NOTE}


def on_an_array(stands: str, **array: Answer) -> Draft:
    """The van's two modules of 22 V in series, and a device on their conductors."""
    d = van(**array)
    d.part("surge_device", "FA1", circuit="dc", continuous_voltage=stands)
    d.run("GP1.dc", "FA1.line", "W90", size="10 AWG", length="1 ft")
    return d


@pytest.mark.parametrize(("stands", "told"), [("49 V", True), ("50 V", False)])
def test_on_an_array_the_coldest_day_decides(stands: str, told: bool) -> None:
    """IEC 60364-7-712 (from memory): Ucpv from the greatest open voltage, 2 x 22 V x 1.135."""
    d = on_an_array(stands)
    assert levels(d, WRONG) == ({("FA1",): Level.DANGER} if told else {})
    for hit in found(d, WRONG):
        assert number(hit, "on it") == pytest.approx(49.9, abs=0.1)


def test_on_an_array_of_no_known_coldest_day_it_is_not_checked() -> None:
    d = on_an_array("50 V")
    d.rate("GP1", coldest=None)  # 47.3 V at 0 C, 52.6 V at -40 C
    assert levels(d, WRONG) == {}
    assert [gap.where for gap in gaps(d, WRONG)] == [("FA1", "GP1")]


def on_a_bank(stands: str, volts: str = "48 V", batteries: int = 1) -> Draft:
    """Batteries in a row behind a fuse, and a device across them."""
    d = Draft(place="field")
    wire = {"size": "10 AWG", "length": "1 ft"}
    for n in range(1, batteries + 1):
        d.part("battery", f"GB{n}", voltage=volts, capacity="100 Ah", fault_current="3 kA")
    for n in range(1, batteries):
        d.run(f"GB{n}.dc", f"GB{n + 1}.dc", f"S{n}", poles="->+", **wire)
    d.part("fuse", "F1", rating="20 A", type="class_t", interrupting="20 kA")
    d.part("surge_device", "FA1", circuit="dc", continuous_voltage=stands)
    d.run("GB1.dc", "F1.line", "A", poles="+", **wire)
    d.run("F1.load", "FA1.line", "B", poles="+", **wire)
    d.run(f"GB{batteries}.dc", "FA1.line", "C", poles="-", **wire)
    return d


@pytest.mark.parametrize(
    ("stands", "volts", "batteries", "lies"),
    [
        # 1.2 times the nominal voltage at the end of charging; the sum of a row
        ("56 V", "48 V", 1, 57.6),
        ("58 V", "48 V", 1, None),
        ("26 V", "12 V", 2, 28.8),
        ("30 V", "12 V", 2, None),
    ],
)
def test_a_bank_that_is_charged_lies_on_it(
    stands: str, volts: str, batteries: int, lies: float | None
) -> None:
    hits = found(on_a_bank(stands, volts, batteries), WRONG)
    assert [number(hit, "on it") for hit in hits] == ([] if lies is None else [pytest.approx(lies)])


@pytest.mark.parametrize(("prospective", "told"), [("4 kA", False), ("10 kA", True)])
def test_one_without_a_mark_where_the_fault_current_is_large(prospective: str, told: bool) -> None:
    d = guarded("0.1 ft")
    d.rate("GS1", prospective=prospective)
    d.rate_run("W1", length="1 ft")
    assert [gap.where for gap in gaps(d, WRONG)] == ([("FA1",)] if told else [])
    d.rate("FA1", short_circuit="22 kA")
    assert gaps(d, WRONG) == []


def test_a_device_on_a_string_guards_all_of_its_arrays() -> None:
    d = one_by_one()
    d.design.apply(change_settings(d.design, place="building"))
    assert [hit.subjects for hit in found(d, ASKED)] == [("GP1",)]
    assert "GP2" in found(d, ASKED)[0].message
    d.part("surge_device", "FA1", circuit="dc", continuous_voltage="60 V")
    d.run("QB2.line", "FA1.line", "W90", size="10 AWG", length="1 ft")
    assert found(d, ASKED) == []
