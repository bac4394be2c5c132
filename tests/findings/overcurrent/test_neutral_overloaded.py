"""neutral-overloaded: returns that add up in one neutral, and those that cancel in it."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.told import cured, found, gaps, number, places, praise

RULE = "neutral-overloaded"


def shared(second: str, first: str = "1", load: str = "2000 W", **supply: str) -> Draft:
    """Two single-pole breakers in a board, their circuits on one neutral of 12 AWG."""
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", prospective="4 kA", **({"breaker": "60 A"} | supply))
    d.part("panel", "QP1", circuit="split", bond="absent")
    d.run("GS1.out", "QP1.feed", "W1", size="6 AWG", length="20 ft", terminals="75")
    d.part("junction_box", "XJ1", circuit="split")
    for number_, (place, pole) in enumerate(((first, "L1"), (second, "L2")), 1):
        d.part("breaker", f"QF{number_}", rating="20 A")
        d.seat(f"QF{number_}", "QP1", place)
        rest = "N PE" if number_ == 1 else ""
        d.run(f"QF{number_}.load", "XJ1.a", f"H{number_}", poles=f"L>{pole} {rest}".strip(),
              size="12 AWG", length="20 ft")  # fmt: skip
        d.part("load", f"EA{number_}", power=load)
        d.run("XJ1.b", f"EA{number_}.in", f"B{number_}", poles=f"{pole}>L N PE", size="12 AWG",
              length="5 ft")  # fmt: skip
    return d


def test_two_hots_of_one_leg_burn_their_neutral() -> None:
    # places 1 and 2 lie in one row of the board: one leg
    (finding,) = found(shared("2"), RULE)
    assert finding.level is Level.DANGER
    assert finding.subjects == ("H1",)
    # 2000 W at 120 V twice; 12 AWG at 60 C: 20 A (NFPA 70 table 310.16)
    assert number(finding, "most current in the neutral") == pytest.approx(2 * 2000 / 120)
    assert number(finding, "ampacity as installed") == pytest.approx(20.0)
    assert number(finding, "with the drawn loads on") == pytest.approx(33.3, rel=0.05)
    assert finding.clause.startswith("210.4")


def test_on_opposite_legs_they_cancel() -> None:
    assert not found(shared("3"), RULE)
    assert not praise(shared("3"), RULE)


def test_the_mend_moves_a_breaker_to_the_other_leg() -> None:
    draft = shared("2")
    (finding,) = found(draft, RULE)
    after = cured(draft, finding)
    assert RULE not in {f.rule for f in after.findings}
    assert draft.design.seats_of("QF2")[0].place == "3"


@pytest.mark.parametrize(("load", "hit"), [("1200 W", False), ("1210 W", True)])
def test_the_drawn_loads_bound_what_flows(load: str, hit: bool) -> None:
    # 1200 W at 120 V twice: 20 A, the ampacity of 12 AWG at 60 C; one watt more is too much
    assert bool(found(shared("2", load=load), RULE)) == hit


def outlets(draft: Draft) -> Draft:
    """Outlets in place of the loads: they take what their circuit gives."""
    for n in "12":
        draft.remove(f"EA{n}")
        draft.part("outlet", f"XD{n}")
        draft.run("XJ1.b", f"XD{n}.feed", f"B{n}", poles=f"L{n}>L N PE", size="12 AWG",
                  length="5 ft")  # fmt: skip
    return draft


def test_outlets_may_take_all_that_both_breakers_give() -> None:
    (finding,) = found(outlets(shared("2")), RULE)
    assert number(finding, "most current in the neutral") == pytest.approx(40.0)


def one_leg(source: dict[str, str], size: str = "12 AWG", **cable: str) -> Draft:
    """A source of one leg on both hots of a two-pole breaker, a shared neutral behind it."""
    d = Draft(place="building")
    d.part("supply", "GS1", prospective="3 kA", **source)
    d.part("panel", "QP1", circuit="split", bond="absent", places="8")
    d.part("breaker", "QF1", circuit="split", rating="60 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.run("GS1.out", "QF1.load", "W1", poles="L>L1 L>L2 N PE", size="6 AWG", length="10 ft")
    d.part("breaker", "QF2", circuit="split", rating="20 A", interrupting="10 kA")
    d.seat("QF2", "QP1", "2")
    d.part("junction_box", "XJ1", circuit="split")
    d.run("QF2.load", "XJ1.a", "M1", size=size, length="20 ft", **cable)
    for n in "12":
        d.part("outlet", f"XD{n}")
        d.run("XJ1.b", f"XD{n}.feed", f"B{n}", poles=f"L{n}>L N PE", size="12 AWG", length="5 ft")
    return d


@pytest.mark.parametrize(
    ("breaker", "places_"), [("50 A", {("M1",)}), ("20 A", set()), ("15 A", set())]
)
def test_what_the_source_gives_bounds_the_sum(breaker: str, places_: set[tuple[str, ...]]) -> None:
    """Two in-phase legs burn a shared neutral on a strong supply, harmless behind a small one."""
    draft = one_leg({"breaker": breaker})
    assert places(draft, RULE) == places_
    assert bool(praise(draft, RULE)) == (not places_)


def test_the_feeder_whose_hots_are_one_conductor_is_silent() -> None:
    assert ("W1",) not in places(one_leg({"breaker": "50 A"}), RULE)


def test_a_neutral_thick_enough_for_the_sum_is_silent_and_praised() -> None:
    draft = one_leg({"breaker": "50 A"}, neutral_size="8 AWG")
    assert not found(draft, RULE)
    (told,) = praise(draft, RULE)
    assert told.where == ("M1",)
    draft.rate_run("M1", neutral_size="10 AWG")  # 30 A at 60 C, 40 A may flow
    (finding,) = found(draft, RULE)
    assert number(finding, "ampacity as installed") == pytest.approx(30.0)


def test_a_set_at_120_v_only_feeds_both_hots_alike() -> None:
    d = Draft(place="field")
    d.part(
        "generator", "G1", circuit="split", power="9 kVA", neutral="bonded", switch_120="in_phase"
    )
    d.part("breaker", "QF1", circuit="split", rating="30 A")
    d.seat("QF1", "G1", "1")
    d.part("outlet", "XD1", circuit="split", configuration="L14-30")
    d.seat("XD1", "QF1", "load")
    d.part("panel", "QP1", circuit="split", bond="absent")
    d.run("XD1.face", "QP1.feed", "W1", size="10 AWG", length="25 ft")
    for n, place in (("2", "1"), ("3", "3")):
        d.part("breaker", f"QF{n}", rating="30 A")
        d.seat(f"QF{n}", "QP1", place)
        d.part("load", f"EA{n}", power="2400 W")
        d.run(f"QF{n}.load", f"EA{n}.in", size="10 AWG", length="10 ft")
    (finding,) = found(d, RULE)
    assert finding.subjects == ("W1",)
    assert finding.states
    assert all("voltage=120V" in state for state in finding.states)
    assert number(finding, "most current in the neutral") == pytest.approx(40.0)
    d.rate("G1", switch_120="dead")
    assert not found(d, RULE)


def test_a_neutral_borrowed_from_another_circuit() -> None:
    d = Draft(place="building")
    d.part("supply", "GS1", breaker="60 A", prospective="3 kA")
    d.part("panel", "QP1", bond="absent")
    d.run("GS1.out", "QP1.feed", "W1", size="6 AWG", length="20 ft")
    for n in "12":
        d.part("breaker", f"QF{n}", rating="20 A")
        d.seat(f"QF{n}", "QP1", n)
        d.part("load", f"EA{n}", power="2000 W")
    d.run("QF1.load", "EA1.in", "W2", size="12 AWG", length="20 ft")
    d.run("QF2.load", "EA2.in", "W3", poles="L PE", size="12 AWG", length="20 ft")
    d.run("EA1.in", "EA2.in", "W4", poles="N", size="12 AWG", length="5 ft")
    assert places(d, RULE) == {("W2",)}
    d.cut("W4")
    d.run_poles("W3", "L N PE")
    assert not found(d, RULE)


def test_without_a_size_it_is_said_not_to_be_judged() -> None:
    draft = shared("2")
    draft.rate_run("H1", size=None)
    assert not found(draft, RULE)
    assert [gap.where for gap in gaps(draft, RULE)] == [("H1",)]


def test_loads_between_two_hots_return_nothing_by_the_neutral() -> None:
    draft = shared("2")
    draft.remove("EA2")
    draft.rate("QF2", circuit="ac")
    draft.part("load", "EA3", circuit="ac240", voltage="240 V", power="4000 W")
    draft.run("XJ1.b", "EA3.in", "B3", size="12 AWG", length="5 ft")
    assert not found(draft, RULE)


def test_a_neutral_that_returns_by_two_ways_is_judged_by_what_flows() -> None:
    # a thin second neutral beside the feeder's takes a share of both legs' sum
    draft = one_leg({"breaker": "50 A"})
    draft.remove("XD1", "XD2")
    for n in "12":
        draft.part("load", f"EA{n}", power="2300 W")
        draft.run("XJ1.b", f"EA{n}.in", f"B{n}", poles=f"L{n}>L N PE", size="12 AWG",
                  length="5 ft")  # fmt: skip
    draft.run("QP1.feed", "XJ1.a", "W9", poles="N", size="12 AWG", length="200 ft")
    (finding,) = found(draft, RULE)
    assert finding.subjects == ("M1",)
    assert number(finding, "with the drawn loads on") > 20.0
    draft.rate_run("W9", length="20 ft")  # half each: 18 A
    assert not found(draft, RULE)


def test_drawn_loads_beyond_what_the_device_lets_through() -> None:
    """A set of one hot onto both hots of a board, backwards through a breaker: 42 A of drawn loads
    return by 10 AWG, and the set's breaker of 30 A sees all of them."""
    d = Draft(place="building")
    d.part("generator", "G1", power="6 kVA", neutral="bonded")
    d.part("breaker", "QF8", rating="30 A")
    d.seat("QF8", "G1", "1")
    d.part("panel", "QP1", circuit="split", bond="absent")
    d.part("breaker", "QF9", circuit="split", rating="30 A")
    d.seat("QF9", "QP1", "1")
    d.run("QF8.load", "QF9.load", "W1", poles="L>L1 L>L2 N PE", size="10 AWG", length="10 ft")
    for n, place in enumerate("246", 1):
        d.part("breaker", f"QF{n}", rating="20 A")
        d.seat(f"QF{n}", "QP1", place)
        d.part("load", f"EA{n}", power="1700 W")
        d.run(f"QF{n}.load", f"EA{n}.in", size="12 AWG", length="10 ft")
    assert found(d, RULE) == []
    assert found(d, "device-below-load")


