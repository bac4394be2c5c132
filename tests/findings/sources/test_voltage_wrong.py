"""A load or outlet on a voltage it is not made for."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.banks import van, with_inverter
from tests.findings.camps import levels
from tests.findings.told import found, number, places

RULE = "voltage-wrong"


def on(supply: str, load: str) -> Draft:
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="20 A", voltage=supply, prospective="10 kA", outage="no")
    draft.part("load", "EA1", power="60 W", voltage=load)
    draft.run("GS1.out", "EA1.in", "W1", size="12 AWG", length="3 ft")
    return draft


@pytest.mark.parametrize(
    ("supply", "load", "wrong"),
    [
        ("120 V", "120 V", False),
        ("127 V", "120 V", False),  # range B of ANSI C84.1 ends at 127 V
        ("128 V", "120 V", True),
        ("240 V", "120 V", True),
        ("120 V", "160 V", False),  # three quarters: a cable could still be the reason (practice)
        ("120 V", "161 V", True),
        ("120 V", "240 V", True),
    ],
)
def test_the_band_of_a_load(supply: str, load: str, wrong: bool) -> None:
    assert levels(on(supply, load), RULE) == ({("EA1",): Level.DANGER} if wrong else {})


def test_the_voltage_is_told() -> None:
    assert number(found(on("240 V", "120 V"), RULE)[0], "voltage at it") == pytest.approx(
        240.0, rel=0.01
    )


def legs(poles: str, configuration: str = "TT-30") -> Draft:
    """An outlet on a split supply, its blades on the conductors given."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", circuit="split", breaker="30 A", outage="no")
    draft.part("outlet", "XD1", configuration=configuration)
    draft.run("GS1.out", "XD1.feed", "W1", poles=poles, size="10 AWG", length="60 ft")
    return draft


def test_a_second_hot_on_the_neutral_blade_is_a_danger() -> None:
    hits = found(legs("L1>L L2>N PE"), RULE)
    assert [(hit.subjects, hit.level) for hit in hits] == [(("XD1",), Level.DANGER)]
    assert number(hits[0], "voltage between its contacts") == 240.0


def test_hot_and_neutral_are_silent() -> None:
    assert found(legs("L1>L N PE"), RULE) == []


def test_both_blades_on_one_hot_are_no_voltage_at_all() -> None:
    assert found(legs("L1>L L1>N PE"), RULE) == []


def test_direct_current_on_a_load_for_alternating_is_another_kind_of_current() -> None:
    draft = Draft(place="field", voltage="12 V")
    draft.part("battery", "GB1", voltage="12 V", fault_current="2 kA")
    draft.part("fuse", "F1", rating="10 A", type="class_t")
    draft.part("lamp", "EL1", circuit="dc", voltage="24 V", power="20 W")
    draft.run("GB1.dc", "F1.line", "W1", size="12 AWG", length="0.5 ft")
    draft.run("F1.load", "EL1.in", "W2", size="12 AWG", length="6 ft")
    hits = found(draft, RULE)
    assert [hit.subjects for hit in hits] == [("EL1",)]
    assert "whatever the cable" in hits[0].message


def test_a_long_thin_cable_is_not_this_rules_question() -> None:
    draft = on("120 V", "120 V")
    draft.rate("EA1", power="1800 W")
    draft.rate_run("W1", size="14 AWG", length="600 ft")
    assert found(draft, RULE) == []
    assert found(draft, "voltage-drop-high")


def on_two_legs(first: str, second: str, **cord: str) -> Draft:
    """A board on two legs with a load on each, behind one cable."""
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", breaker="50 A", prospective="4 kA", outage="no")
    d.part("panel", "QP1", circuit="split", bond="absent")
    d.run("GS1.out", "QP1.feed", "W1", size="6 AWG", length="30 ft", **cord)
    for n, (place, watts) in enumerate((("1", first), ("3", second)), 1):
        d.part("breaker", f"QF{n}", rating="20 A")
        d.seat(f"QF{n}", "QP1", place)
        d.part("load", f"EA{n}", power=watts)
        d.run(f"QF{n}.load", f"EA{n}.in", size="12 AWG", length="10 ft")
    return d


def test_a_lost_neutral_puts_loads_in_series() -> None:
    """144 and 72 ohm on 240 V: 160 and 80 V (training slides, studylib.net/doc/5726865)."""
    draft = on_two_legs("100 W", "200 W", broken="N")
    told = {f.subjects: number(f, "voltage at it") for f in found(draft, RULE)}
    assert told == {("EA1",): pytest.approx(160.0, abs=0.5), ("EA2",): pytest.approx(80, abs=0.5)}
    assert found(draft, "load-never-fed") == []
    (cause,) = found(draft, "neutral-missing")
    assert {c.subjects for c in cause.consequences if c.rule == RULE} == {("EA1",), ("EA2",)}


def test_equal_loads_in_series_get_what_they_are_made_for() -> None:
    draft = on_two_legs("200 W", "200 W", broken="N")
    assert found(draft, RULE) == []
    assert found(draft, "load-never-fed") == []
    assert found(draft, "neutral-missing")


def test_with_their_neutral_both_are_right() -> None:
    assert found(on_two_legs("100 W", "200 W"), RULE) == []


