"""What flows through a bar for good, worked out by hand way by way."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.situation import Situation
from linework.study.ways.bars import through_bar_a
from linework.study.ways.sums import inflow, taken_a
from tests.designs import situation_of
from tests.study.ways.test_sums import DC, WIRE, batteries


def bar(situation: Situation, name: str = "WC1") -> int:
    return situation.circuit.terminals[name, "feed"]["+"]


def with_a_second_bank() -> Draft:
    """Two batteries with 100 A each on a bar; by a fuse of 100 A another bar with a battery, a
    charger of 40 A and a load behind 60 A."""
    d = batteries(2)
    d.cut("lead", "back")
    d.part("fuse", "F3", rating="100 A", type="class_t")
    d.part("busbar", "WC3", bar="plus", rating="400 A", taps="4")
    d.run("WC1.3", "F3.line", "to F3", poles="+", **WIRE)
    d.run("F3.load", "WC3.feed", "link", poles="+", **WIRE)
    d.part("battery", "GB3", fault_current="3 kA")
    d.part("fuse", "F4", rating="200 A", type="class_t")
    d.run("GB3.dc", "F4.line", "p3", poles="+", **WIRE)
    d.run("F4.load", "WC3.1", "q3", poles="+", **WIRE)
    d.run("GB3.dc", "WC2.3", "m3", poles="-", **WIRE)
    d.part("fuse", "F5", rating="60 A", type="class_t")
    d.run("WC3.2", "F5.line", "to F5", poles="+", **WIRE)
    d.run("F5.load", "EA1.in", "lead", poles="+", **WIRE)
    d.run("WC2.feed", "EA1.in", "back", poles="-", **WIRE)
    d.part("supply", "GS1", breaker="20 A")
    d.part("charger", "TB1", current="40 A")
    d.run("GS1.out", "TB1.ac_in", "shore", size="12 AWG", length="5 ft")
    d.run("TB1.dc", "WC3.3", "stub", poles="+", **WIRE)
    d.run("TB1.dc", "WC2.4", "stub minus", poles="-", **WIRE)
    return d


def test_what_batteries_bring_goes_to_the_load() -> None:
    situation = situation_of(batteries(3))
    assert through_bar_a(situation, bar(situation)) == 300.0
    situation = situation_of(batteries(3, lead="80 A"))
    assert through_bar_a(situation, bar(situation)) == 80.0


def test_no_way_brings_and_takes_at_once() -> None:
    """100 A + 100 A + 100 A come to the bar. Out by F3 go the 60 A of the load and nothing to GB3,
    for batteries charge none; in by F3 come the 50 A (125 %, 705.12(B)) that charge the two."""
    situation = situation_of(with_a_second_bank(), GS1="live")
    node = bar(situation)
    assert inflow(situation, (node,), situation.feeds(node)).amps == 300.0
    assert taken_a(situation, node, node) == 110.0
    assert through_bar_a(situation, node) == 60.0


def test_of_a_larger_charger_what_it_brings_counts() -> None:
    d = with_a_second_bank()
    d.rate("TB1", current="64 A")
    situation = situation_of(d, GS1="live")
    assert through_bar_a(situation, bar(situation)) == pytest.approx(80.0)


def test_ways_that_meet_again_are_told_by_all_that_comes() -> None:
    d = with_a_second_bank()
    d.run("WC1.4", "WC3.4", "ring", poles="+", **WIRE)
    situation = situation_of(d, GS1="live")
    node = bar(situation)
    assert through_bar_a(situation, node) == taken_a(situation, node, node)


def test_a_starter_takes_nothing_for_good() -> None:
    d = batteries(2)
    d.remove("EA1")
    d.part("motor", "MA1", power="1 kW", duty="starter", **DC)
    d.run("WC1.feed", "MA1.in", "lead", poles="+", **WIRE)
    d.run("WC2.feed", "MA1.in", "back", poles="-", **WIRE)
    situation = situation_of(d)
    assert through_bar_a(situation, bar(situation)) == 0.0
    d.rate("MA1", duty="motor")
    situation = situation_of(d)
    assert through_bar_a(situation, bar(situation)) == 200.0
