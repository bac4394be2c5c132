"""Which neutrals return several hots of one phase, and the most that may flow in them."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.neutral.neutrals import shared_neutrals
from tests.designs import situation_of

CABLE = {"size": "12 AWG", "length": "10 ft"}


def bridged(main: str, breakers: str, *loads: str) -> Draft:
    """One leg on both buses of a board, two circuits on one neutral."""
    d = Draft(place="building")
    d.part("supply", "GS1", breaker=main, outage="no")
    d.part("panel", "QP1", circuit="split", bond="absent", places="8")
    d.run("GS1.out", "QP1.feed", "W1", poles="L>L1 L>L2 N PE", **CABLE)
    d.part("breaker", "QF1", circuit="split", rating=breakers)
    d.seat("QF1", "QP1", "1")
    d.part("junction_box", "XJ1", circuit="split")
    d.run("QF1.load", "XJ1.a", "M1", **CABLE)
    for n, watts in enumerate(loads, 1):
        d.part("load", f"EA{n}", power=watts)
        d.run("XJ1.b", f"EA{n}.in", f"B{n}", poles=f"L{(n - 1) % 2 + 1}>L N PE", **CABLE)
    return d


@pytest.mark.parametrize(
    ("main", "breakers", "loads", "most"),
    [
        # the least of: what the loads take, both breakers, the supply's breaker (a cut by hand)
        ("100 A", "20 A", ("1200 W", "600 W"), 15.0),
        ("100 A", "20 A", ("3600 W", "600 W"), 25.0),  # 30 A of the first are cut to 20
        ("100 A", "20 A", ("3600 W", "3600 W"), 40.0),
        ("30 A", "20 A", ("3600 W", "3600 W"), 30.0),
        ("30 A", "10 A", ("3600 W", "3600 W", "1200 W"), 20.0),
    ],
)
def test_the_most_that_flows(main: str, breakers: str, loads: tuple[str, ...], most: float) -> None:
    situation = situation_of(bridged(main, breakers, *loads))
    (shared,) = shared_neutrals(situation)
    branch = situation.circuit.branches[shared.branch]
    assert (branch.owner, branch.pole) == ("M1", "N")
    assert shared.most_a == pytest.approx(most)
    assert len(shared.hots) == 2


def test_a_load_on_one_hot_alone_shares_nothing() -> None:
    assert shared_neutrals(situation_of(bridged("100 A", "20 A", "1200 W"))) == []


def test_the_legs_of_a_supply_with_two_share_nothing() -> None:
    d = bridged("100 A", "20 A", "1200 W", "600 W")
    d.cut("W1")
    d.rate("GS1", circuit="split")
    d.run("GS1.out", "QP1.feed", "W1", **CABLE)
    assert shared_neutrals(situation_of(d)) == []


def test_a_neutral_that_returns_by_two_ways_is_no_bridge() -> None:
    d = bridged("100 A", "20 A", "1200 W", "600 W")
    d.run("QP1.feed", "XJ1.a", "W9", poles="N", **CABLE)
    assert shared_neutrals(situation_of(d)) == []
