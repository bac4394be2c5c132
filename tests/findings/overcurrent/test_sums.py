"""device-above-ampacity: what several sources let into one conductor adds up."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from linework.findings.overcurrent import _bounds, _sums
from tests.findings.banks import van
from tests.findings.told import cured, found, number, places, praise
from tests.study.ways.test_sums import DC, batteries

RULE = "device-above-ampacity"


def at(draft: Draft) -> set[tuple[str, ...]]:
    return places(draft, RULE)


def bank(number: int = 3, place: str = "building", **run: str) -> Draft:
    """Batteries with a fuse of 60 A each on a lead of 40 ft; 4 AWG carries 85 A at 75 C, which
    circuits above 100 A are made for (table 310.16, 110.14(C)(1)), and 90 A may protect it."""
    d = batteries(number, "60 A", place=place)
    d.rate_run("lead", **({"length": "40 ft"} | run))
    d.rate_run("back", length="40 ft", size="4/0 AWG")
    return d


def test_three_batteries_on_one_lead_are_one_finding() -> None:
    (finding,) = found(bank(), RULE)
    assert finding.subjects == ("lead",)
    assert finding.level is Level.DANGER
    assert number(finding, "comes together") == 180.0
    assert number(finding, "largest allowed") == 90.0
    assert "F1, F2 and F3" in finding.message


def test_one_of_them_alone_is_silent() -> None:
    assert at(bank(1)) == set()


def test_a_lead_thick_enough_for_all_is_silent() -> None:
    # 3/0 AWG carries 200 A at 75 C, 2/0 AWG 175 A: 175 A is a standard rating
    assert at(bank(size="3/0 AWG")) == set()
    assert at(bank(size="2/0 AWG")) == {("lead",)}


def test_the_common_minus_carries_what_all_let_through() -> None:
    d = bank(size="3/0 AWG")
    d.rate_run("back", size="4 AWG")
    (finding,) = found(d, RULE)
    assert finding.subjects == ("back",)
    assert "F1, F2 and F3" in finding.message
    assert at(bank(1, size="4 AWG")) == set()


def test_each_own_lead_is_held_by_its_own_fuse_and_why_is_said() -> None:
    d = bank()
    d.rate_run("q1", length="30 ft")
    told = {item.subjects: item.message for item in praise(d, RULE)}
    assert "F2 and F3 together let 120 A into q1" in told["q1",]
    assert "F1 at its end" in told["q1",]


def test_a_fuse_at_the_beginning_of_the_lead_is_silent_and_is_the_mend() -> None:
    d = bank()
    (finding,) = found(d, RULE)
    after = cured(d, finding)
    assert not [f for f in after.findings if f.rule == RULE]
    fuses = {part.ratings["rating"] for part in d.design.parts if part.kind == "fuse"}
    assert fuses == {"60 A", "70 A"}


def test_where_the_load_needs_more_the_mend_is_a_thicker_run() -> None:
    d = bank()
    d.rate("EA1", power="1440 W")
    (finding,) = found(d, RULE)
    assert finding.mend is not None
    assert "3/0 AWG" in finding.mend.title


def test_a_lead_of_which_one_fuse_alone_is_too_large_is_told_once() -> None:
    d = bank()
    for n in (1, 2, 3):
        d.rate(f"F{n}", rating="100 A")
    assert {f.subjects for f in found(d, RULE) if "lead" in f.subjects} == {("lead",)}


@pytest.mark.parametrize(("plus", "minus", "thin"), [("4", "4/0", "lead"), ("4/0", "4", "back")])
def test_switches_that_leave_one_battery_are_told_in_the_same_finding(
    plus: str, minus: str, thin: str
) -> None:
    d = Draft(place="building", voltage="12 V")
    d.part("busbar", "WC1", bar="plus", rating="400 A", taps="6")
    d.part("busbar", "WC2", bar="minus", rating="400 A", taps="6")
    for n in (1, 2):
        d.part("battery", f"GB{n}", fault_current="3 kA")
        d.part("fuse", f"F{n}", rating="100 A", type="class_t")
        d.part("battery_disconnect", f"QB{n}", rating="200 A", voltage="48 V")
        d.run(f"GB{n}.dc", f"F{n}.line", f"p{n}", poles="+", size="2/0 AWG", length="1 ft")
        d.run(f"F{n}.load", f"QB{n}.line", f"q{n}", poles="+", size="2/0 AWG", length="1 ft")
        d.run(f"QB{n}.load", f"WC1.{n}", f"r{n}", poles="+", size="2/0 AWG", length="1 ft")
        d.run(f"GB{n}.dc", f"WC2.{n}", f"m{n}", poles="-", size="2/0 AWG", length="1 ft")
    d.part("load", "EA1", power="240 W", **DC)
    d.run("WC1.feed", "EA1.in", "lead", poles="+", size=f"{plus} AWG", length="40 ft")
    d.run("WC2.feed", "EA1.in", "back", poles="-", size=f"{minus} AWG", length="40 ft")
    (finding,) = found(d, RULE)
    assert finding.subjects == (thin,)
    figure = "comes together" if thin == "lead" else "device"
    assert number(finding, figure) == 200.0
    assert finding.standing is None or len(finding.standing.cubes) >= 2


@pytest.mark.parametrize(("length", "hit"), [("7 in", False), ("3 ft", True)])
def test_aboard_a_short_lead_may_end_at_a_fuse_small_enough(length: str, hit: bool) -> None:
    # ABYC E-11: 7 inches; the fuse behind is 60 A, 4 AWG carries 160 A in the table for boats
    d = batteries(3, "100 A", lead="60 A", place="boat")
    d.rate_run("before", length=length)
    assert (("before",) in at(d)) is hit


def test_a_tap_in_a_cabin_may_end_at_a_fuse_small_enough() -> None:
    # 240.21(B)(1): 10 ft, and a tenth of what is before it
    d = batteries(3, "100 A", lead="60 A", place="building")
    for run, length in (("before", "9 ft"), ("p1", "1 ft")):
        d.rate_run(run, length=length)
    assert ("before",) not in at(d)
    d.rate_run("before", length="30 ft")
    assert ("before",) in at(d)


def chargers(number: int) -> Draft:
    """Chargers of 50 A on a bar of their own, which one cable of 4 AWG and 20 ft joins to a fused
    battery, with a fuse of 70 A at the battery's end."""
    d = batteries(1, "200 A", place="building")
    for run in ("p1", "q1", "m1", "lead", "back"):
        d.rate_run(run, size="250 kcmil")
    d.part("busbar", "WC3", bar="plus", rating="400 A", taps="6")
    for n in range(1, number + 1):
        d.part("supply", f"GS{n}", breaker="20 A")
        d.part("charger", f"TB{n}", current="50 A")
        d.run(f"GS{n}.out", f"TB{n}.ac_in", f"s{n}", size="12 AWG", length="5 ft")
        d.run(f"TB{n}.dc", f"WC3.{n}", f"t{n}", poles="+", size="4 AWG", length="2 ft")
        d.run(f"TB{n}.dc", f"WC2.{n + 1}", f"u{n}", poles="-", size="4 AWG", length="2 ft")
    d.part("fuse", "F8", rating="70 A", type="class_t")
    d.run("WC1.2", "F8.line", "link", poles="+", size="4 AWG", length="1 ft")
    d.run("F8.load", "WC3.feed", "thin", poles="+", size="4 AWG", length="20 ft")
    return d


