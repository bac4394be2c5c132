"""Shorts, against hand formulas and published figures."""

from __future__ import annotations

import math

import pytest

from linework.design import Draft
from linework.kinds import Band
from linework.study.loads.loaded import loaded
from linework.study.shorts.clearing import ending
from linework.study.shorts.faults import Fault, faults
from linework.study.situation import Situation
from linework.study.studies import Shorts, Studies
from tests.designs import situation_of


def at(situation: Situation, part: str, to: str = "PE", terminal: str = "") -> Fault:
    """The short from the live pole of a part's terminal."""
    found = [
        f
        for owner in situation.owners
        for f in faults(situation, owner)
        if f.point.part == part and f.point.to == to and terminal in ("", f.point.terminal)
    ]
    assert len(found) == 1, [f.point for f in found]
    return found[0]


def feeder(**supply: str) -> Draft:
    d = Draft(place="building")
    d.part("supply", "GS1", **{"outage": "no", "breaker": "20 A", "x_over_r": "0", **supply})
    d.part("load", "EA1", power="100 W")
    return d


def test_a_rod_as_the_only_return_carries_a_few_amperes_and_clears_nothing() -> None:
    # "The Path of Least Resistance" (trade magazine, 2001): 120 V over 25 ohm are 4.8 A, a 15 A
    # breaker does not trip; the case stands at the source's voltage.
    d = feeder(breaker="15 A", electrode="0 ohm", prospective="10 kA")
    d.part("panel", "QP1", bond="absent")
    d.part("electrode", "XE1", resistance="25 ohm")
    d.run("GS1.out", "EA1.in", size="12 AWG", length="10 ft", broken="PE")
    d.run("EA1.in", "QP1.feed", poles="PE>PE", size="6 AWG", length="1 ft")
    d.run("QP1.ground", "XE1.ground", size="6 AWG", length="1 ft")
    situation = situation_of(d)
    fault = at(situation, "EA1")
    assert fault.weak.current_a == pytest.approx(4.8, abs=0.01)
    assert fault.weak.metal_v == pytest.approx(120.0, abs=0.5)
    end = ending(situation, fault)
    assert (end.by, end.device) == ("nothing", None)
    assert end.over_v_for_s(50.0) == math.inf


@pytest.mark.parametrize(("source_ohm", "amps", "volts"), [(0.0, 4.8, 120.0), (25.0, 2.4, 60.0)])
def test_two_rods_halve_it(source_ohm: float, amps: float, volts: float) -> None:
    d = feeder(electrode=f"{source_ohm:g} ohm", prospective="10 kA")
    d.part("panel", "QP1", bond="absent")
    d.part("electrode", "XE1", resistance="25 ohm")
    d.run("GS1.out", "EA1.in", size="12 AWG", length="10 ft", broken="PE")
    d.run("EA1.in", "QP1.feed", poles="PE>PE", size="6 AWG", length="1 ft")
    d.run("QP1.ground", "XE1.ground", size="6 AWG", length="1 ft")
    outcome = at(situation_of(d), "EA1").weak
    assert outcome.current_a == pytest.approx(amps, rel=0.01)
    assert outcome.metal_v == pytest.approx(volts, rel=0.01)


def test_ordinary_sound_wiring_puts_half_the_voltage_on_metal() -> None:
    # 100 ft of 12 AWG on a strong supply: 288 A and 57 V at 0.02 + j0.02 ohm without contacts.
    d = feeder(prospective=f"{120 / math.hypot(0.02, 0.02)!r} A", x_over_r="1")
    d.run("GS1.out", "EA1.in", size="12 AWG", length="100 ft")
    outcome = at(situation_of(d), "EA1").weak
    assert outcome.current_a == pytest.approx(288.0, rel=0.02)
    assert outcome.metal_v == pytest.approx(57.0, rel=0.02)


def test_the_prospective_current_is_found_again_at_the_terminals() -> None:
    d = feeder(prospective="3 kA", x_over_r="0.7", breaker="400 A")
    d.run("GS1.out", "EA1.in", size="12 AWG", length="10 ft")
    fault = at(situation_of(d), "GS1", "N", "in")
    assert fault.strong.current_a == pytest.approx(3000.0, rel=1e-3)


