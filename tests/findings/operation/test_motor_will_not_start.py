"""motor-will-not-start: what a start asks of a set or inverter, and how far the voltage falls."""

from __future__ import annotations

import pytest

from linework.codes import resistance
from linework.design import Draft
from linework.findings.model import Level
from linework.kinds import Answer
from linework.study.loads.loaded import loaded
from linework.study.loads.starting import starts
from tests.designs import situation_of
from tests.findings.told import cured, found, gaps, number

RULE = "motor-will-not-start"


def roof_unit(start: str, power: str = "4 kVA", length: str = "0 ft", **rated: Answer) -> Draft:
    """A roof air conditioner on a set of given reactance; a winding's R is 0.15 of its X."""
    d = Draft(place="recreational")
    ratings: dict[str, Answer] = {"neutral": "bonded", "reactance": "0.20"}
    d.part("generator", "G1", power=power, **(ratings | rated))
    d.part("motor", "MA1", power="1500 W", power_factor="0.95", start_current=start)
    d.run("G1.out", "MA1.in", "W1", size="10 AWG", length=length)
    return d


def dip(draft: Draft) -> float:
    situation = situation_of(draft, G1="running")
    (start,) = starts(situation, loaded(situation))
    return 100.0 * start.dip


@pytest.mark.parametrize(
    ("start", "kva", "x", "percent"),
    [
        # Worked by hand: 1 - |Zm / (Zs + Zm)|, X = x V^2 / S, R = 0.15 X, Zm = 120 V / LRA at
        # power factor 0.35. 55 A, 4 kVA, x 0.20: Zs = 0.108 + j0.720, Zm = 0.764 + j2.044,
        # 1 - 2.182 / |0.872 + j2.764| = 24.7 %.
        (55.0, 4.0, 0.20, 24.72),
        (55.0, 4.0, 0.12, 16.43),
        (22.0, 4.0, 0.20, 11.58),
        (55.0, 8.0, 0.20, 14.06),
    ],
)
def test_how_far_the_voltage_falls(start: float, kva: float, x: float, percent: float) -> None:
    found_ = dip(roof_unit(f"{start} A", f"{kva} kVA", reactance=f"{x}"))
    assert found_ == pytest.approx(percent, abs=0.05)
    # the shortcut of the trade, x S / (1 + x S) with S the starting over the rated power, is
    # good to half a point
    share = x * 0.120 * start / kva
    assert found_ == pytest.approx(100.0 * share / (1.0 + share), abs=0.5)


def test_a_fall_beyond_thirty_percent_is_a_warning() -> None:
    # x S / (1 + x S) with S = 120 V x LRA: 0.3 / 0.7 = 0.2 x 120 LRA / 4000 -> about 71 A
    (finding,) = found(roof_unit("80 A"), RULE)
    assert finding.level is Level.WARNING
    assert finding.subjects == ("MA1", "G1")
    assert number(finding, "voltage lost at the start") == pytest.approx(0.323, abs=0.01)
    assert not found(roof_unit("65 A"), RULE)


def test_a_soft_starter_cures_it() -> None:
    assert found(roof_unit("80 A"), RULE)
    assert not found(roof_unit("27 A"), RULE)


def test_the_cable_counts_too() -> None:
    assert not found(roof_unit("60 A"), RULE)
    (finding,) = found(roof_unit("60 A", length="300 ft"), RULE)
    assert finding.subjects == ("MA1", "G1")


def electronic(start: str, **rated: Answer) -> Draft:
    return roof_unit(start, "1.6 kVA", excitation="electronic", **rated)


def test_a_rooftop_unit_on_a_small_electronic_set() -> None:
    # A reader's question: 1500 W running, 2800 W at the start, on 1600 W with 2000 W of surge
    (finding,) = found(electronic("23 A", surge="2 kVA"), RULE)
    assert number(finding, "given for a start") == pytest.approx(2000 / 120)
    # 23 A at power factor 0.35, all of it from the set
    assert number(finding, "current of the source at the start") == pytest.approx(23.0, rel=0.02)
    assert not found(electronic("23 A", surge="2.8 kVA"), RULE)


def test_what_is_taken_where_no_surge_is_given_is_said() -> None:
    (finding,) = found(electronic("23 A"), RULE)
    assert "[1.5 times its rating]" in finding.message
    assert number(finding, "given for a start") == pytest.approx(1.5 * 1600 / 120)
    assert not found(electronic("19 A"), RULE)


def test_what_else_runs_counts() -> None:
    draft = electronic("19 A")
    draft.rate("MA1", power="400 W")
    assert not found(draft, RULE)
    draft.part("load", "EA1", power="1000 W")
    draft.run("G1.out", "EA1.in", "W2", size="12 AWG", length="3 ft")
    (finding,) = found(draft, RULE)
    # 8.33 A in phase beside 19 A at 0.35, from the motor's own 3.5 A: |8.33 + 6.65 - j17.8|
    assert number(finding, "current of the source at the start") == pytest.approx(23.3, rel=0.03)


