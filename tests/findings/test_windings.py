"""Boats and sheds on transformers: the sound one is silent, one mistake is found, and where."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from linework.study.memory import Memory
from tests.findings.test_enumeration import assert_as_enumerated
from tests.findings.told import cured, flat, found, number


def told(draft: Draft) -> set[tuple[str, tuple[str, ...]]]:
    """Warnings and dangers, with their places."""
    findings = flat(analyse(draft.design).findings)
    return {(f.rule, f.where) for f in findings if f.level >= Level.WARNING}


def boat(shore: str = "30 A", **ratings: str) -> Draft:
    """Shore by a cord, a breaker, an isolation transformer, the boat's board and its ground."""
    d = Draft(place="boat")
    d.part("supply", "GS1", breaker="30 A", prospective="2 kA")
    d.part("outlet", "XD9", configuration="L5-30")
    d.seat("XD9", "GS1", "1")
    d.part("plug", "XP1", configuration="L5-30")
    d.seat("XP1", "XD9", "face")
    d.part("inlet", "XI1", configuration="L5-30")
    d.run("XP1.cord", "XI1.outside", "c", length="25 ft", size="10 AWG", installation="cord")
    d.part("breaker", "QF1", rating=shore, poles="all")
    d.run("XI1.inside", "QF1.line", "s", size="10 AWG", length="8 ft")
    own = {"power": "3.6 kVA", "neutral": "bonded", "ground": "shield"}
    d.part("transformer", "TA1", **(own | ratings))
    d.run("QF1.load", "TA1.primary", "p", size="10 AWG", length="4 ft")
    d.part("panel", "QP1", main="30 A", bond="absent")
    d.run("TA1.secondary", "QP1.feed", "o", size="10 AWG", length="6 ft")
    d.part("body", "XB1", name="hull")
    d.run("QP1.ground", "XB1.tie", "h", size="8 AWG", length="4 ft", installation="jumper")
    d.part("electrode", "XE1", resistance="5 ohm")
    d.run("QP1.ground", "XE1.ground", "w", size="8 AWG", length="4 ft", installation="jumper")
    d.part("breaker", "QF2", rating="15 A")
    d.seat("QF2", "QP1", "1")
    d.part("load", "EA1", power="1200 W")
    d.run("QF2.load", "EA1.in", "m", size="14 AWG", length="20 ft")
    return d


def test_a_boat_on_an_isolation_transformer_is_sound() -> None:
    assert told(boat()) == set()


def test_a_secondary_that_floats_has_no_link() -> None:
    assert ("bond-missing", ("TA1",)) in told(boat(neutral="floating"))


def test_a_shield_without_the_wire_ashore_takes_the_voltage_of_shore() -> None:
    draft = boat()
    draft.rate_run("p", broken="PE")
    assert ("fault-not-cleared", ("TA1",)) in told(draft)
    (finding,) = found(draft, "ground-open")
    assert finding.subjects == ("p",)
    assert cured(draft, finding).silent


def test_a_load_whose_ground_goes_ashore_instead_of_to_the_secondary() -> None:
    draft = boat()
    draft.rate_run("o", broken="PE")
    assert {rule for rule, _ in told(draft)} & {"ground-open", "fault-not-cleared"}
    draft = boat()
    draft.rate_run("m", broken="PE")
    assert ("ground-open", ("m",)) in told(draft)


def test_a_hull_that_is_not_joined_to_the_secondary() -> None:
    draft = boat()
    draft.rate_run("h", broken="PE")
    assert ("chassis-unbonded", ("XB1",)) in told(draft)


@pytest.mark.parametrize(("terminal", "poles"), [("ground", "PE>PE"), ("feed", "N>N")])
def test_a_wire_past_the_transformer_that_joins_shore_and_boat(terminal: str, poles: str) -> None:
    draft = boat()
    draft.run("XI1.inside", f"QP1.{terminal}", "x", poles=poles, size="10 AWG", length="6 ft")
    (finding,) = found(draft, "isolator-bypassed")
    assert {"TA1", "x"} <= set(finding.subjects)
    assert "m" not in finding.subjects


