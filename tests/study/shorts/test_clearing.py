"""What ends a fault, and when: the device, the source, a ground-fault device, or nothing."""

from __future__ import annotations

import math

import pytest

from linework.codes.residual import class_a_time_s
from linework.design import Draft
from linework.design.edits import rate_run
from linework.study.shorts.clearing import (
    Ending,
    _Candidate,
    _in_order,
    device_designator,
    ending,
)
from linework.study.shorts.faults import faults
from linework.study.situation import Situation
from tests.designs import situation_of


def end_at(
    situation: Situation, part: str, to: str = "PE", strong: bool = False, terminal: str = ""
) -> Ending:
    found = [
        f
        for owner in situation.owners
        for f in faults(situation, owner)
        if (f.point.part, f.point.to) == (part, to) and terminal in ("", f.point.terminal)
    ]
    assert len(found) == 1, [f.point for f in found]
    return ending(situation, found[0], strong)


def circuit(
    length: str, source: str = "supply", breaker: dict[str, str] | None = None, **rated: str
) -> Draft:
    """A source, a breaker, a cable, a load."""
    d = Draft(place="building")
    defaults = {"outage": "no", "breaker": "200 A", "prospective": "5 kA"}
    d.part(source, "S1", **(defaults if source == "supply" else {}) | rated)
    d.part("breaker", "QF1", **{"rating": "20 A", **(breaker or {})})
    d.part("load", "EA1", power="100 W")
    d.run("S1.out", "QF1.line", size="4/0 AWG", length="1 ft")
    d.run("QF1.load", "EA1.in", size="12 AWG", length=length)
    return d


def test_a_large_fault_is_cleared_faster_than_a_small_one() -> None:
    near, far = (end_at(situation_of(circuit(x)), "EA1") for x in ("10 ft", "150 ft"))
    assert near.by == far.by == "device"
    assert near.current_a > 4 * far.current_a
    assert near.latest_s < far.latest_s < math.inf


def test_a_promised_magnetic_trip_clears_at_once() -> None:
    slow = end_at(situation_of(circuit("100 ft")), "EA1")
    fast = end_at(situation_of(circuit("100 ft", breaker={"magnetic": "200 A"})), "EA1")
    assert fast.current_a == pytest.approx(slow.current_a)
    assert fast.latest_s == pytest.approx(0.025)
    assert slow.latest_s > 0.5
    assert fast.over_v_for_s(50.0) == pytest.approx(0.025)
    assert fast.over_v_for_s(100.0) == 0.0


def test_the_nearest_of_two_devices_of_a_kind_ends_it() -> None:
    d = circuit("60 ft")
    d.rate("S1", breaker="60 A")
    situation = situation_of(d)
    end = end_at(situation, "EA1")
    assert device_designator(situation.circuit, end) == "QF1"
    before = end_at(situation, "QF1", terminal="line")
    assert device_designator(situation.circuit, before) == "S1"


@pytest.mark.parametrize("order", [("QF1", "QF2"), ("QF2", "QF1")])
@pytest.mark.parametrize("magnetic", [{}, {"magnetic": "100 A"}])
def test_of_two_equal_breakers_in_series_the_nearer_ends_it(
    order: tuple[str, str], magnetic: dict[str, str]
) -> None:
    d = Draft(place="building")
    d.part("supply", "GS1", outage="no", breaker="200 A", prospective="5 kA")
    for name in order:
        d.part("breaker", name, rating="20 A", **magnetic)
    d.part("load", "EA1", power="100 W")
    d.run("GS1.out", "QF1.line", size="12 AWG", length="10 ft")
    d.run("QF1.load", "QF2.line", size="12 AWG", length="33 ft")
    d.run("QF2.load", "EA1.in", size="12 AWG", length="17 ft")
    situation = situation_of(d)
    assert {
        device_designator(situation.circuit, ending(situation, fault, strong))
        for fault in faults(situation, "GS1")
        if fault.point.part == "EA1"
        for strong in (False, True)
    } == {"QF2"}


