"""A portable power station: cords and a tool, a caravan's inlet; sound, and with one mistake."""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.test_enumeration import assert_as_enumerated
from tests.findings.test_windings import told
from tests.findings.told import found

CORD = {"size": "12 AWG", "installation": "cord"}


def on_a_tool(load: str = "900 W", neutral: str = "floating") -> Draft:
    """A tool on a cord in one of its outlets."""
    d = Draft(place="field")
    d.part("power_station", "GB1", power="1.8 kVA", neutral=neutral)
    d.part("outlet", "XD1", configuration="5-15")
    d.seat("XD1", "GB1", "1")
    d.part("plug", "XP1", configuration="5-15")
    d.seat("XP1", "XD1", "face")
    d.part("load", "EA1", power=load)
    d.run("XP1.cord", "EA1.in", "c", length="25 ft", **CORD)
    return d


def on_a_caravan(neutral: str = "bonded", second: str = "absent") -> Draft:
    """A caravan's cord in its outlet."""
    d = Draft(place="recreational")
    d.part("power_station", "GB1", power="3.6 kVA", neutral=neutral)
    d.part("outlet", "XD1", configuration="TT-30")
    d.seat("XD1", "GB1", "1")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration="TT-30")
    d.run("XP1.cord", "XI1.outside", "c", length="25 ft", size="10 AWG", installation="cord")
    d.part("panel", "QP1", main="30 A", bond=second)
    d.run("XI1.inside", "QP1.feed", "f", size="10 AWG", length="3 ft")
    d.part("body", "XB1", name="chassis")
    d.run("QP1.ground", "XB1.tie", "s", size="8 AWG", length="2 ft", installation="jumper")
    d.part("breaker", "QF1", rating="15 A")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="700 W")
    d.run("QF1.load", "EA1.in", "m", size="14 AWG", length="15 ft")
    return d


def test_a_tool_on_a_floating_station_is_sound() -> None:
    assert told(on_a_tool()) == set()
    notes = found(on_a_tool(), "bond-missing")
    assert [f.level for f in notes] == [Level.NOTE]


def test_a_load_above_its_rating() -> None:
    assert ("source-overloaded", ("GB1",)) in told(on_a_tool("2400 W"))


def test_a_caravan_on_a_bonded_station_is_sound() -> None:
    assert told(on_a_caravan()) == set()


def test_a_caravan_on_a_floating_station_has_no_link() -> None:
    assert ("bond-missing", ("GB1",)) in told(on_a_caravan("floating"))


def test_a_second_link_in_the_caravan() -> None:
    assert "bond-doubled" in {rule for rule, _ in told(on_a_caravan(second="fitted"))}


def test_its_live_circuits_are_those_of_all_states() -> None:
    assert_as_enumerated(on_a_caravan().design)