def test_weak_and_strong_bound_each_other() -> None:
    d = feeder()
    d.rate("GS1", prospective=Band("500 A", "1 kA", "5 kA"))
    d.run("GS1.out", "EA1.in", size="12 AWG", length="50 ft")
    fault = at(situation_of(d), "EA1")
    # 500 A: 0.24 ohm; two conductors of 1.98 ohm per 1000 ft; contacts and link 6 mohm.
    weak = 120.0 / abs(complex(0.24 + 0.198 + 5e-3 + 0.75e-3, 2 * 0.08e-3 * 15.24))
    assert fault.weak.current_a == pytest.approx(weak, rel=1e-3)
    # 5 kA: 0.024 ohm; cold conductors, 1 - 0.00323 x 55 of that at 75 C.
    strong = 120.0 / abs(complex(0.024 + 0.198 * (1 - 0.00323 * 55) + 0.6e-3, 0.00244))
    assert fault.strong.current_a == pytest.approx(strong, rel=2e-3)


def test_the_subtransient_current_of_a_set() -> None:
    # A Textbook on Power System Engineering, example 3.1.10: X" = 0.08 drives 12.5 times the rated
    # current (the imaginary part); with R = 0.15 X it is 12.5 / sqrt(1 + 0.15^2). That is from
    # no load; loaded at a power factor of 0.8, 1 + 0.08 x 0.6 times as much (IEC 60909-0).
    d = Draft(place="field")
    d.part("generator", "G1", power="600 kVA", neutral="bonded", reactance="0.08")
    d.part("load", "EA1", power="1 kW")
    d.run("G1.out", "EA1.in", size="4/0 AWG", length="10 ft")
    fault = at(situation_of(d, G1="running"), "G1", "N", "out")
    times = fault.strong.current_a / (600e3 / 120.0)
    assert times == pytest.approx(12.5 * 1.048 / math.hypot(1.0, 0.15), rel=1e-3)


def test_a_first_fault_on_a_floating_set_drives_only_its_stray_current() -> None:
    d = Draft(place="field")
    d.part("generator", "G1", power="5 kVA", neutral="floating", stray_line="5 nF")
    d.part("outlet", "XD1")
    d.run("G1.out", "XD1.feed", size="12 AWG", length="10 m")
    fault = at(situation_of(d, G1="running"), "XD1")
    # What is shorted is gone; the neutral side stays: 1 nF of the set and 1 nF of 10 m of cable.
    stray = 120.0 * 2.0 * math.pi * 60.0 * 2e-9
    assert fault.weak.current_a == pytest.approx(stray, rel=1e-3)


def test_where_nothing_closes_the_circuit_the_voltage_is_not_defined() -> None:
    d = Draft(place="field")
    d.part(
        "generator",
        "G1",
        power="5 kVA",
        neutral="floating",
        stray_line="0 nF",
        stray_neutral="0 nF",
    )
    d.part("outlet", "XD1")
    d.run("G1.out", "XD1.feed", size="12 AWG", length="1 ft")
    fault = at(situation_of(d, G1="running"), "XD1")
    assert fault.weak.current_a == 0.0
    assert fault.weak.metal_v is not None
    assert math.isnan(fault.weak.metal_v)


def test_a_battery_shorts_at_what_its_cells_give() -> None:
    d = Draft(place="vehicle")
    d.part("battery", "GB1", voltage="12 V", fault_current="6 kA")
    d.part("fuse", "F1", rating="100 A", type="class_t")
    d.part("body", "XB1")
    d.run("GB1.dc", "F1.line", size="4/0 AWG", length="1 ft")
    d.run("GB1.dc", "XB1.tie", poles="->body", size="4/0 AWG", length="1 ft")
    situation = situation_of(d)
    assert at(situation, "GB1", "-").strong.current_a == pytest.approx(6000.0, rel=1e-6)
    to_body = at(situation, "GB1", "body")
    # The same through the bond alone: 1 ft of 4/0, 0.0608 ohm per 1000 ft at 75 C, cold.
    bond = 0.0608e-3 * (1 - 0.00323 * 55)
    assert to_body.strong.current_a == pytest.approx(12.0 / (12.0 / 6000.0 + bond), rel=1e-3)