def test_a_short_in_the_lead_of_one_charger_is_fed_by_the_others() -> None:
    # 70 A of the fuse and 125 % of 50 A of each other charger into 4 AWG, which allows 90 A
    assert at(chargers(3)) == {("t1",), ("t2",), ("t3",)}
    assert at(chargers(1)) == set()


def test_arrays_on_one_cable_add_up_by_the_sun() -> None:
    d = Draft(place="building", voltage="12 V")
    d.part("battery", "GB1", fault_current="3 kA")
    d.part("solar_controller", "TC1", current="60 A", pv_voltage="150 V", pv_current="60 A")
    d.part("fuse", "F1", rating="80 A", type="class_t")
    d.run("GB1.dc", "F1.line", "p1", poles="+", size="2 AWG", length="1 ft")
    d.run("F1.load", "TC1.dc", "p2", poles="+", size="2 AWG", length="2 ft")
    d.run("GB1.dc", "TC1.dc", "m1", poles="-", size="2 AWG", length="2 ft")
    d.part("busbar", "WC1", bar="plus", rating="100 A", taps="4")
    d.part("busbar", "WC2", bar="minus", rating="100 A", taps="4")
    for n in (1, 2):
        d.part("solar_array", f"GP{n}", voc="40 V", isc="10 A", vmp="33 V", imp="9.5 A")
        d.run(f"GP{n}.dc", f"WC1.{n}", f"a{n}", poles="+", size="10 AWG", length="20 ft")
        d.run(f"GP{n}.dc", f"WC2.{n}", f"b{n}", poles="-", size="10 AWG", length="20 ft")
    d.run("WC1.feed", "TC1.pv", "down", poles="+", size="10 AWG", length="20 ft")
    d.run("WC2.feed", "TC1.pv", "up", poles="-", size="10 AWG", length="20 ft")
    # 2 x 10 A x 1.25 = 25 A in the sun; 10 AWG of 30 A at 60 C is good for 30 / 1.25 = 24 A
    (finding,) = [f for f in found(d, RULE) if f.subjects == ("down",)]
    assert number(finding, "comes together") == 25.0
    assert number(finding, "largest allowed") == 24.0
    d.rate_run("down", size="8 AWG")
    assert ("down",) not in at(d)


