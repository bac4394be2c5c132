"""Banks, chargers and arrays as owners ask about them."""

from __future__ import annotations

import pytest

from tests.cases.asked import Asked, told
from tests.trial.rigs.sheet import Sheet, dc

SUN = {"insulation": "90"}
MODULE = {"voc": "24 V", "isc": "6 A", "vmp": "20 V", "imp": "5.6 A", "voc_per_degree": "-0.3 %"}


def bank(volts: int, place: str, gauge: str = "2", amps: int = 100, **battery: str) -> Sheet:
    """Battery GB1, its fuse F1, switch QB1, minus bar WC2 that meets the body XB1 once."""
    d = Sheet(place=place)
    d.battery("GB1", volts, 200, "lithium", 4)
    d.rate("GB1", **battery)
    d.class_t("F1", amps)
    d.lead("GB1.dc", "F1.line", "W1", gauge, 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="60 V")
    d.lead("F1.load", "QB1.line", "W2", gauge, 1, "+")
    d.part("busbar", "WC2", bar="minus", rating="250 A", taps="10")
    d.lead("GB1.dc", "WC2.feed", "W3", gauge, 2, "-")
    d.part("body", "XB1", name="engine" if place == "boat" else "chassis")
    d.jumper("WC2.9", "XB1.tie", "WB0", gauge, 2, "->body")
    return d


def fused(
    d: Sheet, n: int, plus: str, to: str, tap: str, gauge: str = "10", amps: int = 30
) -> None:
    """A fuse and a pair of wires from a stud to a terminal."""
    d.class_t(f"F{n}", amps)
    d.wire(plus, f"F{n}.line", f"W{n}0", gauge, 0.5, "+")
    d.wire(f"F{n}.load", to, f"W{n}1", gauge, 6, "+")
    d.wire(tap, to, f"W{n}2", gauge, 6, "-")


def lamp(d: Sheet, volts: int = 12, watts: int = 60) -> Sheet:
    """A lamp behind the battery switch."""
    d.part("lamp", "EL1", power=f"{watts} W", **dc(f"{volts} V"))
    fused(d, 5, "QB1.load", "EL1.in", "WC2.5")
    return d


def array(d: Sheet, name: str, series: int, place: str = "QB9.line", **more: str) -> None:
    """Modules wired to a switch or input."""
    d.part("solar_array", name, series=str(series), coldest="-20 degC", **(MODULE | more))
    d.wire(f"{name}.dc", place, f"WR{name}", "10", 12, **SUN)


def roof(series: int = 1, volts: int = 12, strings: int = 1, **more: str) -> Sheet:
    """A van with an array, its switch, a controller behind a fuse, and a lamp."""
    d = lamp(bank(volts, "vehicle"), volts)
    d.part("isolator", "QB9", circuit="dc", rating="63 A", voltage="250 V", direct="yes")
    array(d, "GP1", series, strings=str(strings), **more)
    d.part("solar_controller", "TC1", dc_voltage=f"{volts} V", current="20 A")
    d.rate("TC1", pv_voltage="150 V", pv_current="60 A")
    d.wire("QB9.load", "TC1.pv", "WR2", "10", 3, **SUN)
    fused(d, 6, "QB1.load", "TC1.dc", "WC2.6")
    d.jumper("GP1.frame", "TC1.case", "WB1", "8", 14)
    d.jumper("TC1.case", "XB1.tie", "WB2", "8", 2)
    return d


def radio_on_half(equalizer: bool = False) -> Sheet:
    """A boat on two blocks of 12 V; a radio of 60 W hangs on the lower, behind a switch."""
    d = bank(12, "boat", capacity="100 Ah", chemistry="agm")
    d.cut("W3")
    d.battery("GB2", 12, 100, "agm", 3)
    d.lead("GB1.dc", "GB2.dc", "WJ", "2", 1, "->+")
    d.lead("GB2.dc", "WC2.feed", "W3", "2", 2, "-")
    lamp(d, 24)
    d.part("battery_disconnect", "QB2", rating="100 A", voltage="32 V")
    d.part("load", "EA1", "radio", power="60 W", **dc("12 V"))
    d.class_t("F2", 30)
    d.wire("GB2.dc", "F2.line", "W20", "10", 0.5, "+")
    d.wire("F2.load", "QB2.line", "W21", "10", 1, "+")
    d.wire("QB2.load", "EA1.in", "W22", "10", 6, "+")
    d.wire("WC2.1", "EA1.in", "W23", "10", 6, "-")
    if equalizer:
        d.part("dc_charger", "TB1", "equalizer", in_voltage="24 V", current="20 A", holds="half")
        fused(d, 3, "QB1.load", "TB1.dc_in", "WC2.2", amps=20)
        d.class_t("F4", 30)
        d.wire("GB2.dc", "F4.line", "W40", "10", 0.5, "+")
        d.wire("F4.load", "TB1.dc", "W41", "10", 4, "+")
    return d


