"""Devices against the voltage and the kind of current that they lie on (NFPA 70 240.60, 240.83)."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from linework.kinds import Answer
from tests.findings.banks import THICK, van
from tests.findings.camps import camp
from tests.findings.told import cured, found, gaps, number, places

RULE = "device-wrong-voltage"


def bank(kind: str, volts: str = "48 V", **ratings: Answer) -> Draft:
    """One device between a bank and a load made for it."""
    draft = Draft(place="building")
    draft.part("battery", "GB1", voltage=volts, capacity="50 Ah", fault_current="900 A")
    draft.part(kind, "F1", **ratings)
    draft.run("GB1.dc", "F1.line", "W1", length="1 ft", **THICK)
    draft.part("load", "EA1", circuit="dc", voltage=volts, power="100 W")
    draft.run("F1.load", "EA1.in", "W2", size="12 AWG", length="4 ft")
    return draft


@pytest.mark.parametrize(
    ("style", "volts", "told"),
    [
        # Blade fuses are made for 32 V (ISO 8820-3), terminal fuses for up to 58 V, class T for
        # 125 V direct current and more.
        ("ato", "24 V", False),
        ("ato", "48 V", True),
        ("mrbf", "48 V", False),
        ("class_t", "48 V", False),
        ("class_t", "144 V", True),
    ],
)
def test_a_fuse_without_a_marking_counts_as_the_highest_of_its_type(
    style: str, volts: str, told: bool
) -> None:
    draft = bank("fuse", volts, rating="10 A", type=style)
    assert places(draft, RULE) == ({("F1",)} if told else set())


def test_what_is_marked_counts() -> None:
    assert found(bank("fuse", rating="10 A", type="class_t", voltage="58 V"), RULE) == []
    (hit,) = found(bank("fuse", rating="10 A", type="class_t", voltage="32 V"), RULE)
    assert hit.level is Level.DANGER
    assert "made for 32 V; the batteries on it reach 57.6 V" in hit.message


def test_a_mark_of_the_nominal_voltage_does_not_cover_charging() -> None:
    # 16 cells of lithium iron phosphate at 3.6 V, 24 of lead at 2.4 V: 57.6 V on 48 V
    (hit,) = found(bank("fuse", rating="10 A", type="class_t", voltage="48 V"), RULE)
    assert (hit.level, number(hit, "on it")) == (Level.WARNING, pytest.approx(57.6))
    draft = bank("fuse", rating="10 A", type="class_t", voltage="48 V")
    draft.rate("GB1", charged_voltage="48 V")
    assert found(draft, RULE) == []


def test_the_mend_is_a_fuse_of_class_t() -> None:
    draft = bank("fuse", rating="10 A", type="ato", interrupting="1 kA")
    (hit,) = found(draft, RULE)
    cured(draft, hit)
    assert draft.design.part("F1").ratings["type"] == "class_t"


@pytest.mark.parametrize("kind", ["breaker", "isolator"])
def test_a_device_for_alternating_current_only(kind: str) -> None:
    ratings: dict[str, Answer] = {"circuit": "dc", "rating": "15 A", "voltage": "60 V"}
    (hit,) = found(bank(kind, **ratings, direct="no"), RULE)
    assert "alternating current only" in hit.message
    assert found(bank(kind, **ratings, direct="yes"), RULE) == []
    draft = bank(kind, **ratings)
    assert found(draft, RULE) == []
    assert [gap.where for gap in gaps(draft, RULE)] == [("F1",)]


def test_a_breaker_of_unknown_voltage_on_a_high_bank_is_asked_for_it() -> None:
    draft = bank("breaker", circuit="dc", rating="15 A", direct="yes")
    (gap,) = gaps(draft, RULE)
    assert "48 V lie on it" in gap.reason
    assert gaps(bank("breaker", "12 V", circuit="dc", rating="15 A", direct="yes"), RULE) == []


def test_alternating_current() -> None:
    draft = camp()
    assert found(draft, RULE) == []
    draft.rate("QF1", voltage="60 V")
    assert places(draft, RULE) == {("QF1",)}


def test_a_device_on_two_legs_counts_from_hot_to_hot() -> None:
    draft = Draft(place="building")
    draft.part("supply", "GS1", circuit="split", outage="no")
    draft.part("breaker", "QF1", circuit="split", rating="20 A", voltage="240 V")
    draft.part("load", "EA1", circuit="ac240", power="2 kW")
    draft.run("GS1.out", "QF1.line", "W1", size="10 AWG", length="10 ft")
    draft.run("QF1.load", "EA1.in", "W2", poles="L1 L2 PE", size="10 AWG", length="10 ft")
    assert found(draft, RULE) == []
    draft.rate("QF1", voltage="120 V")
    assert places(draft, RULE) == {("QF1",)}


def test_a_mark_of_14_v_is_for_a_bank_of_12_v() -> None:
    """A terminal fuse is marked 14 V and protects a bank of 12 V, charged at 14.4 V."""
    draft = van()
    draft.rate("F2", type="mrbf", voltage="14 V", interrupting="10 kA")
    assert found(draft, RULE) == []


@pytest.mark.parametrize("at", ["top", "middle"])
@pytest.mark.parametrize(("volts", "told"), [("32 V", True), ("58 V", False)])
def test_a_device_in_a_string_of_batteries_breaks_all_of_it(
    at: str, volts: str, told: bool
) -> None:
    draft = Draft(place="building")
    for n in range(1, 5):
        draft.part("battery", f"GB{n}", capacity="50 Ah", fault_current="900 A")
    draft.part("fuse", "F1", rating="10 A", type="class_t", voltage=volts)
    draft.part("load", "EA1", circuit="dc", voltage="48 V", power="100 W")
    for n in range(1, 4):
        if (at, n) != ("middle", 2):
            draft.run(f"GB{n}.dc", f"GB{n + 1}.dc", poles="->+", length="1 ft", **THICK)
    if at == "middle":
        draft.run("GB2.dc", "F1.line", poles="->+", length="1 ft", **THICK)
        draft.run("F1.load", "GB3.dc", poles="+", length="1 ft", **THICK)
        draft.run("GB1.dc", "EA1.in", poles="+", size="12 AWG", length="4 ft")
    else:
        draft.run("GB1.dc", "F1.line", poles="+", length="1 ft", **THICK)
        draft.run("F1.load", "EA1.in", poles="+", size="12 AWG", length="4 ft")
    draft.run("GB4.dc", "EA1.in", poles="-", size="12 AWG", length="4 ft")
    assert places(draft, RULE) == ({("F1",)} if told else set())


def test_an_adapter_without_a_breaker_is_no_device() -> None:
    d = Draft(place="recreational")
    d.part("supply", "GS1", circuit="split", breaker="50 A", prospective="4 kA")
    split = {"circuit": "split"}
    d.part("outlet", "XD1", configuration="14-50", **split)
    d.seat("XD1", "GS1", "1")
    d.part("adapter", "XA1", configuration="14-50", connector="L14-30", **split)
    d.seat("XA1", "XD1", "face")
    assert gaps(d, RULE) == []
    d.rate("XA1", breaker="30 A")
    assert [gap.where for gap in gaps(d, RULE)] == [("XA1",)]


def test_a_switch_for_alternating_current_in_the_circuit_of_an_array() -> None:
    draft = van()
    assert found(draft, RULE) == []
    draft.rate("QB2", direct="no")
    (hit,) = found(draft, RULE)
    assert hit.message == "QB2 is made for alternating current only and lies on direct current."
    draft.rate("QB2", direct=None)
    assert [gap.where for gap in gaps(draft, RULE)] == [("QB2",)]


def test_a_fuse_of_unknown_type_on_a_high_bank_is_asked_for_its_voltage() -> None:
    draft = bank("fuse", rating="10 A")
    assert not found(draft, RULE)
    assert [gap.where for gap in gaps(draft, RULE)] == [("F1",)]
    assert not gaps(bank("fuse", "24 V", rating="10 A"), RULE)


def test_an_array_that_is_turned_round_makes_no_string_with_the_battery() -> None:
    draft = van()
    draft.rate("QB1", voltage="32 V")
    draft.run_poles("W1", "+>- ->+")
    assert places(draft, "device-wrong-voltage") == set()
