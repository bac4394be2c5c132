"""What the second judge knows of neutrals: open before outlets, exchanged before windings, shared
by what draws nothing; and of the input of a charger on two legs."""

from __future__ import annotations

import pytest

from tests.trial.judge.expand import net_of
from tests.trial.judge.flaws import DANGER, WARNING, Flaw
from tests.trial.judge.label import label, survey
from tests.trial.judge.standing import standings
from tests.trial.rigs.sheet import SPLIT, Sheet


def flaws(d: Sheet, check: str) -> list[Flaw]:
    return [f for f in survey(d.design).flaws.values() if f.check == check]


def board_behind(broken: str = "none", second: str = "3", guard: str = "class_a") -> Sheet:
    """A service, a board behind it, an outlet on the first leg and one on a place of the other."""
    d = Sheet(place="building")
    d.utility()
    d.breaker("QF9", "QP1", "1", 50, **SPLIT)
    d.part("panel", "QP2", bus="100 A", bond="absent", places="8", **SPLIT)
    d.wire("QF9.load", "QP2.feed", "W9", "6", 20, broken=broken)
    for n, place in enumerate(("1", second), start=1):
        d.breaker(f"QF{n}", "QP2", place, 20, ground_fault=guard if n == 1 else "none")
        d.part("outlet", f"XD{n}", configuration="5-20")
        d.wire(f"QF{n}.load", f"XD{n}.feed", f"W{n}", "12", 20)
    return d


@pytest.mark.parametrize(
    ("broken", "second", "found"),
    [
        # on both legs: what is plugged into one outlet and the other lies in series on 240 V
        ("N", "3", True),
        ("N", "5", False),
        ("none", "3", False),
    ],
)
def test_outlets_on_both_legs_of_an_open_neutral_divide_240_volt(
    broken: str, second: str, found: bool
) -> None:
    told = flaws(board_behind(broken, second), "neutral open")
    assert [f.level for f in told] == ([DANGER] if found else [])


@pytest.mark.parametrize(
    ("broken", "guard", "found"), [("N", "class_a", True), ("N", "none", False)]
)
def test_a_class_a_breaker_without_a_neutral_leaves_its_outlet_hot(
    broken: str, guard: str, found: bool
) -> None:
    told = flaws(board_behind(broken, "5", guard), "class A blind")
    assert [(f.level, f.subject) for f in told] == ([(DANGER, "XD1")] if found else [])


def test_a_neutral_that_is_open_behind_the_class_a_breaker_leaves_it_working() -> None:
    d = board_behind()
    d.rate_run("W1", broken="N")
    assert flaws(d, "class A blind") == []


def shore_transformer(poles: str = "") -> Sheet:
    """Shore power into a transformer that feeds a lamp."""
    d = Sheet(place="boat")
    d.part("supply", "GS1", breaker="30 A")
    d.part("transformer", "TA1", power="3 kVA", neutral="bonded", breaker="30 A")
    d.wire("GS1.out", "TA1.primary", "W1", "10", 10, poles)
    d.part("lamp", "EL1", power="60 W")
    d.wire("TA1.secondary", "EL1.in", "W2", "10", 10)
    return d


def test_a_transformer_works_with_hot_and_neutral_exchanged_and_that_is_a_warning() -> None:
    # NFPA 70 200.11: no grounded conductor so that the designated polarity is reversed
    right, wrong = shore_transformer(), shore_transformer("L>N N>L PE>PE")
    assert flaws(right, "exchanged") == []
    assert [(f.level, f.subject) for f in flaws(wrong, "exchanged")] == [(WARNING, "TA1")]
    told = label(right.design, wrong.design, survey(right.design))
    assert told.reason == "hot and neutral are exchanged at the primary of TA1"
    live = max(standings(wrong.design, net_of(wrong.design)), key=lambda s: len(s.sources))
    assert live.fed(live.uses[0]) == pytest.approx(1.0)


def test_a_surge_device_returns_nothing_by_its_neutral() -> None:
    # both hots of an adapter from one leg are in phase; only what draws can overload the neutral
    d = Sheet(place="recreational")
    d.part("supply", "GS1", "park", breaker="30 A", prospective="1.5 kA")
    d.outlet_in("XD9", "GS1", "1", "TT-30", area="outside")
    d.part("adapter", "XA1", configuration="TT-30", connector="14-50", outlet_circuit="split")
    d.seat("XA1", "XD9", "face")
    d.part("plug", "XP1", configuration="14-50", **SPLIT)
    d.seat("XP1", "XA1", "face")
    d.part("panel", "QP1", bus="100 A", bond="absent", places="12", **SPLIT)
    d.cord("XP1.cord", "QP1.feed", "WS1", "6", 30)
    d.breaker("QF9", "QP1", "7", 20, **SPLIT)
    d.part("surge_device", "FA1", continuous_voltage="150 V", short_circuit="10 kA", **SPLIT)
    d.wire("QF9.load", "FA1.line", "W9", "12", 1)
    assert flaws(d, "neutral summed") == []