def test_one_whose_case_is_meant_to_be_joined_keeps_nothing_apart() -> None:
    assert found(boat(ground="case"), "isolator-bypassed") == []


def test_a_dead_transformer_leaves_the_hull_in_peace() -> None:
    draft = boat()
    draft.rate_run("p", broken="N")
    assert "chassis-unbonded" not in {rule for rule, _ in told(draft)}


@pytest.mark.parametrize(
    ("power", "device", "wrong"),
    [
        ("3.6 kVA", "30 A", False),
        # 25 A rated: 31.25 A, the next standard rating is 35 A
        ("3 kVA", "35 A", False),
        ("3 kVA", "40 A", True),
        # 8.3 A: 167 %, 13.9 A, not rounded up
        ("1 kVA", "15 A", True),
    ],
)
def test_the_device_before_a_transformer(power: str, device: str, wrong: bool) -> None:
    draft = shed(device, power)
    assert bool(found(draft, "transformer-unprotected")) is wrong


def stepped_up(kind: str, **ratings: str) -> Draft:
    """1.5 kVA from 120 to 240 V behind 30 A, its secondary behind a breaker of its own."""
    d = Draft(place="building")
    d.part("supply", "GS1", breaker="30 A", prospective="2 kA", outage="no")
    d.part(kind, "TA1", power="1.5 kVA", **ratings)
    d.run("GS1.out", "TA1.primary", "p", size="10 AWG", length="20 ft")
    d.part("breaker", "QF1", circuit="ac240", rating="10 A", interrupting="10 kA")
    d.run("TA1.secondary", "QF1.line", "s", size="10 AWG", length="2 ft")
    d.part("load", "EA1", circuit="ac240", voltage="240 V", power="1 kW")
    d.run("QF1.load", "EA1.in", "m", size="14 AWG", length="20 ft")
    return d


def test_no_device_behind_an_autotransformer_allows_a_larger_one_before_it() -> None:
    """NFPA 70 450.4(A) has 125 % alone: 12.5 A, 20 A; 450.3(B) 250 % with a device behind."""
    apart = stepped_up("transformer", secondary="ac240", neutral="floating")
    assert found(apart, "transformer-unprotected") == []
    (finding,) = found(stepped_up("autotransformer", form="up"), "transformer-unprotected")
    assert (number(finding, "device"), number(finding, "largest allowed")) == (30.0, 20.0)


def shed(device: str, power: str, behind: str = "") -> Draft:
    """A shed with a transformer of one to one behind a breaker of the house's board."""
    d = Draft(place="building")
    d.part("supply", "GS1", breaker="60 A", prospective="3 kA")
    d.part("panel", "QP1", main="60 A", bond="absent")
    d.run("GS1.out", "QP1.feed", "u", size="4 AWG", length="20 ft")
    d.part("breaker", "QF1", rating=device)
    d.seat("QF1", "QP1", "1")
    d.part(
        "transformer",
        "TA1",
        power=power,
        neutral="bonded",
        **({"breaker": behind} if behind else {}),
    )
    d.run("QF1.load", "TA1.primary", "p", size="6 AWG", length="30 ft")
    d.part("load", "EA1", power="400 W")
    d.run("TA1.secondary", "EA1.in", "m", size="6 AWG", length="30 ft")
    return d


def test_a_device_on_the_secondary_allows_a_larger_one_before() -> None:
    # 1 kVA, 8.3 A: with 167 % behind, 250 % before
    assert found(shed("20 A", "1 kVA", "10 A"), "transformer-unprotected") == []
    (finding,) = found(shed("25 A", "1 kVA", "10 A"), "transformer-unprotected")
    assert number(finding, "largest allowed") == pytest.approx(20.83, abs=0.01)