def bank_with_links(link: str, n: int = 2, place: str = "vehicle") -> Draft:
    """Batteries beside each other by links from post to post, the lead taken from the first and the
    minus from the last, behind a fuse of 200 A."""
    d = Draft(place=place, voltage="12 V")
    for i in range(1, n + 1):
        d.part("battery", f"GB{i}", capacity="100 Ah", fault_current="3 kA")
    for i in range(1, n):
        for name, pole in (("lp", "+"), ("lm", "-")):
            d.run(f"GB{i}.dc", f"GB{i + 1}.dc", f"{name}{i}", poles=pole, size=link, length="1 ft")
    d.part("fuse", "F1", rating="200 A", type="class_t")
    d.run("GB1.dc", "F1.line", "lead", poles="+", size="4/0 AWG", length="6 in")
    d.part("load", "EA1", power="240 W", **DC)
    d.run("F1.load", "EA1.in", "p", poles="+", size="4/0 AWG", length="3 ft")
    d.run(f"GB{n}.dc", "EA1.in", "m", poles="-", size="4/0 AWG", length="3 ft")
    return d


def test_the_links_of_a_bank_carry_what_its_fuse_lets_through() -> None:
    """One battery may give all, where the other is empty or its cells have opened: each link is a
    lead of the bank, of the plus as of the minus."""
    both = {("lp1", "F1"), ("lm1", "F1")}
    assert at(bank_with_links("6 AWG")) == both
    assert at(bank_with_links("6 AWG", 3, "building")) == both | {("lp2", "F1"), ("lm2", "F1")}
    assert at(bank_with_links("4/0 AWG")) == set()


def doubled(size: str, lengths: tuple[str, str] = ("3 ft", "3 ft")) -> Draft:
    """A battery behind a fuse of 200 A with a thick plus and two minus cables side by side."""
    d = bank_with_links("4/0 AWG", 1, "building")
    d.cut("m")
    for name, length in zip("ab", lengths, strict=True):
        d.run("GB1.dc", "EA1.in", name, poles="-", size=size, length=length, terminals="75")
    return d