def converter(watts: int) -> Sheet:
    """A boat on 24 V with loads of 12 V on a converter of 30 A, without a battery there."""
    d = lamp(bank(24, "boat"), 24)
    d.part("dc_charger", "TB1", in_voltage="24 V", current="30 A")
    fused(d, 2, "QB1.load", "TB1.dc_in", "WC2.1")
    d.part("panel", "QP1", bus="60 A", places="4", bond="absent", **dc("12 V"))
    d.wire("TB1.dc", "QP1.feed", "W30", "8", 3)
    for n in (1, 2, 3):
        d.blade(f"F1{n}", "QP1", str(n), 15)
        d.part("load", f"EA{n}", power=f"{watts / 3:.0f} W", **dc("12 V"))
        d.wire(f"F1{n}.load", f"EA{n}.in", f"W3{n}", "12", 8)
    return d


def two_by_two(second: str) -> Sheet:
    """Two strings of two blocks on 24 V; ``second``: how the link of the second is wired."""
    d = Sheet(place="field")
    for n in (1, 2, 3, 4):
        d.battery(f"GB{n}", 12, 40, "agm", 1)
    d.lead("GB1.dc", "GB2.dc", "WJ1", "2", 1, "->+")
    d.lead("GB3.dc", "GB4.dc", "WJ2", "2", 1, second)
    for bar in ("plus", "minus"):
        d.part("busbar", "WC1" if bar == "plus" else "WC2", bar=bar, rating="200 A", taps="4")
    for n, (top, low) in enumerate((("GB1", "GB2"), ("GB3", "GB4")), start=1):
        d.class_t(f"F{n}", 100)
        d.part("battery_disconnect", f"QB{n}", rating="200 A", voltage="48 V")
        d.lead(f"{top}.dc", f"F{n}.line", f"W{n}0", "2", 0.5, "+")
        d.lead(f"F{n}.load", f"QB{n}.line", f"W{n}1", "2", 1, "+")
        d.lead(f"QB{n}.load", f"WC1.{n}", f"W{n}2", "2", 1, "+")
        d.lead(f"{low}.dc", f"WC2.{n}", f"W{n}3", "2", 1, "-")
    d.part("load", "EA1", power="200 W", **dc("24 V"))
    fused(d, 5, "WC1.3", "EA1.in", "WC2.3")
    return d


def straight_on_the_battery() -> Sheet:
    """A module of 6 A on 200 Ah without a controller: 3 % are 6 A; another beside it."""
    d = roof()
    d.remove("TC1", "F6")
    d.jumper("GP1.frame", "XB1.tie", "WB1", "8", 14)
    d.class_t("F6", 20)
    d.wire("QB1.load", "F6.line", "W60", "10", 0.5, "+")
    d.wire("F6.load", "QB9.load", "W61", "10", 6, "+", **SUN)
    d.wire("WC2.6", "QB9.load", "W62", "10", 6, "-", **SUN)
    return d


def two_straight_on_the_battery() -> Sheet:
    d = straight_on_the_battery()
    array(d, "GP2", 1)
    d.jumper("GP2.frame", "GP1.frame", "WB3", "8", 3)
    return d


def unlike_strings() -> Sheet:
    d = roof(2)
    array(d, "GP2", 1)
    d.jumper("GP2.frame", "GP1.frame", "WB3", "8", 3)
    return d


def strings(number: int) -> Sheet:
    """Strings of 6 A whose plate allows 10 A, without fuses."""
    return roof(2, strings=number, largest_fuse="10 A") if number < 3 else _thick(number)


def _thick(number: int) -> Sheet:
    d = roof(2, strings=number, largest_fuse="10 A")
    for run in ("WRGP1", "WR2"):
        d.rate_run(run, size="6 AWG")
    d.rate("TC1", current="70 A")
    d.rate("F6", rating="100 A")
    for run in ("W60", "W61", "W62"):
        d.rate_run(run, size="2 AWG", terminals="75", insulation="90")
    d.rate_run("WB2", size="4 AWG")
    return d


def pump_on_the_sun(most: str) -> Sheet:
    """Two modules straight on a pump: 54 V in the cold."""
    d = Sheet(place="field")
    d.part("isolator", "QB9", circuit="dc", rating="32 A", voltage="150 V", direct="yes")
    array(d, "GP1", 2)
    d.part("motor", "MA1", "pump", power="200 W", start_current="20 A", **dc("40 V"))
    d.rate("MA1", most_voltage=most, case="insulated")
    d.wire("QB9.load", "MA1.in", "W2", "10", 20, **SUN)
    return d