def test_the_standard_rating_is_offered() -> None:
    (finding,) = found(shed("40 A", "3 kVA"), "transformer-unprotected")
    assert cured(shed("40 A", "3 kVA"), finding).silent


def stepped(power: str = "3 kVA", guard: str = "", **ratings: str) -> Draft:
    """A well pump's supply of 240 V, stepped down to 120 V for a hut, with a breaker behind."""
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="ac240", voltage="240 V", breaker="15 A", prospective="2 kA")
    secondary = {"circuit": "ac240", "power": power, "neutral": "bonded"} | ratings
    if guard:
        secondary["breaker"] = guard
    d.part("transformer", "TA1", **secondary)
    d.run("GS1.out", "TA1.primary", "p", poles="L1 L2 PE", size="12 AWG", length="10 ft")
    d.part("load", "EA1", power="1 kW")
    d.run("TA1.secondary", "EA1.in", "m", size="10 AWG", length="20 ft")
    return d


def test_two_wires_behind_are_protected_by_the_device_before_over_the_turns() -> None:
    # NFPA 70 240.4(F): 15 A before 240:120 are 30 A behind
    assert told(stepped()) == set()
    draft = stepped()
    draft.rate_run("m", size="12 AWG")
    (finding,) = found(draft, "device-above-ampacity")
    assert (finding.subjects[0], number(finding, "device")) == ("m", 30.0)


def three_wires(length: str = "8 ft", size: str = "6 AWG", main: str = "50 A") -> Draft:
    """A hut on 240 V without a neutral, a transformer to 120/240 V, its board."""
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="ac240", voltage="240 V", breaker="60 A", prospective="3 kA")
    d.part(
        "transformer", "TA1", circuit="ac240", secondary="split", power="10 kVA", neutral="bonded"
    )
    d.run("GS1.out", "TA1.primary", "p", size="6 AWG", length="20 ft", terminals="75")
    d.part("panel", "QP1", circuit="split", main=main, bond="absent")
    d.run("TA1.secondary", "QP1.feed", "s", size=size, length=length, terminals="75")
    d.part("electrode", "XE1", resistance="10 ohm")
    d.run("QP1.ground", "XE1.ground", "e", size="6 AWG", length="6 ft", installation="jumper")
    for n, (place, watts) in enumerate((("1", "1400 W"), ("3", "900 W")), 1):
        d.part("breaker", f"QF{n}", rating="20 A", interrupting="10 kA")
        d.seat(f"QF{n}", "QP1", place)
        d.part("load", f"EA{n}", power=watts)
        d.run(f"QF{n}.load", f"EA{n}.in", f"m{n}", size="12 AWG", length="40 ft")
    return d


def test_three_wires_behind_may_be_short_and_end_in_one_device() -> None:
    # NFPA 70 240.21(C)(2): 10 ft, of the ampacity of the device at their end; (6): 25 ft, and of a
    # third of what the device before lets through
    assert told(three_wires()) == set()
    assert told(three_wires("24 ft")) == set()
    (finding,) = found(three_wires("26 ft"), "run-unprotected")
    assert finding.subjects == ("s",)
    assert cured(three_wires("26 ft"), finding).silent
    assert found(three_wires(main="70 A"), "run-unprotected") != []
    assert found(three_wires(size="10 AWG"), "run-unprotected") != []


def test_their_link_may_be_at_the_transformer_or_at_the_board_and_not_at_both() -> None:
    # NFPA 70 250.30(A)(1)
    draft = three_wires()
    draft.rate("QP1", bond="fitted")
    assert "bond-doubled" in {rule for rule, _ in told(draft)}
    draft.rate("TA1", neutral="floating")
    assert told(draft) == set()
    draft.rate("QP1", bond="absent")
    assert ("bond-missing", ("TA1",)) in told(draft)