def test_every_body_is_a_place_to_short_to() -> None:
    d = Draft(place="vehicle")
    d.part("battery", "GB1")
    d.part("body", "XB1", name="trailer")
    d.part("body", "XB2", name="tow vehicle")
    d.part("lamp", "EL1", circuit="dc", power="20 W")
    d.run("GB1.dc", "EL1.in", size="14 AWG", length="10 ft")
    d.run("GB1.dc", "XB2.tie", poles="->body", size="8 AWG", length="2 ft")
    situation = situation_of(d)
    found = [f for f in faults(situation, "GB1") if (f.point.part, f.point.to) == ("EL1", "body")]
    trailer, tow = sorted(f.weak.current_a for f in found)
    assert trailer == 0.0
    assert tow > 100.0


def test_a_fault_at_one_node_is_named_after_what_carries_the_rest() -> None:
    # A double-insulated load sits in the outlet; the outlet's ground contact is metal all the same.
    d = feeder()
    d.part("outlet", "XD1")
    d.part("plug_load", "EP1", power="60 W", case="insulated")
    d.seat("EP1", "XD1", "face")
    d.run("GS1.out", "XD1.feed", size="12 AWG", length="30 ft")
    found = faults(situation_of(d), "GS1")
    assert "XD1" in {f.point.part for f in found}
    assert "EP1" not in {f.point.part for f in found}


def test_two_sources_on_one_circuit_are_not_told_twice() -> None:
    d = Draft(place="vehicle")
    d.part("battery", "GB1")
    d.part("battery", "GB2")
    d.part("lamp", "EL1", circuit="dc", power="20 W")
    d.run("GB1.dc", "EL1.in", size="14 AWG", length="10 ft")
    d.run("GB2.dc", "EL1.in", size="14 AWG", length="10 ft")
    situation = situation_of(d)
    found = Studies(situation.circuit, situation.state).faults
    places = [(f.point.node, f.point.to_node) for f in found]
    assert len(places) == len(set(places))
    assert {f.point.part for f in found} == {"GB1", "GB2", "EL1"}


def test_a_charger_adds_its_own_limit_to_a_fault_and_no_more() -> None:
    d = Draft(place="vehicle")
    d.part("supply", "GS1", outage="no")
    d.part("battery", "GB1", fault_current="4 kA")
    d.part("inverter_charger", "TB1", power="2 kVA", charge="60 A", neutral="relay")
    d.run("GS1.out", "TB1.ac_in", size="12 AWG", length="5 ft")
    d.run("GB1.dc", "TB1.dc", size="4/0 AWG", length="5 ft")
    situation = situation_of(d, TB1="passing")
    fault = at(situation, "GB1", "-")
    assert fault.weak.current_a == pytest.approx(4000.0, rel=1e-6)
    assert fault.strong.current_a == pytest.approx(4000.0 + 1.3 * 60.0, rel=1e-3)
    assert loaded(situation).solved


def test_a_short_to_another_live_system_is_not_that_of_a_state_without_it() -> None:
    # The switch leaves the neutral joined; on G1 it is crossed, so that its live wire stands beside
    # that of G2 at the load terminal as long as the lever is at 1, and beside a dead one after.
    d = Draft(place="field")
    rated = {"power": "3 kVA", "neutral": "bonded", "excitation": "auxiliary"}
    d.part("generator", "G1", **rated)
    d.part("generator", "G2", circuit="split", **rated)
    d.part("transfer_switch", "QT1", poles="lines")
    d.part("load", "EA1", power="100 W")
    run = {"size": "12 AWG", "length": "30 ft"}
    d.run("G2.out", "QT1.in1", poles="L2>L PE>PE", **run)
    d.run("G1.out", "QT1.in2", poles="L>N PE>PE", **run)
    d.run("QT1.load", "EA1.in", **run)
    known: dict[object, Shorts] = {}
    for lever in ("1", "off"):
        situation = situation_of(d, G1="running", G2="running", QT1=lever)
        kept = Studies(situation.circuit, situation.state, known)
        fresh = Studies(situation.circuit, situation.state)
        amps = [[f.weak.current_a for f in s.faults] for s in (kept, fresh)]
        assert amps[0] == pytest.approx(amps[1], rel=1e-6, abs=1e-3)