def relay(fuses: int) -> Sheet:
    """A starting and a house battery on a charge relay, the lead fused at one end or both."""
    d = lamp(bank(12, "vehicle", chemistry="agm"))
    d.battery("GB2", 12, 90, "flooded", 3)
    d.lead("GB2.dc", "WC2.1", "W20", "2", 3, "-")
    d.part("charge_relay", "K1", rating="140 A")
    d.class_t("F2", 100)
    d.lead("GB2.dc", "F2.line", "W21", "2", 0.5, "+")
    d.lead("F2.load", "K1.line", "W22", "2", 6, "+")
    if fuses == 2:
        d.class_t("F3", 100)
        d.lead("GB1.dc", "F3.line", "W23", "2", 0.5, "+")
        d.lead("F3.load", "K1.load", "W24", "2", 6, "+")
    else:
        d.lead("GB1.dc", "K1.load", "W24", "2", 6, "+")
    return d


def station_on_a_battery() -> Sheet:
    d = lamp(bank(12, "vehicle"))
    d.part("power_station", "GB8", power="1 kVA", neutral="floating", outlets="1")
    fused(d, 2, "QB1.load", "GB8.dc_out", "WC2.1", "12", 15)
    return d


def ring_of_chargers() -> Sheet:
    """A charger each way between a starting battery of 12 V and a house bank of 24 V."""
    d = lamp(bank(24, "vehicle"), 24)
    d.battery("GB2", 12, 90, "flooded", 3)
    d.lead("GB2.dc", "WC2.1", "W90", "2", 3, "-")
    for n, (volts, made, come, go) in enumerate(
        (("12 V", "24 V", "GB2.dc", "QB1.load"), ("24 V", "12 V", "QB1.load", "GB2.dc")), start=1
    ):
        d.part("dc_charger", f"TB{n}", in_voltage=volts, dc_voltage=made, current="10 A")
        fused(d, n + 1, come, f"TB{n}.dc_in", f"WC2.{n + 1}", "8", 40)
        fused(d, n + 5, go, f"TB{n}.dc", f"WC2.{n + 5}", "8", 20)
        d.jumper(f"TB{n}.case", "XB1.tie", f"WB{n}", "8", 2)
    return d


def bilge_pump_before_the_switch() -> Sheet:
    d = lamp(bank(12, "boat"))
    d.part("motor", "MA1", "bilge pump", power="80 W", start_current="20 A", **dc("12 V"))
    d.rate("MA1", critical="yes")
    fused(d, 2, "GB1.dc", "MA1.in", "WC2.1", amps=15)
    return d


ASKED: dict[str, Asked] = {
    "radio on one of two blocks": (radio_on_half, {("bank-tapped", "warning", "EA1")}),
    "an equalizer for it": (lambda: radio_on_half(True), set()),
    "converter without a battery": (lambda: converter(300), set()),
    "too much on it": (lambda: converter(450), {("source-overloaded", "warning", "TB1")}),
    "two by two": (lambda: two_by_two("->+"), set()),
    "a link on the wrong post": (
        lambda: two_by_two("+>+"),
        {("batteries-unlike", "danger", "GB1"), ("load-never-fed", "warning", "GB3")},
    ),
    "module and controller": (roof, set()),
    # with the switch open the lamp hangs on the array alone
    "module on the battery": (
        straight_on_the_battery,
        {("string-voltage-high", "danger", "GP1")},
    ),
    "two of them": (two_straight_on_the_battery, {("array-uncontrolled", "danger", "GP1")}),
    "unlike strings": (unlike_strings, {("arrays-unlike", "warning", "GP2")}),
    "two strings": (lambda: strings(2), set()),
    "three strings": (lambda: strings(3), {("string-unfused", "warning", "GP1")}),
    "pump made for it": (lambda: pump_on_the_sun("60 V"), set()),
    "pump made for less": (
        lambda: pump_on_the_sun("50 V"),
        {("string-voltage-high", "danger", "GP1")},
    ),
    "relay fused at both ends": (lambda: relay(2), set()),
    "relay fused at one end": (lambda: relay(1), {("run-unprotected", "danger", "W24")}),
    "station beside a battery": (station_on_a_battery, {("sources-meet", "warning", "GB8")}),
    "a charger each way": (
        ring_of_chargers,
        {("charger-loop", "warning", "TB1"), ("charger-loop", "warning", "TB2")},
    ),
    "bilge pump before the switch": (bilge_pump_before_the_switch, set()),
}


@pytest.mark.parametrize("name", ASKED)
def test_what_an_expert_would_tell_and_no_more(name: str) -> None:
    draw, expected = ASKED[name]
    assert told(draw()) == expected