def test_a_winding_on_the_wrong_voltage_is_told_and_not_its_loads() -> None:
    draft = stepped(guard="30 A", circuit="ac240", voltage="480 V")
    (finding,) = found(draft, "voltage-wrong")
    assert finding.subjects == ("TA1",)
    assert number(finding, "voltage at it") == pytest.approx(240.0, rel=0.01)
    high = found(stepped(guard="30 A", voltage="120 V"), "voltage-wrong")
    assert [f.subjects for f in high] == [("TA1",)]


def test_what_the_wires_before_a_transformer_lose_counts_for_the_loads_behind_it() -> None:
    # 1900 W at 120 V: 15.8 A; 12 AWG at 75 C has 2.0 ohm per 1000 ft each way (NFPA 70 chapter 9
    # table 8), 300 ft lose 19 V
    d = Draft(place="building")
    d.part("supply", "GS1", breaker="20 A", prospective="3 kA")
    d.part("transformer", "TA1", power="2.4 kVA", neutral="bonded")
    d.run("GS1.out", "TA1.primary", "p", size="12 AWG", length="300 ft")
    d.part("load", "EA1", power="1900 W")
    d.run("TA1.secondary", "EA1.in", "m", size="12 AWG", length="10 ft")
    (finding,) = found(d, "voltage-drop-high")
    assert finding.subjects == ("EA1", "p")
    assert cured(d, finding).silent
    d.rate_run("p", length="20 ft")
    assert found(d, "voltage-drop-high") == []


def test_more_than_its_rating() -> None:
    draft = stepped(power="500 VA", guard="5 A")
    assert [f.where for f in found(draft, "source-overloaded")] == [("TA1",)]


def with_set_aboard() -> Draft:
    draft = boat()
    draft.part("generator", "G1", power="3 kVA", neutral="floating", breaker="30 A")
    draft.run("G1.out", "QP1.feed", "g", size="10 AWG", length="10 ft")
    return draft


def test_what_a_set_on_the_secondary_does_to_the_plug_ashore() -> None:
    """A core works both ways: pins on its primary are live from a set on board."""
    assert {"pins-live", "sources-meet"} <= {rule for rule, _ in told(with_set_aboard())}


def balanced(lead: str = "8 AWG", main: str = "20 A", power: str = "5 kVA") -> Draft:
    """A set of 240 V without a neutral, 20 A, an autotransformer that makes one, a board."""
    d = Draft(place="field")
    d.part(
        "generator",
        "G1",
        circuit="ac240",
        voltage="240 V",
        power="5 kVA",
        breaker="20 A",
        neutral="floating",
    )
    d.part("autotransformer", "TA1", power=power)
    d.run("G1.out", "TA1.primary", "g", poles="L1 L2 PE", size="12 AWG", length="20 ft")
    d.part("panel", "QP1", circuit="split", main=main, bond="fitted")
    d.run("TA1.secondary", "QP1.feed", "p", size=lead, length="10 ft")
    for n, (place, watts) in enumerate((("1", "1400 W"), ("3", "200 W")), 1):
        d.part("breaker", f"QF{n}", rating="15 A")
        d.seat(f"QF{n}", "QP1", place)
        d.part("load", f"EA{n}", power=watts)
        d.run(f"QF{n}.load", f"EA{n}.in", f"m{n}", size="14 AWG", length="30 ft")
    return d


def test_a_neutral_made_by_an_autotransformer_holds_both_legs() -> None:
    draft = balanced()
    assert told(draft) == set()
    report = analyse(draft.design, shown="G1=running").reports[0]
    volts = {x.part: x.volts for x in report.loads}
    assert volts["EA1"] == pytest.approx(120.0, abs=4.0)
    assert volts["EA2"] == pytest.approx(120.0, abs=4.0)