@pytest.mark.parametrize(
    ("made", "told"), [("12 V", False), ("24 V", True), ("48 V", True), ("6 V", True)]
)
def test_an_inverter_on_a_bank_of_another_voltage(made: str, told: bool) -> None:
    draft = with_inverter(van(), dc_voltage=made)
    assert places(draft, RULE) == ({("TB1",)} if told else set())


def test_a_controller_for_another_bank() -> None:
    draft = van()
    draft.rate("TC1", dc_voltage="24 V")
    (hit,) = found(draft, RULE)
    assert hit.level is Level.DANGER
    assert hit.message == "TC1 charges batteries of 24 V and lies on GB1 of 12 V."


def two_in_series() -> Draft:
    """Two batteries of 12 V in series, joined to a bar at each end."""
    draft = Draft(place="building")
    for name in ("GB1", "GB2"):
        draft.part("battery", name, capacity="100 Ah", fault_current="2 kA")
    draft.run("GB1.dc", "GB2.dc", "link", poles="->+", size="2 AWG", length="1 ft")
    draft.part("inverter", "TB1", power="600 VA", dc_voltage="24 V", neutral="bonded")
    draft.run("GB1.dc", "TB1.dc", "plus", poles="+", size="2 AWG", length="2 ft")
    draft.run("GB2.dc", "TB1.dc", "minus", poles="-", size="2 AWG", length="2 ft")
    return draft


def test_a_string_counts_with_its_whole_voltage() -> None:
    draft = two_in_series()
    assert places(draft, RULE) == set()
    draft.rate("TB1", dc_voltage="12 V")
    assert places(draft, RULE) == {("TB1",)}


def test_a_charger_for_one_battery_of_a_string() -> None:
    draft = two_in_series()
    draft.part("supply", "GS1", breaker="15 A", outage="no")
    draft.part("charger", "TB2", current="10 A", dc_voltage="12 V")
    draft.run("GS1.out", "TB2.ac_in", "ac", size="14 AWG", length="4 ft")
    draft.run("TB2.dc", "GB2.dc", "charge", size="10 AWG", length="1 ft")
    assert places(draft, RULE) == set()
    draft.rate("TB2", dc_voltage="24 V")
    assert places(draft, RULE) == {("TB2",)}


def test_a_charger_on_the_wrong_supply() -> None:
    draft = Draft(place="building")
    draft.part("supply", "GS1", circuit="ac240", voltage="240 V", outage="no")
    draft.part("charger", "TB1", current="10 A")
    draft.part("battery", "GB1", capacity="100 Ah")
    draft.run("GS1.out", "TB1.ac_in", "W1", poles="L1>L L2>N PE", size="12 AWG", length="4 ft")
    draft.run("TB1.dc", "GB1.dc", "W2", size="8 AWG", length="1 ft")
    assert ("TB1",) in places(draft, RULE)


@pytest.mark.parametrize(("batteries", "told"), [(3, True), (4, False), (6, True)])
def test_an_inverter_on_a_string_of_too_few_or_too_many_batteries(
    batteries: int, told: bool
) -> None:
    draft = Draft(place="building")
    for n in range(1, batteries + 1):
        draft.part("battery", f"GB{n}")
        if n > 1:
            draft.run(f"GB{n - 1}.dc", f"GB{n}.dc", poles="->+", size="2/0 AWG", length="1 ft")
    draft.part("inverter", "TB1", power="2 kVA", dc_voltage="48 V", neutral="bonded")
    draft.run("GB1.dc", "TB1.dc", poles="+", size="2/0 AWG", length="2 ft")
    draft.run(f"GB{batteries}.dc", "TB1.dc", poles="-", size="2/0 AWG", length="2 ft")
    assert ([f.subjects for f in found(draft, RULE)] == [("TB1",)]) == told


def test_an_input_for_two_legs_between_two_hots_of_one_phase_is_dead_not_on_a_wrong_voltage() -> (
    None
):
    draft = Draft(place="building")
    draft.part("generator", "G1", circuit="split", power="7 kVA", neutral="bonded",
               switch_120="in_phase")  # fmt: skip
    draft.part("inverter_charger", "TB1", circuit="split", power="4 kVA", neutral="relay")
    draft.run("G1.out", "TB1.ac_in", size="8 AWG", length="10 ft")
    assert not found(draft, RULE)


def test_a_battery_on_which_most_loads_are_wrong_is_the_wrong_one() -> None:
    draft = van()
    draft.part("lamp", "EL2", circuit="dc", voltage="12 V", power="10 W")
    draft.run("F3.load", "EL2.in", "W30", size="12 AWG", length="8 ft")
    draft.rate("GB1", voltage="24 V")
    tops = [f for f in analyse(draft.design).findings if f.rule == RULE]
    assert [f.subjects for f in tops] == [("GB1",)]
    assert tops[0].message == "GB1 gives 24 V; EL1, EL2 are made for another voltage."
    assert {f.subjects for f in tops[0].consequences if f.rule == RULE} >= {("EL1",), ("EL2",)}


def test_one_wrong_load_of_two_is_told_of_itself() -> None:
    draft = van()
    draft.part("lamp", "EL2", circuit="dc", voltage="6 V", power="10 W")
    draft.run("F3.load", "EL2.in", "W30", size="12 AWG", length="8 ft")
    assert places(draft, RULE) == {("EL2",)}
