"""Operating states: every permitted combination, followers at rest."""

from __future__ import annotations

import pytest

from linework.circuit import expand, free_selectors
from linework.design import Draft
from linework.design.edits import add_interlock, rate_run
from tests.designs import state_of
from tests.enumeration import all_states

RUN = {"size": "10 AWG", "length": "10 ft"}


def test_free_choices_are_multiplied() -> None:
    d = Draft(place="building")
    d.part("supply", "GS1", outage="yes")
    d.part("generator", "G1", power="5 kVA")
    d.part("transfer_switch", "QT1")
    found = all_states(expand(d.design))
    assert found.combinations == len(found.states) == 2 * 2 * 3
    assert len({state.free for state in found.states}) == 12


def test_a_supply_that_cannot_fail_is_no_choice() -> None:
    d = Draft(place="vehicle")
    d.part("supply", "GS1")
    assert free_selectors(expand(d.design)) == []
    assert len(all_states(expand(d.design)).states) == 1


def test_breakers_are_closed_unless_an_interlock_names_them() -> None:
    d = Draft(place="building")
    for name in ("QF1", "QF2"):
        d.part("breaker", name, rating="20 A")
    (only,) = all_states(expand(d.design)).states
    assert set(only.positions.values()) == {"closed"}
    lock = (("QF1", "breaker", "closed"), ("QF2", "breaker", "closed"))
    d.design.apply(add_interlock(d.design, lock))
    states = all_states(expand(d.design)).states
    pairs = {(s.positions["QF1", "breaker"], s.positions["QF2", "breaker"]) for s in states}
    assert pairs == {("closed", "open"), ("open", "closed"), ("open", "open")}


def inverter(place: str = "vehicle", **rated: str) -> Draft:
    d = Draft(place=place)
    d.part("supply", "GS1", outage="yes")
    d.part("battery", "GB1")
    d.part("inverter_charger", "TB1", power="2 kVA", neutral="relay", **rated)
    d.run("GS1.out", "TB1.ac_in", "W1", **RUN)
    d.run("GB1.dc", "TB1.dc", "W2", **RUN)
    return d


@pytest.mark.parametrize(
    ("supply", "mode", "relay"),
    [
        ("live", "on", "passing"),
        ("dead", "on", "inverting"),
        ("live", "off", "off"),
        ("dead", "off", "off"),
    ],
)
def test_a_relay_follows_its_input(supply: str, mode: str, relay: str) -> None:
    state = state_of(expand(inverter().design), GS1=supply, TB1=mode)
    assert state.positions["TB1", "relay"] == relay
    assert state.restless == ()


def test_an_input_without_its_neutral_is_not_live() -> None:
    d = inverter()
    d.design.apply(rate_run(d.design, "W1", {"broken": "N"}))
    assert state_of(expand(d.design), GS1="live", TB1="on").positions["TB1", "relay"] == "inverting"


def test_an_inverter_without_a_battery_rests() -> None:
    d = inverter()
    d.design.apply(rate_run(d.design, "W2", {"broken": "L"}))
    assert state_of(expand(d.design), GS1="dead", TB1="on").positions["TB1", "relay"] == "off"


def test_an_input_between_two_legs_is_live() -> None:
    # 240 V over two legs on a 120 V input is another mistake; live it is all the same.
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", outage="no")
    d.part("battery", "GB1")
    d.part("inverter_charger", "TB1", power="2 kVA", neutral="relay")
    d.run("GS1.out", "TB1.ac_in", poles="L1>L L2>N PE>PE", **RUN)
    d.run("GB1.dc", "TB1.dc", **RUN)
    assert state_of(expand(d.design), TB1="on").positions["TB1", "relay"] == "passing"


def test_an_inverter_does_not_follow_itself() -> None:
    # Its own output on its own input: it must not take that for shore power.
    d = Draft(place="vehicle")
    d.part("battery", "GB1")
    d.part("inverter_charger", "TB1", power="2 kVA", neutral="relay")
    d.part("junction_box", "XJ1")
    d.run("GB1.dc", "TB1.dc", **RUN)
    d.run("TB1.ac_out", "XJ1.a", **RUN)
    d.run("XJ1.b", "TB1.ac_in", **RUN)
    assert state_of(expand(d.design), TB1="on").positions["TB1", "relay"] == "inverting"


def test_two_inverters_that_chase_each_other_find_no_rest() -> None:
    d = Draft(place="vehicle")
    for n in ("1", "2"):
        d.part("battery", f"GB{n}")
        d.part("inverter_charger", f"TB{n}", power="2 kVA", neutral="relay")
        d.run(f"GB{n}.dc", f"TB{n}.dc", **RUN)
    d.run("TB1.ac_out", "TB2.ac_in", **RUN)
    d.run("TB2.ac_out", "TB1.ac_in", **RUN)
    states = all_states(expand(d.design)).states
    both = [
        s
        for s in states
        if s.passing is None and {s.positions["TB1", "mode"], s.positions["TB2", "mode"]} == {"on"}
    ]
    (found,) = both
    assert found.restless == (("TB1", "relay"), ("TB2", "relay"))


def test_what_lies_between_two_positions_is_a_state_of_its_own() -> None:
    states = all_states(expand(inverter().design)).states
    passing = [s for s in states if s.passing is not None]
    assert {s.passing for s in passing} == {("TB1", "relay")}
    between = {"looking at its input", "changing over"}
    assert {s.positions["TB1", "relay"] for s in passing} == between