def test_cables_side_by_side_count_together_where_they_are_equal_and_thick() -> None:
    """310.10(G): from 1/0 AWG, of one length; 1/0 AWG carries 150 A at 75 C."""
    assert at(doubled("1/0 AWG")) == set()
    assert at(doubled("1/0 AWG", ("3 ft", "4 ft"))) == {("a", "F1"), ("b", "F1")}
    assert at(doubled("2 AWG")) == {("a", "F1"), ("b", "F1")}
    assert at(doubled("4/0 AWG", ("3 ft", "4 ft"))) == set()


def stepped_up(feet: str) -> Draft:
    """A converter of 15 A from 12 to 24 V that joins minus through: 50 A behind 6 AWG and 8 ft of
    minus on its input, 25 A behind 10 AWG on its output; ``feet`` of that minus."""
    d = Draft(place="building")
    d.part("busbar", "WC2", bar="minus", rating="200 A", taps="4")
    d.part("dc_charger", "TB1", in_voltage="12 V", dc_voltage="24 V", current="15 A")
    for n, (volts, side, amps, size, back) in enumerate(
        (("12 V", "dc_in", "50 A", "6 AWG", "8 ft"), ("24 V", "dc", "25 A", "10 AWG", feet)), 1
    ):
        d.part("battery", f"GB{n}", voltage=volts, capacity="100 Ah", fault_current="3 kA")
        d.part("fuse", f"F{n}", rating=amps, type="class_t", interrupting="20 kA")
        d.run(f"GB{n}.dc", f"F{n}.line", f"p{n}", poles="+", size=size, length="0.5 ft")
        d.run(f"F{n}.load", f"TB1.{side}", f"q{n}", poles="+", size=size, length="8 ft")
        d.run(f"WC2.{n}", f"TB1.{side}", f"m{n}", poles="-", size=size, length=back)
        d.run(f"GB{n}.dc", f"WC2.{n + 2}", f"n{n}", poles="-", size="2 AWG", length="2 ft")
    return d


def test_a_minus_beside_that_of_the_other_side_of_a_converter_takes_its_share() -> None:
    """By hand: 10 AWG of 4 ft has 4.0 milliohm, 6 AWG of 8 ft 3.2: 44 % of 50 A, and 10 AWG
    carries 30 A; of half a foot it has 0.5 and takes 86 %."""
    assert ("m2", "F1") not in at(stepped_up("4 ft"))
    assert ("m2", "F1") in at(stepped_up("0.5 ft"))


@pytest.mark.parametrize("text", [_sums.TOGETHER, _bounds.TOGETHER])
def test_what_is_said_of_several_devices_is_right_of_one(text: str) -> None:
    """A run is told of in one sentence, whether two let too much into it or in some state one."""
    assert "{feeders}" in text
    assert "{feeders} let" not in text


# A controller that joins array and battery by their plus (a PWM of common plus): the array's wires
# lie on the battery's plus, whose fuse guards them; what the controller gives is the current of the
# array, which goes along them the other way (Kirchhoff).


def joined(size: str, fuse: str, kind: str = "pwm") -> Draft:
    d = van()
    d.rate("TC1", type=kind, common="plus")
    d.rate("F2", rating=fuse)
    d.rate("QB2", rating="40 A")
    for run in ("W1", "W2"):
        d.rate_run(run, size=size)
    return d


def test_what_a_joining_controller_gives_is_no_second_current_of_the_array_s_wires() -> None:
    assert at(joined("10 AWG", "30 A")) == set()  # 30 A may protect 10 AWG (240.4(D))
    assert found(joined("10 AWG", "30 A"), "run-unprotected") == []


def test_the_battery_s_fuse_counts_for_each_of_them_once() -> None:
    assert at(joined("12 AWG", "40 A")) == {("W1", "F2"), ("W2", "F2")}
    assert at(joined("8 AWG", "40 A")) == set()


def test_one_that_steps_down_gives_a_current_of_its_own() -> None:
    assert ("W2",) in at(joined("10 AWG", "30 A", "mppt"))