def test_equal_times_are_equal_whatever_rounding_makes_of_them() -> None:
    situation = situation_of(circuit("60 ft", breaker={"rating": "15 A"}))
    times = {"QF1": 0.1 + 0.2, "S1": 0.3}
    found = [
        _Candidate("device", i, device.branches, times[device.owner])
        for i, device in enumerate(situation.circuit.devices)
    ]
    assert times["QF1"] > times["S1"]
    ordered = [situation.circuit.devices[c.index].owner for c in _in_order(situation, found)]
    assert ordered == ["QF1", "S1"]


def test_a_breaker_that_need_not_open_ends_nothing() -> None:
    # 135 % of the rating must open within an hour (UL 489); below that a breaker may hold.
    end = end_at(situation_of(circuit("10 ft", prospective="25 A")), "EA1")
    assert end.current_a < 25.0
    assert (end.by, end.latest_s) == ("nothing", math.inf)


def test_a_set_that_collapses_ends_it_itself() -> None:
    d = circuit("60 ft", "generator", power="5 kVA", neutral="bonded", excitation="own")
    situation = situation_of(d, S1="running")
    end = end_at(situation, "EA1")
    assert end.by == "source"
    assert end.latest_s == pytest.approx(0.35)
    assert end.later_v == pytest.approx(0.0, abs=1e-6)
    assert device_designator(situation.circuit, end) == ""
    # Where the same set holds 2.5 times its rating, a breaker has the time to open.
    strong = end_at(situation, "EA1", strong=True)
    assert strong.by == "device"


def test_another_live_source_does_not_keep_a_collapsing_set_up() -> None:
    # The supply shares the ground wire and nothing else; it drove the verdict once.
    d = circuit("60 ft", "generator", power="5 kVA", neutral="bonded", excitation="own")
    d.part("supply", "GS1", outage="no")
    d.part("load", "EA2", power="100 W")
    d.part("body", "XB1")
    d.run("GS1.out", "EA2.in", size="12 AWG", length="100 ft")
    d.part("panel", "QP1", bond="absent")
    d.run("EA2.in", "QP1.feed", poles="PE>PE", size="8 AWG", length="3 ft")
    d.run("QP1.ground", "XB1.tie", size="8 AWG", length="3 ft")
    d.run("S1.frame", "XB1.tie", size="8 AWG", length="3 ft")
    end = end_at(situation_of(d, S1="running"), "EA1")
    assert end.by == "source"
    assert end.latest_s == pytest.approx(0.35)


def test_an_electronic_set_limits_and_is_off_after_seconds() -> None:
    d = circuit("60 ft", "generator", power="3 kVA", neutral="bonded", excitation="electronic")
    end = end_at(situation_of(d, S1="running"), "EA1")
    assert end.current_a == pytest.approx(25.0)  # once its rated current at the weakest
    assert (end.by, end.latest_s) == ("source", pytest.approx(5.0))


def test_a_ground_fault_device_acts_long_before_the_breaker() -> None:
    d = circuit("100 ft", breaker={"ground_fault": "class_a"})
    situation = situation_of(d)
    end = end_at(situation, "EA1")
    assert end.by == "ground-fault"
    assert end.latest_s == pytest.approx(class_a_time_s(1000.0 * end.current_a))
    assert end.latest_s == pytest.approx(0.025)
    # A short of line to neutral is no residual current.
    assert end_at(situation, "EA1", "N").by == "device"


def test_a_ground_fault_device_sees_a_small_current_late() -> None:
    # Through a broken ground wire and rods: hundreds of milliamperes would be fast, 8 mA is not.
    d = circuit("100 ft", breaker={"ground_fault": "class_a"}, electrode="25 ohm")
    d.part("panel", "QP1", bond="absent")
    d.part("electrode", "XE1", resistance="15 kohm")
    for run in d.design.runs:
        if run.b.part == "EA1":
            d.design.apply(rate_run(d.design, run.id, {"broken": "PE"}))
    d.run("EA1.in", "QP1.feed", poles="PE>PE", size="8 AWG", length="1 ft")
    d.run("QP1.ground", "XE1.ground", size="8 AWG", length="1 ft")
    end = end_at(situation_of(d), "EA1")
    assert end.current_a == pytest.approx(120.0 / 15025.0, rel=1e-2)
    assert end.by == "ground-fault"
    assert end.latest_s == pytest.approx((20.0 / (1000.0 * end.current_a)) ** 1.43, rel=1e-3)


