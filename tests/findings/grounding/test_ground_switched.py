"""A ground wire that a device can open."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import camp, levels
from tests.findings.told import found, number

RULE = "ground-switched"


def through(device: str, second: bool = False) -> Draft:
    """The ground wire of the load of a camp goes through a device; the live wires do not."""
    d = camp()
    d.run_poles("W2", "L N")
    d.part(device, "QX1", circuit="ac", rating="20 A")
    d.run("QP1.ground", "QX1.line", "W8", poles="PE>L", size="12 AWG", length="1 ft")
    d.run("QX1.load", "EA1.in", "W9", poles="L>PE", size="12 AWG", length="20 ft")
    if second:
        d.run("QP1.ground", "EA1.in", "W10", poles="PE", size="12 AWG", length="20 ft")
    return d


@pytest.mark.parametrize("device", ["breaker", "fuse", "isolator"])
def test_a_device_in_a_ground_wire_is_a_danger(device: str) -> None:
    """NFPA 70 (2023) 250.124(B): no disconnecting means in it that leaves the live wires closed."""
    (hit,) = found(through(device), RULE)
    assert (hit.subjects, hit.level) == (("QX1",), Level.DANGER)
    assert number(hit, "metal parts concerned") == 1.0
    assert number(hit, "voltage that metal can take") == 120.0


def test_a_second_wire_past_it_leaves_nothing_to_open() -> None:
    assert levels(through("breaker", second=True), RULE) == {}


def test_a_switch_that_opens_all_live_conductors_leaves_ground_alone() -> None:
    d = camp()
    d.part("isolator", "QS1", poles="all")
    d.run("QF2.load", "QS1.line", "W8", size="12 AWG", length="1 ft")
    assert levels(d, RULE) == {}


def test_plugs_and_inlets_are_allowed() -> None:
    """Their ground contact parts last (250.124(A))."""
    d = camp()
    d.part("plug", "XP1", configuration="5-20")
    d.seat("XP1", "XD1", "face")
    d.part("load", "EA2", power="100 W")
    d.run("XP1.cord", "EA2.in", "W8", size="14 AWG", length="6 ft", installation="cord")
    assert levels(d, RULE) == {}


def test_of_metal_that_nothing_feeds_nothing_is_said() -> None:
    d = through("breaker")
    d.cut("W2")
    assert levels(d, RULE) == {}
