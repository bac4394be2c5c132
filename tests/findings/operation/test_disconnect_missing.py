"""What cuts a battery or a generator off from what it feeds."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from linework.kinds import Answer
from tests.findings.banks import THICK, van
from tests.findings.told import cured, found, gaps, places

RULE = "disconnect-missing"


def bare(place: str = "building", **battery: Answer) -> Draft:
    """A fused bank of 12 V with a lamp and no switch."""
    draft = Draft(place=place)
    ratings: dict[str, Answer] = {"capacity": "200 Ah", "fault_current": "3 kA"}
    draft.part("battery", "GB1", **(ratings | battery))
    draft.part("fuse", "F1", rating="10 A", type="class_t", interrupting="20 kA")
    draft.run("GB1.dc", "F1.line", "W1", length="1 ft", **THICK)
    draft.part("lamp", "EL1", circuit="dc", voltage="12 V", power="40 W")
    draft.run("F1.load", "EL1.in", "W2", size="12 AWG", length="8 ft")
    return draft


@pytest.mark.parametrize(
    ("place", "capacity", "level"),
    # NFPA 70 706 begins at 1 kWh (from memory): 84 Ah at 12 V are 1008 Wh, 83 Ah 996 Wh.
    [
        ("building", "84 Ah", Level.WARNING),
        ("building", "83 Ah", Level.NOTE),
        ("field", "84 Ah", Level.WARNING),
        ("vehicle", "84 Ah", Level.NOTE),
        ("boat", "84 Ah", Level.NOTE),
    ],
)
def test_only_a_fuse_before_a_lamp(place: str, capacity: str, level: Level) -> None:
    (hit,) = found(bare(place, capacity=capacity), RULE)
    assert (hit.subjects, hit.level) == (("GB1",), level)


@pytest.mark.parametrize(
    ("battery", "level"),
    # ABYC E-11 (from memory): from 800 cranking amperes on, which about 100 Ah have
    [
        ({"capacity": "99 Ah"}, Level.NOTE),
        ({"capacity": "100 Ah"}, Level.WARNING),
        ({"capacity": "200 Ah", "cranking_amperes": "800 A"}, Level.NOTE),
        ({"capacity": "60 Ah", "cranking_amperes": "801 A"}, Level.WARNING),
    ],
)
def test_large_batteries_afloat_need_a_switch(battery: dict[str, Answer], level: Level) -> None:
    (hit,) = found(bare("boat", **battery), RULE)
    assert (hit.level, hit.clause) == (level, "ABYC E-11")
    (ashore,) = found(bare("vehicle", **battery), RULE)
    assert ashore.level is Level.NOTE


def test_so_does_one_that_starts_an_engine() -> None:
    draft = bare("boat", capacity="60 Ah")
    draft.part("motor", "MA1", power="1 kW", duty="starter", circuit="dc", voltage="12 V")
    draft.run("GB1.dc", "MA1.in", "W5", length="4 ft", **THICK)
    (hit,) = found(draft, RULE)
    assert hit.level is Level.WARNING


def test_a_high_bank_is_a_warning_anywhere() -> None:
    """NFPA 70 480.7: above 60 V direct current."""
    (hit,) = found(bare("vehicle", voltage="96 V"), RULE)
    assert (hit.level, hit.clause) == (Level.WARNING, "480.7")
    (low,) = found(bare("vehicle", voltage="48 V"), RULE)
    assert low.level is Level.NOTE


def test_a_switch_in_the_lead_is_enough() -> None:
    assert found(van("building"), RULE) == []


def test_one_load_past_the_switch_is_found() -> None:
    draft = van("building", strings="1")
    draft.rate("GB1", capacity="200 Ah")
    draft.part("fuse", "F9", rating="5 A", type="class_t")
    draft.part("lamp", "EL2", "alarm", circuit="dc", power="5 W")
    draft.run("GB1.dc", "F9.line", "W30", size="12 AWG", length="1 ft")
    draft.run("F9.load", "EL2.in", "W31", size="12 AWG", length="4 ft")
    (hit,) = found(draft, RULE)
    assert "EL2" in hit.message
    assert "EL1" not in hit.message


def test_a_capacity_that_is_not_given_decides() -> None:
    draft = bare(capacity="200 Ah")
    draft.rate("GB1", capacity=None)
    draft.rate("GB1", voltage="24 V")
    assert found(draft, RULE) == []
    (gap,) = gaps(draft, RULE)
    assert gap.where == ("GB1",)


def test_the_mend_puts_one_behind_the_fuse() -> None:
    draft = bare()
    (hit,) = found(draft, RULE)
    after = cured(draft, hit)
    assert not [f for f in after.findings if f.rule == RULE]
    (switch,) = (p for p in draft.design.parts if p.kind == "battery_disconnect")
    assert draft.design.runs_at(switch.id, "load")


def test_a_wired_set_without_a_breaker() -> None:
    """NFPA 70 445.18."""
    draft = Draft(place="building")
    draft.part("generator", "G1", power="5 kVA", neutral="bonded")
    draft.part("load", "EA1", power="600 W")
    draft.run("G1.out", "EA1.in", "W1", size="10 AWG", length="20 ft")
    (hit,) = found(draft, RULE)
    assert (hit.subjects, hit.level) == (("G1",), Level.WARNING)
    draft.rate("G1", breaker="30 A")
    assert places(draft, RULE) == set()


def test_a_set_corded_to_an_inlet_is_unplugged_there() -> None:
    """The connector of its cord is pulled off the pins; wired past the inlet it is not."""
    draft = Draft(place="building")
    draft.part("generator", "G1", power="5 kVA", neutral="bonded")
    draft.part("inlet", "XI1", configuration="L5-30")
    draft.part("load", "EA1", power="600 W")
    draft.run("G1.out", "XI1.outside", "WS1", size="10 AWG", length="20 ft")
    draft.run("XI1.inside", "EA1.in", "W1", size="10 AWG", length="20 ft")
    assert places(draft, RULE) == set()
    draft.cut("WS1")
    draft.run("G1.out", "EA1.in", "W2", size="10 AWG", length="20 ft")
    assert places(draft, RULE) == {("G1",)}


def test_what_is_plugged_in_is_unplugged() -> None:
    draft = Draft(place="field")
    draft.part("generator", "G1", power="3 kVA", neutral="bonded")
    draft.part("outlet", "XD1", configuration="5-20")
    draft.seat("XD1", "G1", "1")
    draft.part("plug_load", "EP1", power="600 W")
    draft.seat("EP1", "XD1", "face")
    assert found(draft, RULE) == []


def test_a_string_of_batteries_counts_as_a_whole() -> None:
    # 50 Ah at 12 V are 600 Wh, in a string of two 1200 Wh
    draft = Draft(place="building")
    for n in "12":
        draft.part("battery", f"GB{n}", capacity="50 Ah", fault_current="900 A")
    draft.run("GB1.dc", "GB2.dc", poles="->+", length="1 ft", **THICK)
    draft.part("fuse", "F1", rating="10 A", type="class_t", interrupting="20 kA")
    draft.run("GB1.dc", "F1.line", "plus", poles="+", length="1 ft", **THICK)
    draft.part("lamp", "EL1", circuit="dc", voltage="24 V", power="40 W")
    draft.run("F1.load", "EL1.in", "plus 2", poles="+", size="12 AWG", length="8 ft")
    draft.run("GB2.dc", "EL1.in", "minus", poles="-", size="12 AWG", length="8 ft")
    (hit,) = found(draft, RULE)
    assert (hit.subjects, hit.level) == (("GB1",), Level.WARNING)


def test_a_load_between_both_legs_of_a_set() -> None:
    draft = Draft(place="building")
    draft.part("generator", "G1", circuit="split", power="9 kVA", neutral="bonded")
    draft.part("heater", "EH1", circuit="ac240", power="2 kW")
    draft.run("G1.out", "EH1.in", size="8 AWG", length="20 ft")
    assert places(draft, RULE) == {("G1",)}


def test_a_return_through_the_chassis_counts() -> None:
    draft = bare("vehicle")
    draft.run_poles("W2", "+")
    draft.part("body", "XB1", name="chassis")
    draft.run("GB1.dc", "XB1.tie", "W8", poles="->body", size="6 AWG", length="1 ft")
    draft.run("EL1.in", "XB1.tie", "W9", poles="->body", size="12 AWG", length="1 ft")
    assert places(draft, RULE) == {("GB1",)}


def with_switch(poles: str, place: str = "boat") -> Draft:
    """The bank with a switch through which plus and minus pass."""
    draft = bare(place)
    draft.cut("W2")
    draft.part("battery_disconnect", "QB1", voltage="48 V", poles=poles)
    draft.run("F1.load", "QB1.line", "W2", length="1 ft", **THICK)
    draft.run("QB1.load", "EL1.in", "W3", size="12 AWG", length="8 ft")
    return draft


def test_a_switch_in_the_minus_alone_is_told() -> None:
    """ABYC E-11 asks for it in the plus, NFPA 70 480.7 in all ungrounded conductors (memory)."""
    for place in ("boat", "vehicle", "building"):
        (hit,) = found(with_switch("minus", place), RULE)
        assert (hit.subjects, hit.level) == (("GB1",), Level.WARNING)
        assert "Only the minus of GB1" in hit.message
    for poles in ("plus", "both"):
        assert found(with_switch(poles), RULE) == []


def test_a_switched_minus_of_one_load_beside_a_switch_for_all_is_silent() -> None:
    draft = with_switch("plus")
    draft.cut("W3")
    draft.part("isolator", "QB2", circuit="dc", rating="10 A", voltage="48 V", direct="yes")
    draft.run("QB1.load", "EL1.in", "W4", poles="+", size="12 AWG", length="8 ft")
    draft.run("QB1.load", "QB2.line", "W5", poles="-", size="12 AWG", length="8 ft")
    draft.run("QB2.load", "EL1.in", "W6", poles="-", size="12 AWG", length="8 ft")
    assert found(draft, RULE) == []


@pytest.mark.parametrize(
    ("place", "capacity", "level"),
    [
        # two at 12 V beside each other: 42 Ah each are 1008 Wh, 41 Ah 984 Wh
        ("building", "42 Ah", Level.WARNING),
        ("building", "41 Ah", Level.NOTE),
        ("boat", "50 Ah", Level.WARNING),
        ("boat", "49 Ah", Level.NOTE),
    ],
)
def test_batteries_beside_each_other_count_as_one(place: str, capacity: str, level: Level) -> None:
    draft = bare(place, capacity=capacity)
    draft.part("battery", "GB2", capacity=capacity, fault_current="3 kA")
    draft.run("GB2.dc", "GB1.dc", "W5", length="0.5 ft", **THICK)
    assert {hit.subjects: hit.level for hit in found(draft, RULE)} == {
        ("GB1",): level,
        ("GB2",): level,
    }


def test_one_of_unknown_capacity_beside_a_large_one_changes_nothing() -> None:
    draft = bare(capacity="200 Ah")
    draft.part("battery", "GB2", fault_current="3 kA")
    draft.run("GB2.dc", "GB1.dc", "W5", length="0.5 ft", **THICK)
    assert {hit.level for hit in found(draft, RULE)} == {Level.WARNING}
    assert gaps(draft, RULE) == []
    draft.rate("GB1", capacity="50 Ah")
    assert found(draft, RULE) == []
    assert {gap.where for gap in gaps(draft, RULE)} == {("GB1",), ("GB2",)}


def test_a_fuse_on_another_way_cuts_nothing_off() -> None:
    draft = bare("boat", capacity="60 Ah")
    (hit,) = found(draft, RULE)
    assert "Nothing but its fuse" in hit.message
    draft.part("motor", "MA1", power="1 kW", duty="starter", circuit="dc", voltage="12 V")
    draft.run("GB1.dc", "MA1.in", "W5", length="4 ft", **THICK)
    (hit,) = found(draft, RULE)
    assert hit.message == "Nothing cuts GB1 off from MA1: no fuse, switch, breaker or plug."


@pytest.mark.parametrize(
    ("place", "critical", "level"),
    [
        ("boat", "yes", Level.NOTE),
        ("boat", "no", Level.WARNING),
        ("building", "yes", Level.WARNING),
    ],
)
def test_a_bilge_pump_afloat_may_lie_before_the_switch(
    place: str, critical: str, level: Level
) -> None:
    """ABYC E-11, from memory: behind a fuse of its own."""
    draft = bare(place)
    draft.rate("EL1", critical=critical)
    assert found(draft, RULE)[0].level is level
    draft.remove("F1")
    draft.run("GB1.dc", "EL1.in", "W1", size="12 AWG", length="8 ft")
    assert found(draft, RULE)[0].level is Level.WARNING
