"""Which conductors a fault burns, against published withstands."""

from __future__ import annotations

import math

import numpy as np
import pytest

from linework.design import Design, Draft
from linework.study.shorts.clearing import Ending
from linework.study.shorts.faults import Outcome
from linework.study.shorts.flows import Flows
from linework.study.shorts.heat import burnt, withstands
from linework.study.situation import Situation
from tests.designs import situation_of

Cable = tuple[Design, Situation]


def cable(**run: str) -> Cable:
    """A board fed by 10 AWG behind a 30 A breaker."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="30 A", outage="no")
    draft.part("panel", "QP1", bond="absent")
    draft.run("GS1.out", "QP1.feed", "W1", **({"size": "10 AWG", "length": "20 ft"} | run))
    return draft.design, situation_of(draft)


def told(
    drawn: Cable, amps: float, seconds: float, share: float = 1.0, later_s: float = 0.0
) -> dict[str, float]:
    """Pole of each conductor that burns -> the area that it needs, for a current in all of them,
    ended by nothing that is tested with its wire."""
    design, situation = drawn
    survive = withstands(design, situation)
    flows = Flows(np.array(sorted(survive)), np.full(len(survive), amps))
    nothing = Flows(np.zeros(0, dtype=int), np.zeros(0))
    outcome = Outcome(120.0, amps, amps * share, later_s, None, 60.0, flows, nothing, nothing)
    end = Ending("ground-fault", 0, seconds, seconds, 60.0, 60.0, amps)
    branches = situation.circuit.branches
    found = burnt(situation, survive, outcome, end)
    return {branches[item.branch].pole: item.least_mm2 for item in found}


@pytest.mark.parametrize(("amps", "burns"), [(4300.0 * 0.985, False), (4300.0 * 1.015, True)])
def test_10_awg_survives_4300_a_for_one_period(amps: float, burns: bool) -> None:
    # thermoplastic, 75 to 150 C, 60 Hz: 4300 A, published to two figures (fuse maker's data after
    # ICEA, studylib.net/doc/13679022)
    assert bool(told(cable(), amps, 1.0 / 60.0)) is burns


def test_the_area_that_would_survive() -> None:
    # S = I sqrt(t) / k (IEC 60364-5-54 543.1.2); k = 105 from 75 to 150 C
    area = told(cable(), 3000.0, 0.1)["PE"]
    assert area == pytest.approx(3000.0 * math.sqrt(0.1) / 105.1, rel=1e-3)


def test_a_ground_wire_of_its_own_size() -> None:
    assert set(told(cable(ground_size="14 AWG"), 2000.0, 1.0 / 60.0)) == {"PE"}


def test_rubber_stands_more_than_thermoplastic() -> None:
    amps = 4300.0 * 1.015
    assert told(cable(installation="cord"), amps, 1.0 / 60.0) == {}


def test_beyond_five_seconds_heat_is_shed() -> None:
    assert told(cable(), 1000.0, 4.9) != {}
    assert told(cable(), 1000.0, 5.1) == {}


def test_a_current_that_falls_back_brings_less_heat() -> None:
    # 2000 A for 50 ms, then 200 A: 4e6 x (0.05 + 0.01 x 0.95) = 238 kA2s, below 306
    assert told(cable(), 2000.0, 1.0) != {}
    assert told(cable(), 2000.0, 1.0, share=0.1, later_s=0.05) == {}


def test_a_conductor_of_unknown_size_is_left_out() -> None:
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="30 A", outage="no")
    draft.part("panel", "QP1", bond="absent")
    draft.run("GS1.out", "QP1.feed", "W1", length="20 ft")
    assert withstands(draft.design, situation_of(draft)) == {}