def test_one_leg_may_take_twice_what_the_device_before_an_autotransformer_lets_through() -> None:
    # all of 20 A and 240 V on one leg are 40 A at 120 V: too much for 12 AWG without a main of 20 A
    assert told(balanced("12 AWG")) == set()
    draft = balanced("12 AWG")
    draft.rate("QP1", main=None)
    draft.rate("QF1", rating="30 A")
    draft.rate_run("m1", size="10 AWG")
    assert "p" in {place for _, where in told(draft) for place in where}


def test_an_autotransformer_for_less_than_its_legs_differ_by() -> None:
    assert {f.where for f in found(balanced(power="1 kVA"), "source-overloaded")} == {("TA1",)}


def test_without_the_autotransformer_the_neutral_is_missing() -> None:
    draft = balanced()
    draft.rate_run("p", broken="N")
    assert {"neutral-missing"} <= {rule for rule, _ in told(draft)}


@pytest.mark.parametrize("draw", [boat, with_set_aboard, balanced, stepped, three_wires])
def test_its_live_circuits_are_those_of_all_states(draw: Callable[[], Draft]) -> None:
    assert_as_enumerated(draw().design)


def on_an_inverter(size: str = "12 AWG") -> Draft:
    """A cabin's inverter of 2 kVA, a transformer of one to one behind it, a load; no breaker."""
    d = Draft(place="field")
    d.part("battery", "GB1", voltage="24 V", capacity="200 Ah", fault_current="4 kA")
    d.part("fuse", "F1", rating="125 A", type="class_t", interrupting="20 kA")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="48 V")
    lead = {"size": "1/0 AWG", "terminals": "75", "insulation": "90"}
    d.run("GB1.dc", "F1.line", "W1", length="0.5 ft", **lead)
    d.run("F1.load", "QB1.line", "W2", length="1 ft", **lead)
    d.part("inverter", "TB1", power="2 kVA", dc_voltage="24 V", neutral="bonded")
    d.run("QB1.load", "TB1.dc", "W3", length="3 ft", **lead)
    d.part("transformer", "TA1", power="2.4 kVA", neutral="bonded")
    d.run("TB1.ac_out", "TA1.primary", "W4", size="12 AWG", length="6 ft")
    d.part("load", "EA1", power="900 W")
    d.run("TA1.secondary", "EA1.in", "W5", size=size, length="20 ft")
    return d


def test_what_an_inverter_gives_at_the_most_bounds_what_comes_through_a_transformer() -> None:
    # 2 kVA at 120 V are 16.7 A, which 12 AWG carries and 14 AWG does not
    assert "run-unprotected" not in {rule for rule, _ in told(on_an_inverter())}
    assert ("run-unprotected", ("W5",)) in told(on_an_inverter("14 AWG"))


@pytest.mark.parametrize("change", [{"length": "400 ft"}, {"size": "6 AWG"}, {"broken": "PE"}])
def test_an_edit_before_a_transformer_is_felt_behind_it(change: dict[str, str]) -> None:
    """What is remembered of the secondary is forgotten where its primary changes."""
    memory, draft = Memory(), three_wires()
    analyse(draft.design, memory=memory)
    draft.rate_run("p", **change)
    remembered = flat(analyse(draft.design, memory=memory).findings)
    fresh = flat(analyse(draft.design).findings)
    assert [(f.rule, f.where, f.message) for f in remembered] == [
        (f.rule, f.where, f.message) for f in fresh
    ]


