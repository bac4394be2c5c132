"""How batteries share what is asked of them, by hand."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.loads.cutting_out import Asked, asked_of_batteries, charging_a
from linework.study.loads.loaded import loaded
from tests.designs import situation_of

THICK = {"size": "4/0 AWG", "length": "0.01 ft"}


def winch(string: bool) -> Draft:
    """Two batteries of 3 and 1 kA, side by side or as a string, and a winch that starts with
    100 A."""
    d = Draft(place="vehicle")
    d.part("battery", "GB1", fault_current="3 kA")
    d.part("battery", "GB2", fault_current="1 kA")
    volts = "24 V" if string else "12 V"
    rated = {"circuit": "dc", "voltage": volts, "duty": "brief"}
    d.part("motor", "MA1", power="1.2 W", start_current="100 A", **rated)
    if string:
        d.run("GB1.dc", "GB2.dc", "W1", poles="->+", **THICK)
        d.run("GB1.dc", "MA1.in", "W2", poles="+", **THICK)
        d.run("GB2.dc", "MA1.in", "W3", poles="-", **THICK)
    else:
        d.run("GB1.dc", "GB2.dc", "W1", **THICK)
        d.run("GB1.dc", "MA1.in", "W2", **THICK)
    return d


def asked(d: Draft) -> dict[str, Asked]:
    situation = situation_of(d)
    found = asked_of_batteries(situation, loaded(situation))
    return {situation.circuit.sources[each.battery].owner: each for each in found}


def test_side_by_side_they_share_as_their_resistances() -> None:
    """12 V over 3 and 1 kA are 4 and 12 milliohm: three quarters and one."""
    found = asked(winch(string=False))
    assert found["GB1"].amps == pytest.approx(75.0, rel=0.02)
    assert found["GB2"].amps == pytest.approx(25.0, rel=0.04)
    assert {(each.by, each.seconds) for each in found.values()} == {(("MA1",), True)}


def test_in_a_string_each_gives_all() -> None:
    found = asked(winch(string=True))
    for battery in ("GB1", "GB2"):
        assert found[battery].amps == pytest.approx(100.0, rel=0.01)


def test_chargers_add_up_on_a_battery() -> None:
    d = Draft(place="vehicle")
    d.part("battery", "GB1", fault_current="3 kA")
    d.part("supply", "GS1", breaker="30 A", outage="no")
    for n, amps in (("1", "20 A"), ("2", "30 A")):
        d.part("charger", f"TB{n}", current=amps)
        d.run("GS1.out", f"TB{n}.ac_in", f"A{n}", size="10 AWG", length="5 ft")
        d.run(f"TB{n}.dc", "GB1.dc", f"B{n}", size="6 AWG", length="3 ft")
    assert list(charging_a(situation_of(d)).values()) == [pytest.approx(50.0, rel=1e-3)]
