"""A charger on the circuits of the inverter of the battery that it charges."""

from __future__ import annotations

import pytest

from linework.design import Draft
from tests.findings.banks import van, with_inverter
from tests.findings.told import found, number, places

RULE = "charger-loop"


def looped(feed: str = "QF2.load") -> Draft:
    """A 20 A charger on the inverter's board."""
    d = with_inverter(van())
    d.part("breaker", "QF2", rating="15 A", interrupting="10 kA")
    d.seat("QF2", "QP1", "2")
    d.part("charger", "TB2", current="20 A", efficiency="85 %")
    d.run("TB2.dc", "QB1.load", "W31", size="8 AWG", length="1 ft")
    if feed == "shore":
        d.part("supply", "GS1", breaker="15 A")
        feed = "GS1.out"
    d.run(feed, "TB2.ac_in", "W30", size="14 AWG", length="4 ft")
    return d


def test_a_charger_on_its_own_inverter_goes_round() -> None:
    (hit,) = found(looped(), RULE)
    assert hit.subjects == ("TB2",)
    assert hit.message == (
        "TB2 charges GB1, which feeds it through TB1: the battery empties itself by what both of"
        " them lose."
    )
    # By hand: 20 A at the end of charging, 13.5 V, over 85 %.
    assert number(hit, "power that goes round") == pytest.approx(20.0 * 13.5 / 0.85, rel=1e-3)


def test_a_charger_on_a_shore_circuit_does_not() -> None:
    assert found(looped("shore"), RULE) == []


def test_an_inverter_on_another_battery_does_not() -> None:
    d = looped()
    d.cut("W31")
    d.part("battery", "GB2", capacity="100 Ah")
    d.run("TB2.dc", "GB2.dc", "W31", size="8 AWG", length="1 ft")
    assert found(d, RULE) == []


def test_it_holds_only_while_the_inverter_runs() -> None:
    """A public page on fitting inverters to recreational vehicles (klenger.powweb.com
    RV_General/Electrical_Inverter): the converter on the board of a vehicle that is fed by its own
    inverter through a transfer switch; on shore it is sound."""
    d = Draft(place="recreational")
    d.part("battery", "GB1", voltage="12 V", capacity="200 Ah", fault_current="6 kA")
    d.part("inverter", "TB1", power="2000 VA", dc_voltage="12 V", neutral="bonded")
    d.run("GB1.dc", "TB1.dc", "d", size="2/0 AWG", length="4 ft")
    d.part("supply", "GS1", breaker="30 A")
    d.part("transfer_switch", "QT1", poles="all", first="shore", second="inverter")
    d.run("GS1.out", "QT1.in1", "s", size="10 AWG", length="25 ft")
    d.run("TB1.ac_out", "QT1.in2", "a", size="10 AWG", length="8 ft")
    d.part("panel", "QP1", main="30 A", bond="absent")
    d.run("QT1.load", "QP1.feed", "p", size="10 AWG", length="8 ft")
    d.part("breaker", "QF1", rating="15 A")
    d.seat("QF1", "QP1", "1")
    d.part("charger", "TB2", current="55 A")
    d.run("QF1.load", "TB2.ac_in", "c", size="14 AWG", length="6 ft")
    d.run("TB2.dc", "GB1.dc", "b", size="6 AWG", length="6 ft")
    (hit,) = found(d, RULE)
    assert hit.subjects == ("TB2",)
    assert hit.states == ("QT1=inverter TB1=on",)
    assert places(d, "sources-meet") == set()


def test_an_inverter_charger_switches_its_own_charger_off() -> None:
    d = van()
    d.part("inverter_charger", "TB1", power="1 kVA", neutral="relay")
    d.run("QB1.load", "TB1.dc", "W20", size="4/0 AWG", length="1 ft")
    d.part("junction_box", "XJ1")
    d.run("TB1.ac_out", "XJ1.a", "W21", size="12 AWG", length="1 ft")
    d.run("XJ1.b", "TB1.ac_in", "W22", size="12 AWG", length="1 ft")
    (hit,) = found(d, RULE)
    assert "its own output back at its input" in hit.message  # no power goes round its charger


def plugged(*outlets: str, onto: str = "inverter_charger") -> Draft:
    """A camper's inverter-charger, the cord of its inlet plugged into these outlets in turn: XD1 on
    its own board, XD9 of a site."""
    d = Draft(place="recreational")
    d.part("battery", "GB1", voltage="12 V", capacity="400 Ah", fault_current="4 kA")
    d.part(onto, "TB1", power="2 kVA", neutral="relay")
    d.run("GB1.dc", "TB1.dc", "A", length="2 ft", size="4/0 AWG")
    d.part("panel", "QP1", main="30 A", bond="absent")
    d.run("TB1.ac_out", "QP1.feed", "W1", size="10 AWG", length="4 ft")
    d.part("breaker", "QF1", rating="20 A")
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", configuration="5-20")
    d.run("QF1.load", "XD1.feed", "W2", size="12 AWG", length="10 ft")
    d.part("supply", "GS1", breaker="20 A", outage="no")
    d.part("outlet", "XD9", configuration="5-20")
    d.seat("XD9", "GS1", "1")
    d.part("inlet", "XI1", configuration="5-20")
    d.run("XI1.inside", "TB1.ac_in", "W3", size="12 AWG", length="4 ft")
    d.part("plug", "XP1", configuration="5-20")
    for outlet in outlets:
        d.seat("XP1", outlet, "face")
    d.run("XP1.cord", "XI1.outside", "c", length="20 ft", size="12 AWG", installation="cord")
    return d


@pytest.mark.parametrize("kind", ["inverter_charger", "hybrid_inverter"])
def test_one_that_is_plugged_into_its_own_board(kind: str) -> None:
    assert found(plugged("XD9", onto=kind), RULE) == []
    (hit,) = found(plugged("XD1", "XD9", onto=kind), RULE)
    assert hit.subjects == ("TB1",)
    assert "by W1, W2, W3 and c:" in hit.message
    assert all("XP1" in state for state in hit.states)


def test_a_controller_that_joins_plus_through_is_not_fed_by_its_battery() -> None:
    """Its array has the battery's plus, and a minus of its own."""
    d = van()
    d.rate("TC1", common="plus", type="pwm")
    assert found(d, RULE) == []
    d.run("QB2.load", "GB1.dc", "W30", poles="-", size="10 AWG", length="6 ft")
    (hit,) = found(d, RULE)  # now the battery lies across what it is charged from
    assert hit.message.startswith("TC1 takes its power from GB1, which it charges:")
