"""battery-cuts-out: what a battery's own management lets through, against what is asked of it."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from linework.kinds import Answer
from tests.findings.banks import THICK, motorhome, van, with_inverter
from tests.findings.told import flat, found, gaps, number

RULE = "battery-cuts-out"


def bank(*, inverter: str = "600 VA", load: str = "400 W", **battery: Answer) -> Draft:
    """The van of twelve volts at night with an inverter and a load on it."""
    d = with_inverter(van(), power=inverter, idle="0 W")
    d.rate("GB1", chemistry="lithium", **battery)
    d.rate("EA1", power=load)
    d.cut("W5")
    return d


def test_loads_beyond_its_management_are_a_warning() -> None:
    """400 W through 90 % at 12 V are 37 A, and a lamp of 40 W 3.3 A; some more as it sags."""
    (hit,) = found(bank(discharge_limit="30 A"), RULE)
    assert (hit.subjects, hit.level) == (("GB1",), Level.WARNING)
    assert number(hit, "current") == pytest.approx(400 / 0.9 / 12 + 40 / 12, rel=0.03)
    assert number(hit, "its management lets through") == 30.0


def test_within_its_management_it_is_silent() -> None:
    assert not found(bank(discharge_limit="100 A"), RULE)


def test_an_inverter_at_its_rating_is_worth_a_note() -> None:
    """600 VA ask 56 A and the lamp 3.3 A; the drawn loads 41 A."""
    (hit,) = found(bank(discharge_limit="50 A"), RULE)
    assert (hit.level, hit.subjects) == (Level.NOTE, ("GB1", "TB1"))
    assert number(hit, "current") == pytest.approx(600 / 0.9 / 12 + 40 / 12, rel=0.02)


def test_two_in_parallel_share() -> None:
    """41 A, then 55 A: half of each is within 25 A or beyond."""
    d = bank(discharge_limit="25 A")
    d.part("battery", "GB2", capacity="100 Ah", fault_current="3 kA", discharge_limit="25 A")
    d.run("GB2.dc", "GB1.dc", "WP", length="0.1 ft", **THICK)
    assert {hit.level for hit in found(d, RULE)} <= {Level.NOTE}
    d.rate("EA1", power="550 W")
    (hit,) = found(d, RULE)  # one for the bank
    assert (hit.subjects, hit.level) == (("GB1", "GB2"), Level.WARNING)


def winch(**battery: Answer) -> Draft:
    d = bank(load="1 W", **battery)
    d.part(
        "motor", "MA1", circuit="dc", voltage="12 V", power="480 W", start_current="150 A",
        duty="brief",
    )  # fmt: skip
    d.run("QB1.load", "MA1.in", "WM", length="3 ft", **THICK)
    return d


@pytest.mark.parametrize(("peak", "told"), [("140 A", True), ("180 A", False)])
def test_the_start_of_a_motor_is_held_against_the_peak(peak: str, told: bool) -> None:
    """150 A while it stands, and 3.4 A of lamp and load."""
    hits = found(winch(discharge_limit="100 A", discharge_peak=peak), RULE)
    assert [h.subjects for h in hits] == ([("GB1", "MA1")] if told else [])
    for hit in hits:
        assert number(hit, "current") == pytest.approx(153.4, rel=0.02)


def test_a_peak_that_is_not_given_is_asked_for() -> None:
    d = winch(discharge_limit="100 A")
    assert not found(d, RULE)
    (gap,) = gaps(d, RULE)
    assert gap.where == ("GB1",)


def test_a_motor_on_an_inverter_starts_from_the_battery() -> None:
    """4 A at a power factor of 0.5: 240 W, 22 A more than the 3.4 A of the rest; 20 A is not
    enough for it, 60 A would be."""
    d = bank(discharge_limit="10 A", discharge_peak="20 A", load="1 W", inverter="100 VA")
    d.part("motor", "MA1", power="20 W", start_current="4 A", start_power_factor="0.5")
    d.run("QF1.load", "MA1.in", "WM", size="14 AWG", length="3 ft")
    hits = {h.subjects: h for h in found(d, RULE)}
    assert number(hits["GB1", "MA1"], "current") == pytest.approx(240 / 0.9 / 12 + 3.4, rel=0.02)
    d.rate("GB1", discharge_peak="60 A")
    assert ("GB1", "MA1") not in {h.subjects for h in found(d, RULE)}


def test_lithium_of_which_nothing_is_said_is_not_checked_beyond_its_capacity() -> None:
    assert not gaps(bank(), RULE)  # 41 A of 100 Ah
    d = bank(inverter="1500 VA", load="1400 W")
    assert not found(d, RULE)
    assert [gap.where for gap in gaps(d, RULE)] == [("GB1",)]
    d.rate("GB1", chemistry="agm")
    assert not gaps(d, RULE)


@pytest.mark.parametrize(("takes", "told"), [("50 A", True), ("60 A", False)])
def test_chargers_beyond_what_it_takes(takes: str, told: bool) -> None:
    """A charger of 40 A; in the sun 198 W at 13.5 V besides, some 14 A."""
    d = motorhome()
    d.rate("GB1", chemistry="lithium", charge_limit=takes)
    hits = [h for h in found(d, RULE) if "charged" in h.message]
    assert bool(hits) is told


@pytest.mark.parametrize("draft", [van(), motorhome()])
def test_nothing_changes_for_a_battery_without_one(draft: Draft) -> None:
    assert not [f for f in flat(analyse(draft.design).findings) if f.rule == RULE]


@pytest.mark.parametrize(("limit", "told"), [("110 A", True), ("120 A", False)])
def test_two_inverters_at_their_rating_ask_together(limit: str, told: bool) -> None:
    """600 VA ask 56 A each, and the lamp 3.3 A."""
    d = bank(discharge_limit=limit, load="1 W")
    d.part("inverter", "TB2", power="600 VA", idle="0 W", efficiency="90 %", neutral="floating")
    d.rate("TB1", efficiency="90 %")
    d.run("QB1.load", "TB2.dc", "W80", length="2 ft", **THICK)
    d.part("load", "EA2", power="1 W")
    d.run("TB2.ac_out", "EA2.in", "W81", size="14 AWG", length="4 ft")
    hits = {h.subjects: h for h in found(d, RULE)}
    assert set(hits) == ({("GB1", "TB1", "TB2")} if told else set())
    for hit in hits.values():
        assert hit.level is Level.NOTE
        assert number(hit, "current") == pytest.approx(2 * 600 / 0.9 / 12 + 40 / 12, rel=0.02)