@pytest.mark.parametrize(
    ("power", "behind", "told"),
    [
        # 3 kVA give 25 A: 125 % of 20 A; of 8.3 A 125 %, or 250 % with a device behind
        ("2.4 kVA", "", False),
        ("1 kVA", "", True),
        ("1 kVA", "10 A", True),
        ("1.5 kVA", "15 A", False),
    ],
)
def test_an_inverter_without_a_device_before_a_transformer(
    power: str, behind: str, told: bool
) -> None:
    d = Draft(place="building")
    d.part("battery", "GB1", voltage="48 V", capacity="100 Ah", fault_current="3 kA")
    d.part("fuse", "F1", rating="125 A", type="class_t")
    d.seat("F1", "GB1", "post")
    d.part("inverter", "TB1", power="3 kVA", dc_voltage="48 V", neutral="bonded")
    d.run("F1.load", "TB1.dc", "b", size="1/0 AWG", length="4 ft")
    guard = {"breaker": behind} if behind else {}
    d.part("transformer", "TA1", power=power, neutral="bonded", **guard)
    d.run("TB1.ac_out", "TA1.primary", "p", size="10 AWG", length="5 ft")
    d.part("load", "EA1", power="400 W")
    d.run("TA1.secondary", "EA1.in", "m", size="10 AWG", length="10 ft")
    hits = found(d, "transformer-unprotected")
    assert [hit.subjects for hit in hits] == ([("TA1", "TB1")] if told else [])


def test_what_hangs_before_the_device_on_a_secondary_is_not_protected_by_it() -> None:
    """1 kVA behind 20 A: allowed only with a device for all of the secondary (450.3(B))."""
    draft = shed("20 A", "1 kVA")
    draft.cut("m")
    draft.part("breaker", "QF2", rating="10 A", interrupting="10 kA")
    draft.run("TA1.secondary", "QF2.line", "m", size="6 AWG", length="2 ft")
    draft.run("QF2.load", "EA1.in", "n", size="10 AWG", length="10 ft")
    assert found(draft, "transformer-unprotected") == []
    draft.part("load", "EA2", power="100 W")
    draft.run("TA1.secondary", "EA2.in", "o", size="6 AWG", length="2 ft")
    assert found(draft, "transformer-unprotected") != []


def test_a_short_secondary_carries_a_part_of_the_device_before() -> None:
    """NFPA 70 240.21(C)(2): a tenth of it over the turns; (6) up to 25 ft: a third."""
    draft = three_wires("20 ft", main="50 A")
    assert found(draft, "run-unprotected") == []
    draft.rate("GS1", breaker="200 A")  # a third of 200 A at 240 to 240 V is 66.7 A; 6 AWG has 65 A
    draft.rate_run("p", size="3/0 AWG")
    assert [f.subjects for f in found(draft, "run-unprotected")] == [("s",)]
    draft.rate_run("s", length="8 ft")
    assert found(draft, "run-unprotected") == []


@pytest.mark.parametrize(("bond", "told"), [("fitted", False), ("absent", True)])
def test_a_breaker_on_one_leg_behind_an_autotransformer_counts_to_ground(
    bond: str, told: bool
) -> None:
    """An inverter of 240 V from hot to hot: 120 V to the neutral that is joined to metal."""
    d = Draft(place="building")
    d.part("battery", "GB1", voltage="48 V", capacity="100 Ah", fault_current="3 kA")
    d.part("fuse", "F1", rating="125 A", type="class_t")
    d.seat("F1", "GB1", "post")
    d.part("inverter", "TB1", power="4 kVA", voltage="240 V", dc_voltage="48 V", neutral="floating")
    d.run("F1.load", "TB1.dc", "b", size="1/0 AWG", length="4 ft")
    d.part("autotransformer", "TA1", power="4 kVA")
    wire = {"size": "10 AWG", "length": "5 ft"}
    d.run("TB1.ac_out", "TA1.primary", "p", poles="L>L1 N>L2 PE", **wire)
    d.part("panel", "QP1", circuit="split", main="20 A", bond=bond)
    d.run("TA1.secondary", "QP1.feed", "s", **wire)
    d.part("breaker", "QF1", rating="15 A", voltage="120 V")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="400 W")
    d.run("QF1.load", "EA1.in", "m", size="14 AWG", length="20 ft")
    assert bool(found(d, "device-wrong-voltage")) is told
