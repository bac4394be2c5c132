"""load-refuses-source: loads that check for a grounded neutral."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import camp, changeover, levels
from tests.findings.told import found

RULE = "load-refuses-source"
TOLD = {("EA1",): Level.WARNING}


@pytest.mark.parametrize(("neutral", "told"), [("floating", TOLD), ("bonded", {})])
def test_a_furnace_on_a_floating_set(neutral: str, told: dict) -> None:
    d = camp(neutral=neutral)
    d.rate("EA1", checks_bond="yes")
    assert levels(d, RULE) == told


def test_any_other_load_does_not_care() -> None:
    assert levels(camp(neutral="floating"), RULE) == {}


def test_a_link_in_the_board_is_as_good() -> None:
    d = camp(neutral="floating")
    d.rate("EA1", checks_bond="yes")
    d.rate("QP1", bond="fitted")
    assert levels(d, RULE) == {}


def test_an_open_ground_wire_is_as_bad() -> None:
    d = camp()
    d.rate("EA1", checks_bond="yes")
    d.rate_run("W2", broken="PE")
    assert levels(d, RULE) == TOLD


@pytest.mark.parametrize(("neutral", "states"), [("bonded", 0), ("floating", 1)])
def test_it_is_told_of_the_source_that_floats_alone(neutral: str, states: int) -> None:
    d = changeover("all", neutral=neutral)
    d.rate("EA1", checks_bond="yes")
    hits = found(d, RULE)
    assert len(hits) == states
    for hit in hits:
        assert "G1" in hit.message
        assert "GS1" not in hit.message


def test_a_charger_of_a_car_refuses_too() -> None:
    d = camp(neutral="floating")
    d.part("charger", "TB1", current="10 A", checks_bond="yes")
    d.run("QF1.load", "TB1.ac_in", "W9", size="12 AWG", length="6 ft")
    assert levels(d, RULE) == {("TB1",): Level.WARNING}


@pytest.mark.parametrize(("bond", "told"), [("fitted", {}), ("absent", TOLD)])
def test_behind_an_autotransformer_its_own_neutral_counts(bond: str, told: dict) -> None:
    """240 V from a set without a neutral: what the autotransformer makes is joined in the board."""
    d = Draft(place="building")
    d.part("generator", "G1", circuit="ac240", power="5 kVA", breaker="20 A")
    d.part("autotransformer", "TA1", power="5 kVA")
    d.run("G1.out", "TA1.primary", "W1", size="10 AWG", length="10 ft")
    d.part("panel", "QP1", circuit="split", bond=bond, main="20 A")
    d.run("TA1.secondary", "QP1.feed", "W2", size="10 AWG", length="6 ft")
    d.part("breaker", "QF1", rating="15 A")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="600 W", checks_bond="yes")
    d.run("QF1.load", "EA1.in", "W3", size="14 AWG", length="20 ft")
    assert levels(d, RULE) == told