def pump_on_inverter(power: str, start: str) -> Draft:
    d = Draft(place="building")
    d.part("battery", "GB1", voltage="48 V", capacity="400 Ah", fault_current="8 kA")
    d.part("inverter", "TB1", circuit="split", power=power, dc_voltage="48 V", neutral="bonded")
    d.part("fuse", "F1", rating="200 A", type="class_t", voltage="125 V")
    d.run("GB1.dc", "F1.line", size="4/0 AWG", length="6 in")
    d.run("F1.load", "TB1.dc", size="4/0 AWG", length="3 ft")
    d.part("motor", "MA1", "well pump", circuit="ac240", power="1 kW", start_current=start)
    d.run("TB1.ac_out", "MA1.in", size="12 AWG", length="50 ft")
    return d


def test_both_legs_of_an_inverter_carry_a_pump_between_them() -> None:
    # 6 kVA: 25 A on a leg, for a start 37.5 A
    assert not found(pump_on_inverter("6 kVA", "35 A"), RULE)
    (finding,) = found(pump_on_inverter("6 kVA", "40 A"), RULE)
    assert finding.subjects == ("MA1", "TB1")
    assert number(finding, "given for a start") == pytest.approx(37.5)


def test_a_motor_that_nothing_feeds_or_no_solution_tells_is_not_judged_here() -> None:
    draft = pump_on_inverter("6 kVA", "60 A")
    draft.rate("MA1", power="5500 W")
    draft.cut(*[r.designation for r in draft.design.runs if r.a.terminal == "load"])
    draft.run("F1.load", "TB1.dc", size="14 AWG", length="300 ft")
    assert not found(draft, RULE)
    assert any("was not solved" in gap.reason for gap in gaps(draft, "not-analysed"))


def fridge(start: str | None, least: str | None = "10.9 V") -> Draft:
    """A compressor refrigerator of 4 A at the end of 18 ft of 16 AWG, as a blog tells of it."""
    d = Draft(place="vehicle")
    d.part("battery", "GB1", voltage="12.2 V", capacity="80 Ah", fault_current="3 kA")
    d.part("fuse", "F1", rating="8 A", type="class_t")
    d.seat("F1", "GB1", "post")
    given = {"start_current": start, "least_voltage": least}
    ratings = {key: value for key, value in given.items() if value is not None}
    d.part("motor", "MA1", circuit="dc", power="48 W", voltage="12 V", **ratings)
    d.run("F1.load", "MA1.in", "W1", size="16 AWG", length="18 ft")
    return d


def test_a_motor_on_direct_current_that_switches_off_while_it_starts() -> None:
    """wanderingwithwaddles.blogspot.com: at 10 A 1.45 V (cold) to 1.8 V (75 C) are lost.

    Standing it is 1.2 ohm: a little less than 10 A flow at the voltage that is left."""
    (hit,) = found(fridge("10 A"), RULE)
    assert (hit.level, hit.subjects) == (Level.WARNING, ("MA1", "W1"))
    way = 36 * 0.3048 * resistance("16 AWG", "copper", "stranded", 75.0).value
    left = 12.2 * 1.2 / (1.2 + way + 0.07 / 8 + 12.2 / 3000)  # 0.07 V at the fuse, the cells
    lost = left / 1.2 * way
    assert number(hit, "lost on the way while it starts") == pytest.approx(lost, rel=1e-3)
    assert number(hit, "voltage at it while it starts") == pytest.approx(left, rel=1e-3)


@pytest.mark.parametrize(("start", "least"), [("5 A", "10.9 V"), (None, "10.9 V"), ("10 A", None)])
def test_one_that_does_not_or_of_which_too_little_is_known(
    start: str | None, least: str | None
) -> None:
    assert found(fridge(start, least), RULE) == []


@pytest.mark.parametrize(("least", "told"), [("11.5 V", False), ("11.8 V", True)])
def test_a_charger_holds_the_battery_up(least: str, told: bool) -> None:
    # 13.5 V x 1.2 ohm / (1.2 + 0.180 + 0.009 of the fuse + 0.004 ohm) = 11.63 V
    draft = fridge("10 A", least)
    assert found(draft, RULE)
    draft.part("supply", "GS1", breaker="20 A")
    draft.part("charger", "TB1", current="15 A", dc_voltage="12 V")
    draft.run("GS1.out", "TB1.ac_in", "W2", size="12 AWG", length="6 ft")
    draft.run("GB1.dc", "TB1.dc", "W3", size="12 AWG", length="1 ft")
    assert bool(found(draft, RULE)) is told


def test_a_soft_starter_is_offered_and_lets_it_start() -> None:
    """1500 W at 0.95 are 13.2 A; two and a half times that is 32.9 A (common practice)."""
    draft = roof_unit("80 A")
    (finding,) = found(draft, RULE)
    assert not [f for f in cured(draft, finding).findings if f.rule == RULE]
    assert draft.design.part("MA1").ratings["soft_start"] == "32.9 A"