def test_a_charger_on_two_legs_takes_its_power_between_them() -> None:
    # 60 A x 54 V / 0.85 / 0.95 = 4012 VA: 16.7 A of 240 V, and not 33 A of one leg
    d = Sheet(place="building")
    d.part("generator", "G1", power="8 kVA", neutral="bonded", breaker="40 A", **SPLIT)
    d.part("hybrid_inverter", "TB1", power="6 kVA", dc_voltage="48 V", charge="60 A", **SPLIT)
    d.rate("TB1", transfer="50 A", neutral="floating", current="100 A", pv_voltage="500 V")
    d.wire("G1.out", "TB1.ac_in", "W1", "8", 10)
    uses = [use for use in net_of(d.design).uses if use.a.terminal == "ac_in"]
    assert [(u.a.pole, u.b.pole, u.volts) for u in uses] == [("L1", "L2", 240.0)]
    assert uses[0].amps == pytest.approx(16.7, abs=0.1)
    assert flaws(d, "device loaded") == []


def test_an_open_neutral_of_one_leg_without_a_class_a_device_only_starves() -> None:
    d = board_behind("none", "5", "none")
    worse = board_behind("N", "5", "none")
    assert label(d.design, worse.design, survey(d.design)).word == WARNING


@pytest.mark.parametrize(("amps", "near"), [(20, True), (60, False)])
def test_hots_in_phase_are_left_open_where_the_circuits_behind_add_up_to_little(
    amps: int, near: bool
) -> None:
    # both hots of a service on one leg, and so of a feeder of 60 A; 6 AWG allows 60 A
    d = Sheet(place="building")
    d.utility()
    d.run_poles("WU", "L1>L1 L1>L2 N")
    d.breaker("QF9", "QP1", "1", 60, **SPLIT)
    d.part("panel", "QP2", bus="100 A", bond="absent", places="8", **SPLIT)
    d.wire("QF9.load", "QP2.feed", "W9", "6", 20)
    for n, place in ((1, "1"), (2, "3")):
        d.breaker(f"QF{n}", "QP2", place, amps)
        d.part("heater", f"EH{n}", power="600 W")
        d.wire(f"QF{n}.load", f"EH{n}.in", f"W{n}", "6", 20)
    assert [f.near for f in flaws(d, "neutral summed") if f.subject == "W9"] == [near]


def shore_boat(feet: float = 6, poles: str = "") -> Sheet:
    """A boat's inlet, its breaker and a board behind it."""
    d = Sheet(place="boat")
    d.part("supply", "GS1", breaker="30 A")
    d.part("inlet", "XI1", configuration="L5-30")
    d.cord("GS1.out", "XI1.outside", "WS1", "10", 25)
    d.part("breaker", "QF10", rating="30 A", poles="all", ground_fault="rcd_30")
    d.wire("XI1.inside", "QF10.line", "WI1", "10", feet, poles)
    d.part("panel", "QP1", bus="60 A", bond="absent", places="4")
    d.wire("QF10.load", "QP1.feed", "WI2", "10", 4)
    return d


@pytest.mark.parametrize(("feet", "near"), [(6, []), (10.2, [True]), (36, [False])])
def test_aboard_the_first_breaker_is_near_the_inlet(feet: float, near: list[bool]) -> None:
    # ABYC E-11: within 10 ft of the inlet, along the conductors
    assert [f.near for f in flaws(shore_boat(feet), "inlet far")] == near


def test_a_ground_wire_on_a_neutral_is_a_danger_to_the_metal_behind() -> None:
    assert flaws(shore_boat(), "neutral as ground") == []
    told = flaws(shore_boat(poles="L N>PE"), "neutral as ground")
    assert {(f.level, f.subject) for f in told} >= {(DANGER, "QP1")}


def test_an_outlet_of_240_volt_in_a_garage_is_asked_too() -> None:
    # NFPA 70 (2023) 210.8(A): 125 V through 250 V
    for guard, found in (("none", ["XD1"]), ("class_a", [])):
        d = Sheet(place="building")
        d.utility()
        d.breaker("QF1", "QP1", "1", 30, ground_fault=guard, **SPLIT)
        d.part("outlet", "XD1", configuration="L14-30", area="garage", **SPLIT)
        d.wire("QF1.load", "XD1.feed", "W1", "10", 20)
        assert [f.subject for f in flaws(d, "unprotected outlet")] == found


@pytest.mark.parametrize(("poles", "lost"), [("", False), ("L1 N PE", True)])
def test_a_surge_device_guards_what_it_is_joined_to(poles: str, lost: bool) -> None:
    drawn: list[Sheet] = []
    for each in ("", poles):
        d = Sheet(place="building")
        d.utility()
        d.breaker("QF9", "QP1", "7", 20, **SPLIT)
        d.part("surge_device", "FA1", continuous_voltage="150 V", short_circuit="10 kA", **SPLIT)
        d.wire("QF9.load", "FA1.line", "W9", "12", 1, each)
        drawn.append(d)
    told = label(drawn[0].design, drawn[1].design, survey(drawn[0].design))
    assert (told.reason == "FA1 guards L2 of GS1 no longer") is lost
