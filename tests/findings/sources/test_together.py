"""rating-exceeded: what several sources together let into a part."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.told import found, gaps, number, praise
from tests.study.ways.test_bars import with_a_second_bank
from tests.study.ways.test_sums import WIRE, batteries

RULE = "rating-exceeded"


def levels(draft: Draft) -> dict[tuple[str, ...], Level]:
    return {f.subjects: f.level for f in found(draft, RULE)}


def with_switch(number: int, rating: str | None = "100 A") -> Draft:
    """Batteries with a fuse of 100 A each on one lead, a switch in it, a load behind."""
    d = batteries(number)
    d.cut("lead")
    ratings = {} if rating is None else {"rating": rating}
    d.part("battery_disconnect", "QB1", voltage="48 V", **ratings)
    d.run("WC1.feed", "QB1.line", "one", poles="+", **WIRE)
    d.run("QB1.load", "EA1.in", "two", poles="+", **WIRE)
    return d


@pytest.mark.parametrize(
    ("batteries_on", "rating", "hit"),
    [(1, "100 A", False), (3, "100 A", True), (3, "300 A", False), (3, "299 A", True)],
)
def test_a_switch_gets_what_all_batteries_drive(batteries_on: int, rating: str, hit: bool) -> None:
    told = levels(with_switch(batteries_on, rating))
    assert told == ({("QB1",): Level.DANGER} if hit else {})


def test_it_says_how_much_and_from_where() -> None:
    (finding,) = found(with_switch(3), RULE)
    assert number(finding, "comes together") == 300.0
    assert "F1, F2 and F3" in finding.message


def test_the_switch_of_each_battery_is_held_by_its_own_fuse() -> None:
    d = batteries(3)
    for n in (1, 2, 3):
        d.cut(f"q{n}")
        d.part("battery_disconnect", f"QB{n}", rating="100 A", voltage="48 V")
        d.run(f"F{n}.load", f"QB{n}.line", f"x{n}", poles="+", **WIRE)
        d.run(f"QB{n}.load", f"WC1.{n}", f"y{n}", poles="+", **WIRE)
    assert levels(d) == {}


def test_a_bar_may_be_held_by_the_devices_behind_it() -> None:
    d = batteries(3, lead="80 A")
    d.rate("WC1", rating="150 A")
    assert levels(d) == {}
    told = {item.subjects: item.message for item in praise(d, RULE)}
    assert "no more than 80 A" in told["WC1",]
    d.run("WC1.4", "EA1.in", "past the fuse", poles="+", **WIRE)
    assert levels(d) == {("WC1",): Level.DANGER}


def test_a_bar_made_for_all_of_them_is_silent() -> None:
    d = batteries(3)
    d.rate("WC1", rating="300 A")
    assert levels(d) == {}


def test_an_assumed_rating_that_would_be_too_small_is_told_as_not_checked() -> None:
    d = with_switch(3, None)
    assert levels(d) == {}
    assert [gap for gap in gaps(d, RULE) if "300 A" in gap.reason and gap.where == ("QB1",)]


def test_a_charger_on_the_bar_counts_too() -> None:
    d = with_switch(1, "149 A")
    d.part("supply", "GS1", breaker="20 A")
    d.part("charger", "TB1", current="40 A")
    d.run("GS1.out", "TB1.ac_in", "shore", size="12 AWG", length="5 ft")
    d.run("TB1.dc", "WC1.2", "stub", poles="+", **WIRE)
    d.run("TB1.dc", "WC2.2", "stub minus", poles="-", **WIRE)
    assert levels(d) == {("QB1",): Level.DANGER}  # 100 A and 125 % of 40 A
    d.rate("QB1", rating="150 A")
    assert levels(d) == {}


@pytest.mark.parametrize(("rating", "hit"), [("100 A", False), ("50 A", True)])
def test_a_bar_is_held_by_what_flows_through_it(rating: str, hit: bool) -> None:
    """300 A come to it and 60 A flow through: no way brings and takes at once."""
    d = with_a_second_bank()
    d.rate("WC1", rating=rating)
    assert levels(d) == ({("WC1",): Level.DANGER} if hit else {})


def test_stores_on_a_bar_are_charged_or_give_and_not_both() -> None:
    """Two batteries of 100 A, chargers of 40 A behind 50 A each, a load behind 150 A: at the most
    150 A pass the bar, whichever gives."""
    d = batteries(2, lead="150 A")
    for n in (1, 2):
        d.part("supply", f"GS{n}", breaker="20 A")
        d.part("charger", f"TB{n}", current="40 A")
        d.run(f"GS{n}.out", f"TB{n}.ac_in", f"s{n}", size="12 AWG", length="5 ft")
        d.part("fuse", f"F9{n}", rating="50 A", type="class_t")
        d.run(f"WC1.{n + 3}", f"F9{n}.line", f"t{n}", poles="+", **WIRE)
        d.run(f"F9{n}.load", f"TB{n}.dc", f"u{n}", poles="+", **WIRE)
        d.run(f"WC2.{n + 3}", f"TB{n}.dc", f"v{n}", poles="-", **WIRE)
    d.rate("WC1", rating="160 A")
    assert ("WC1",) not in levels(d)
    d.rate("WC1", rating="140 A")
    assert levels(d)["WC1",] is Level.DANGER