@pytest.mark.parametrize(("size", "hit"), [("14 AWG", True), ("12 AWG", True), ("8 AWG", False)])
def test_a_neutral_thinner_than_its_hots(size: str, hit: bool) -> None:
    # two outlets on breakers of 20 A on one leg of a feeder: up to 40 A return by its neutral,
    # which no device protects; 8 AWG at 60 C: 40 A
    draft = outlets(shared("3"))
    draft.part("breaker", "QF5", rating="20 A")
    draft.seat("QF5", "QP1", "5")
    draft.part("outlet", "XD5")
    draft.run("QF5.load", "XD5.feed", size="12 AWG", length="20 ft")
    draft.rate_run("W1", neutral_size=size, terminals="60")
    assert places(draft, RULE) == ({("W1",)} if hit else set())
    for finding in found(draft, RULE):
        assert "thinner" in finding.message
        assert number(finding, "most current in the neutral") == pytest.approx(40.0)
        assert finding.mend is None or "leg" in finding.mend.title


def test_sets_that_run_in_parallel_have_their_legs_in_phase() -> None:
    # two legs of 120 V, half a turn apart, cancel in the neutral whichever set they come from
    d = Draft(place="field")
    d.part("parallel_kit", "WC1", circuit="split", breaker="25 A", outlets="0")
    for n in (1, 2):
        made = {"power": "3 kVA", "neutral": "floating", "parallel": "kit"}
        d.part("generator", f"G{n}", circuit="split", excitation="electronic", outlets="0", **made)
        d.run(f"G{n}.out", f"WC1.set{n}", f"S{n}", size="10 AWG", length="4 ft")
    d.part("junction_box", "XJ1", circuit="split")
    d.run("WC1.out", "XJ1.a", "W1", size="12 AWG", length="10 ft")
    for n, pole in ((1, "L1"), (2, "L2")):
        d.part("load", f"EA{n}", power="2000 W")
        d.run("XJ1.b", f"EA{n}.in", f"B{n}", f"{pole}>L N PE", size="12 AWG", length="5 ft")
    assert found(d, RULE) == []
