"""A house and a motor home with what people have in them now: sound, and with one mistake each."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Finding, Level
from tests.findings.banks import motorhome

SPLIT = {"circuit": "split"}
BRANCH = {"size": "12 AWG", "length": "20 ft", "installation": "house_cable"}


def dwelling() -> Draft:
    """An aluminium feeder on marked lugs; a marked main; an outlet of two halves on a two-pole
    arc-fault breaker, one by the sink on a dual-function one, a furnace that checks its ground,
    and a surge device, all by house cable."""
    d = Draft(place="building")
    d.part("supply", "GS1", breaker="100 A", prospective="8 kA", outage="no", **SPLIT)
    main = {"main": "100 A", "main_interrupting": "10 kA"}
    d.part("panel", "QP1", bus="100 A", bond="absent", places="12", **main, **SPLIT)
    marks = {"material": "aluminium", "terminals": "75", "terminal_metal": "yes"}
    d.run("GS1.out", "QP1.feed", "W1", size="1/0 AWG", length="20 ft", **marks)
    arc = {"rating": "20 A", "interrupting": "10 kA", "arc_fault": "combination"}
    d.part("breaker", "QF1", **arc, **SPLIT)
    d.part("breaker", "QF2", ground_fault="class_a", **arc)
    d.part("breaker", "QF3", rating="15 A", interrupting="10 kA")
    d.part("breaker", "QF4", rating="20 A", interrupting="10 kA", **SPLIT)
    for name, place in (("QF1", "1"), ("QF2", "2"), ("QF3", "4"), ("QF4", "5")):
        d.seat(name, "QP1", place)
    d.part("split_outlet", "XD1", tabs="hot", configuration="5-20", area="dry")
    d.run("QF1.load", "XD1.feed", "W2", poles="L1>L N PE", **BRANCH)
    d.run("QF1.load", "XD1.feed_2", "W3", poles="L2>L", **BRANCH)
    d.part("outlet", "XD2", configuration="5-20", area="kitchen")
    d.run("QF2.load", "XD2.feed", "W4", **BRANCH)
    d.part("load", "EA1", "furnace", power="600 W", checks_bond="yes")
    d.run("QF3.load", "EA1.in", "W5", **BRANCH)
    d.part("surge_device", "FA1", continuous_voltage="150 V", short_circuit="22 kA", **SPLIT)
    d.run("QF4.load", "FA1.line", "W6", size="10 AWG", length="1 ft")
    return d


def camper() -> Draft:
    """The motor home with a lithium bank that cuts out, and a socket of twelve volts."""
    d = motorhome()
    limits = {"discharge_limit": "120 A", "discharge_peak": "200 A", "charge_limit": "60 A"}
    d.rate("GB1", chemistry="lithium", **limits)
    d.part("fuse", "F10", rating="15 A", type="class_t", interrupting="20 kA")
    d.run("QB1.load", "F10.line", "W60", size="8 AWG", length="1 ft")
    d.part("outlet", "XD8", circuit="dc", configuration="12V socket", area="dry")
    d.run("F10.load", "XD8.feed", "W61", size="10 AWG", length="6 ft")
    d.part("plug_load", "EP8", circuit="dc", power="60 W", configuration="12V socket")
    d.seat("EP8", "XD8", "face")
    return d


def serious(draft: Draft) -> list[Finding]:
    """Dangers and warnings that stand by themselves, in the order shown."""
    return [f for f in analyse(draft.design).findings if f.level > Level.NOTE]


@pytest.mark.parametrize("draw", [dwelling, camper])
def test_it_is_sound(draw: Callable[[], Draft]) -> None:
    found = analyse(draw().design)
    assert [(f.rule, f.message) for f in found.findings if f.level > Level.NOTE] == []
    assert found.gaps == ()
    assert found.sound


@pytest.mark.parametrize(
    ("part", "rated", "rule"),
    [
        ("QP1", {"main_interrupting": "6 kA"}, "interrupting-too-low"),
        ("QF2", {"ground_fault": None}, "gfci-missing"),
        ("QF1", {"rating": "25 A"}, "device-above-ampacity"),
        ("FA1", {"continuous_voltage": "125 V"}, "surge-device-wrong"),
        ("FA1", {"short_circuit": "1 kA"}, "surge-device-wrong"),
        ("QF3", {"rating": "30 A"}, "device-above-ampacity"),
    ],
)
def test_a_mistake_at_a_part_of_the_house(part: str, rated: dict, rule: str) -> None:
    d = dwelling()
    d.rate(part, **rated)
    found = serious(d)
    assert found[0].rule == rule
    # a breaker that is too large is so for each of its two cables and their neutral
    assert len(found) <= (3 if part == "QF1" else 1)


@pytest.mark.parametrize(
    ("run", "rated", "rule"),
    [
        ("W1", {"terminal_metal": "no"}, "aluminium-terminals"),
        ("W1", {"size": "4 AWG"}, "device-above-ampacity"),
        ("W2", {"size": "14 AWG"}, "device-above-ampacity"),
        ("W4", {"grouped": "12"}, "device-above-ampacity"),
    ],
)
def test_a_mistake_at_a_wire_of_the_house(run: str, rated: dict, rule: str) -> None:
    d = dwelling()
    d.rate_run(run, **rated)
    assert serious(d)[0].rule == rule


def test_a_furnace_without_its_ground_wire() -> None:
    d = dwelling()
    d.rate_run("W5", broken="PE")
    (first,) = serious(d)
    assert first.rule == "ground-open"
    assert "load-refuses-source" in {f.rule for f in first.consequences}


@pytest.mark.parametrize(
    ("part", "rated", "rule"),
    [
        ("GB1", {"discharge_limit": "30 A"}, "battery-cuts-out"),
        ("GB1", {"charge_limit": "40 A"}, "battery-cuts-out"),
        ("F10", {"rating": "30 A"}, "rating-exceeded"),
        ("EP8", {"configuration": "5-15"}, "same-outlet-two-systems"),
    ],
)
def test_a_mistake_in_the_motor_home(part: str, rated: dict, rule: str) -> None:
    d = camper()
    d.rate(part, **rated)
    assert serious(d)[0].rule == rule
