"""A neutral of both legs taken out of a solved network, against the network without it."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.loads.loaded import loaded
from linework.study.neutral.lost import lost_neutrals
from linework.study.situation import Situation
from tests.designs import situation_of


def two_legs(first: str, second: str, both: str = "", **run: str) -> Situation:
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", prospective="10 kA", outage="no")
    d.part("panel", "QP1", circuit="split", bond="absent")
    d.run("GS1.out", "QP1.feed", "W1", size="6 AWG", length="30 ft", **run)
    for n, watts in (("1", first), ("2", second)):
        d.part("load", f"EA{n}", power=watts)
        d.run("QP1.feed", f"EA{n}.in", f"B{n}", poles=f"L{n}>L N PE", size="12 AWG", length="9 ft")
    if both:
        d.part("load", "EA3", circuit="ac240", power=both)
        d.run("QP1.feed", "EA3.in", "B3", size="12 AWG", length="9 ft")
    return situation_of(d)


@pytest.mark.parametrize(
    ("first", "second", "both"),
    [("100 W", "200 W", ""), ("1500 W", "50 W", ""), ("60 W", "60 W", "2 kW")],
)
def test_as_in_the_network_without_it(first: str, second: str, both: str) -> None:
    (lost,) = lost_neutrals(two_legs(first, second, both))
    open_ = loaded(two_legs(first, second, both, broken="N"))
    # leaks of the cables, microsiemens, are all that differs
    assert lost.load_v == pytest.approx(open_.load_v, rel=1e-4)


def test_the_published_example() -> None:
    # training slides "Open neutral": 100 and 200 W on 120/240 V get 160 and 80 V
    (lost,) = lost_neutrals(two_legs("100 W", "200 W"))
    assert lost.load_v == pytest.approx({0: 160.0, 1: 80.0}, rel=3e-3)


def test_a_neutral_of_one_leg_is_not_looked_at() -> None:
    d = Draft(place="building")
    d.part("supply", "GS1", outage="no")
    d.part("load", "EA1", power="100 W")
    d.run("GS1.out", "EA1.in", size="12 AWG", length="9 ft")
    assert lost_neutrals(situation_of(d)) == []
