"""batteries-unlike and bank-tapped: banks of batteries that do not fit, or are used in part."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from linework.kinds import Answer
from tests.findings.banks import THICK, van
from tests.findings.sources.test_battery_turned import string
from tests.findings.told import found, number

UNLIKE, TAPPED = "batteries-unlike", "bank-tapped"


def levels(draft: Draft, rule: str = UNLIKE) -> dict[tuple[str, ...], Level]:
    return {f.subjects: f.level for f in found(draft, rule)}


def test_like_batteries_in_a_string_are_silent() -> None:
    assert levels(string(4)) == {}


def test_a_block_of_another_voltage_in_a_string() -> None:
    d = string(4)
    d.rate("GB3", voltage="24 V")
    (finding,) = found(d, UNLIKE)
    assert (finding.subjects, finding.level) == (("GB3", "GB1"), Level.DANGER)
    assert number(finding, "voltage of the string") == 60.0
    d.rate("GB3", voltage="12.8 V")
    assert levels(d) == {}


@pytest.mark.parametrize(
    ("ratings", "hit"),
    [
        ({"capacity": "100 Ah"}, False),
        ({"capacity": "119 Ah"}, False),
        ({"capacity": "125 Ah"}, True),
        ({"chemistry": "flooded"}, False),
        ({"chemistry": "lithium"}, True),
    ],
)
def test_capacity_and_chemistry_in_a_string(ratings: dict[str, Answer], hit: bool) -> None:
    d = string(2)
    for name in ("GB1", "GB2"):
        d.rate(name, capacity="100 Ah", chemistry="agm")
    d.rate("GB2", **ratings)
    assert bool(levels(d)) is hit
    assert set(levels(d).values()) <= {Level.WARNING}


def test_what_is_not_given_is_not_compared() -> None:
    d = string(2)
    d.rate("GB2", chemistry="agm", capacity="50 Ah")
    assert levels(d) == {}


def beside(**ratings: Answer) -> Draft:
    """The van, whose battery is absorbed lead, with a second one beside it."""
    d = van()
    d.part("battery", "GB2", **({"capacity": "100 Ah", "fault_current": "3 kA"} | ratings))
    d.run("GB2.dc", "GB1.dc", "W30", length="0.5 ft", **THICK)
    return d


def test_side_by_side() -> None:
    assert levels(beside(voltage="24 V")) == {("GB1", "GB2"): Level.DANGER}
    assert levels(beside(voltage="12.8 V")) == {}
    assert levels(beside(chemistry="lithium")) == {("GB1", "GB2"): Level.WARNING}
    assert levels(beside(chemistry="flooded")) == {}
    assert levels(beside(capacity="20 Ah")) == {}


def test_what_follows_from_another_voltage_stands_under_it() -> None:
    d = beside(voltage="24 V")
    (finding,) = found(d, UNLIKE)
    assert finding.consequences


def tapped(volts: str = "12 V", across: str = "GB2") -> Draft:
    """Two batteries in series with loads of 24 V, and a lamp on one of them or on both."""
    d = string(2)
    d.part("lamp", "EL1", circuit="dc", voltage=volts, power="20 W")
    size = {"size": "14 AWG", "length": "2 ft"}
    d.run(f"{across}.dc", "EL1.in", "a", poles="+", **size)
    d.run("GB2.dc", "EL1.in", "b", poles="-", **size)
    return d


def test_a_lamp_on_half_the_bank() -> None:
    (finding,) = found(tapped(), TAPPED)
    assert (finding.subjects, finding.level) == (("EL1",), Level.WARNING)
    assert number(finding, "voltage of the string") == 24.0
    assert "GB2 alone" in finding.message
    assert levels(tapped("24 V", "GB1"), TAPPED) == {}
    assert levels(string(2), TAPPED) == {}


def ladder(**ratings: Answer) -> Draft:
    """Two strings of two beside each other, joined in the middle; ``ratings`` of the lower battery
    of the second."""
    d = string(2)
    for name, more in (("GB3", {}), ("GB4", ratings)):
        d.part("battery", name, **({"capacity": "100 Ah", "fault_current": "3 kA"} | more))
    d.run("GB3.dc", "GB1.dc", "l1", poles="+", length="1 ft", **THICK)
    d.run("GB3.dc", "GB4.dc", "l2", poles="->+", length="1 ft", **THICK)
    d.run("GB4.dc", "GB2.dc", "l3", poles="-", length="1 ft", **THICK)
    d.run("GB4.dc", "GB2.dc", "l4", poles="+", length="1 ft", **THICK)
    return d


def test_strings_that_are_joined_in_the_middle() -> None:
    assert levels(ladder()) == levels(ladder(), TAPPED) == {}
    d = ladder()
    d.part("lamp", "EL1", circuit="dc", voltage="12 V", power="20 W")
    d.run("GB2.dc", "EL1.in", "a", size="14 AWG", length="2 ft")
    assert levels(d, TAPPED) == {("EL1",): Level.WARNING}
    d = ladder(chemistry="lithium")
    for name in ("GB1", "GB2", "GB3"):
        d.rate(name, chemistry="agm")
    assert levels(d)


def charged(*spans: tuple[str, str]) -> Draft:
    """Two batteries in series; a charger from the plus of one to the minus of one for each pair."""
    d = string(2)
    d.part("supply", "GS1", breaker="20 A")
    size = {"size": "10 AWG", "length": "2 ft"}
    for n, (plus, minus) in enumerate(spans, start=1):
        volts = "24 V" if plus != minus else "12 V"
        d.part("charger", f"TB{n}", current="10 A", dc_voltage=volts)
        d.run("GS1.out", f"TB{n}.ac_in", f"ac{n}", **size)
        d.run(f"{plus}.dc", f"TB{n}.dc", f"a{n}", poles="+", **size)
        d.run(f"{minus}.dc", f"TB{n}.dc", f"b{n}", poles="-", **size)
    return d


def test_a_charger_on_half_the_bank() -> None:
    assert levels(charged(("GB1", "GB2")), TAPPED) == {}
    assert levels(charged(("GB2", "GB2")), TAPPED) == {("TB1",): Level.WARNING}
    (finding,) = found(charged(("GB2", "GB2")), TAPPED)
    assert "charges GB2 alone" in finding.message


def test_each_battery_by_a_charger_of_its_own() -> None:
    assert levels(charged(("GB1", "GB1"), ("GB2", "GB2")), TAPPED) == {}


def levelled(current: str, holds: str = "half") -> Draft:
    """The lamp of 20 W on half the bank, and a converter from the whole to that half."""
    d = tapped()
    d.part("dc_charger", "TB1", "equalizer", in_voltage="24 V", current=current, holds=holds)
    size = {"size": "10 AWG", "length": "2 ft"}
    d.run("GB1.dc", "TB1.dc_in", "e1", poles="+", **size)
    d.run("GB2.dc", "TB1.dc_in", "e2", poles="-", **size)
    d.run("GB2.dc", "TB1.dc", "e3", **size)
    return d


def test_an_equalizer_holds_the_half_on_which_a_lamp_hangs() -> None:
    """20 W on 12 V are 1.67 A."""
    assert levels(levelled("2 A"), TAPPED) == {}
    (finding,) = found(levelled("1.6 A"), TAPPED)
    assert finding.subjects == ("EL1",)
    assert number(finding, "current there") == pytest.approx(1.667, abs=0.001)


def test_a_charger_on_half_the_bank_levels_nothing() -> None:
    assert levels(levelled("20 A", "charge"), TAPPED).keys() == {("EL1",), ("TB1",)}


def test_what_an_inverter_takes_from_a_half_no_equalizer_is_known_to_give() -> None:
    d = levelled("20 A")
    d.part("inverter", "TB2", power="300 VA", neutral="bonded")
    d.run("GB2.dc", "TB2.dc", "i", size="6 AWG", length="2 ft")
    assert levels(d, TAPPED).keys() == {("TB2",)}