def test_a_device_on_one_of_two_ways_ends_nothing() -> None:
    # A second cable round the breaker: it carries its share and may open, the fault stays.
    d = circuit("30 ft")
    assert end_at(situation_of(d), "EA1").by == "device"
    d.part("breaker", "QF2", rating="400 A")
    d.run("S1.out", "QF2.line", size="4/0 AWG", length="1 ft")
    d.run("QF2.load", "EA1.in", size="12 AWG", length="30 ft")
    situation = situation_of(d)
    end = end_at(situation, "EA1")
    assert device_designator(situation.circuit, end) in ("", "S1")


def test_a_breaker_in_the_neutral_ends_no_fault_to_metal() -> None:
    d = circuit("30 ft", breaker={"poles": "neutral"})
    situation = situation_of(d)
    to_metal = end_at(situation, "EA1")
    assert device_designator(situation.circuit, to_metal) == "S1"
    to_neutral = end_at(situation, "EA1", "N")
    assert device_designator(situation.circuit, to_neutral) == "QF1"


def test_a_fuse_beyond_the_fault_does_not_count_for_what_the_battery_feeds() -> None:
    d = Draft(place="vehicle")
    d.part("supply", "GS1", outage="no")
    d.part("battery", "GB1", fault_current="4 kA")
    d.part("fuse", "F1", rating="30 A", type="class_t")
    d.part("inverter_charger", "TB1", power="2 kVA", charge="80 A", neutral="relay")
    d.part("body", "XB1")
    d.run("GS1.out", "TB1.ac_in", size="12 AWG", length="5 ft")
    d.run("GB1.dc", "F1.line", size="4/0 AWG", length="1 ft")
    d.run("F1.load", "TB1.dc", size="4/0 AWG", length="5 ft")
    d.run("GB1.dc", "XB1.tie", poles="->body", size="4/0 AWG", length="1 ft")
    situation = situation_of(d, TB1="passing")
    ahead = end_at(situation, "F1", "-", strong=True, terminal="line")
    assert ahead.by == "nothing"
    behind = end_at(situation, "TB1", "-", strong=True, terminal="dc")
    assert device_designator(situation.circuit, behind) == "F1"


def test_a_ground_fault_device_is_blind_to_direct_current() -> None:
    d = Draft(place="vehicle")
    d.part("battery", "GB1")
    d.part("breaker", "QF1", circuit="dc", voltage="12 V", rating="400 A", ground_fault="rcd_30")
    d.part("lamp", "EL1", circuit="dc", power="20 W")
    d.part("body", "XB1")
    d.run("GB1.dc", "QF1.line", size="4 AWG", length="1 ft")
    d.run("QF1.load", "EL1.in", size="16 AWG", length="40 ft")
    d.run("GB1.dc", "XB1.tie", poles="->body", size="4 AWG", length="1 ft")
    end = end_at(situation_of(d), "EL1", "body")
    assert end.current_a > 10.0
    assert end.by != "ground-fault"


def test_a_fuse_in_one_of_two_strings_does_not_end_what_the_other_feeds() -> None:
    d = Draft(place="building")
    for n in range(1, 5):
        d.part("battery", f"GB{n}", fault_current="2 kA")
    for n in (1, 3):
        d.run(f"GB{n}.dc", f"GB{n + 1}.dc", poles="->+", size="2/0 AWG", length="1 ft")
    d.part("fuse", "F1", rating="100 A", type="class_t")
    d.part("load", "EA1", circuit="dc", voltage="24 V", power="100 W")
    d.run("GB1.dc", "F1.line", poles="+", size="2/0 AWG", length="1 ft")
    d.run("F1.load", "EA1.in", poles="+", size="2/0 AWG", length="1 ft")
    d.run("GB2.dc", "EA1.in", poles="-", size="2/0 AWG", length="1 ft")
    alone = end_at(situation_of(d), "EA1", "-", terminal="in")
    assert device_designator(situation_of(d).circuit, alone) == "F1"
    d.run("GB3.dc", "EA1.in", poles="+", size="2/0 AWG", length="1 ft")
    d.run("GB4.dc", "EA1.in", poles="-", size="2/0 AWG", length="1 ft")
    assert end_at(situation_of(d), "EA1", "-", terminal="in").by == "nothing"
