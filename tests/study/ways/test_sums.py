"""What all sources together drive through a conductor."""

from __future__ import annotations

import math

import pytest

from linework.design import Draft
from linework.study.situation import Situation
from linework.study.ways.sums import inflow, sums, takes
from tests.designs import situation_of

WIRE = {"size": "4 AWG", "length": "2 ft"}
DC = {"circuit": "dc", "voltage": "12 V"}


def batteries(number: int, fuse: str = "100 A", lead: str = "", place: str = "vehicle") -> Draft:
    """Batteries on one bar, each behind a fuse of its own, and one lead to a load, with a fuse at
    its beginning where one is named."""
    d = Draft(place=place, voltage="12 V")
    d.part("busbar", "WC1", bar="plus", rating="400 A", taps="6")
    d.part("busbar", "WC2", bar="minus", rating="400 A", taps="6")
    for n in range(1, number + 1):
        d.part("battery", f"GB{n}", fault_current="3 kA")
        d.part("fuse", f"F{n}", rating=fuse, type="class_t")
        d.run(f"GB{n}.dc", f"F{n}.line", f"p{n}", poles="+", **WIRE)
        d.run(f"F{n}.load", f"WC1.{n}", f"q{n}", poles="+", **WIRE)
        d.run(f"GB{n}.dc", f"WC2.{n}", f"m{n}", poles="-", **WIRE)
    d.part("load", "EA1", power="240 W", **DC)
    if lead:
        d.part("fuse", "F9", rating=lead, type="class_t")
        d.run("WC1.feed", "F9.line", "before", poles="+", **WIRE)
        d.run("F9.load", "EA1.in", "lead", poles="+", **WIRE)
    else:
        d.run("WC1.feed", "EA1.in", "lead", poles="+", **WIRE)
    d.run("WC2.feed", "EA1.in", "back", poles="-", **WIRE)
    return d


def told(situation: Situation) -> dict[str, float]:
    """Run -> what comes into it together."""
    return {item.run: item.inflow.amps for item in sums(situation)}


def test_three_batteries_add_up_in_what_they_feed() -> None:
    found = told(situation_of(batteries(3)))
    assert found["lead"] == 300.0
    # into each battery's own lead the other two may drive
    assert found["q1"] == 200.0


def test_one_battery_adds_up_to_nothing() -> None:
    assert told(situation_of(batteries(1))) == {}


def test_a_fuse_at_the_beginning_of_the_lead_bounds_it() -> None:
    found = told(situation_of(batteries(3, lead="80 A")))
    assert "lead" not in found
    assert found["before"] == 300.0


def test_what_bounds_it_is_named() -> None:
    situation = situation_of(batteries(3))
    (lead,) = (item for item in sums(situation) if item.run == "lead")
    devices = situation.circuit.devices
    assert {devices[i].owner for i in lead.inflow.devices} == {"F1", "F2", "F3"}


def test_through_a_link_between_two_bars_only_one_side_flows() -> None:
    d = batteries(2)
    d.part("busbar", "WC3", bar="plus", rating="400 A", taps="4")
    d.run("WC1.3", "WC3.feed", "link", poles="+", **WIRE)
    d.part("battery", "GB3", fault_current="3 kA")
    d.part("fuse", "F3", rating="60 A", type="class_t")
    d.run("GB3.dc", "F3.line", "p3", poles="+", **WIRE)
    d.run("F3.load", "WC3.1", "q3", poles="+", **WIRE)
    d.run("GB3.dc", "WC2.3", "m3", poles="-", **WIRE)
    found = told(situation_of(d))
    assert found["link"] == 200.0
    assert found["q3"] == 200.0
    assert found["lead"] == 260.0


def test_a_charger_adds_what_it_holds_itself() -> None:
    d = batteries(1)
    d.part("supply", "GS1", breaker="20 A")
    d.part("charger", "TB1", current="40 A")
    d.run("GS1.out", "TB1.ac_in", "shore", size="12 AWG", length="5 ft")
    d.run("TB1.dc", "WC1.2", "stub", poles="+", **WIRE)
    d.run("TB1.dc", "WC2.2", "stub minus", poles="-", **WIRE)
    # 125 % of its rating (705.12(B))
    assert told(situation_of(d, GS1="live"))["lead"] == pytest.approx(150.0)


def test_two_feeds_of_one_box_from_one_source() -> None:
    d = Draft(place="building")
    d.part("supply", "GS1", breaker="200 A")
    d.part("junction_box", "XJ1")
    for n, side in ((1, "a"), (2, "b")):
        d.part("breaker", f"QF{n}", rating="60 A")
        d.seat(f"QF{n}", "GS1", str(n))
        d.run(f"QF{n}.load", f"XJ1.{side}", f"feed {n}", size="6 AWG", length="20 ft")
    d.part("load", "EA1", power="600 W")
    d.run("XJ1.c", "EA1.in", "lead", size="6 AWG", length="20 ft")
    assert told(situation_of(d, GS1="live")) == {"lead": 120.0}


def test_the_end_at_a_battery_takes_what_its_fuse_lets_through() -> None:
    situation = situation_of(batteries(3))
    by_run = {item.run: item for item in sums(situation)}
    assert takes(situation, by_run["q1"]).amps == 100.0
    assert math.isinf(takes(situation, by_run["lead"]).amps)


def test_what_nothing_bounds_is_no_sum() -> None:
    d = batteries(2)
    d.part("battery", "GB3", fault_current="3 kA")
    d.run("GB3.dc", "WC1.3", "p3", poles="+", **WIRE)
    d.run("GB3.dc", "WC2.3", "m3", poles="-", **WIRE)
    situation = situation_of(d)
    assert "lead" not in told(situation)
    branch = situation.circuit.branches[situation.circuit.branches_of["lead"][0]]
    assert math.isinf(inflow(situation, (branch.a,), situation.feeds(branch.a)).amps)
