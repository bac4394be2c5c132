"""What a person can open, and what a source reaches past all of it."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.situation import Situation
from linework.study.ways.openings import always_joined, opened_by_hand
from tests.designs import situation_of
from tests.findings.banks import van
from tests.findings.camps import caravan

STATE = {"GP1": "day"}


def opened(situation: Situation) -> set[str]:
    """The parts whose branches a person can open; the joint of a plug is the plug's."""
    branches = [situation.circuit.branches[i] for i in opened_by_hand(situation)]
    return {b.when[0][0][0] if b.sort == "seat" else b.owner for b in branches}


def test_switches_open_and_fuses_do_not() -> None:
    assert opened(situation_of(van(), **STATE)) == {"QB1", "QB2"}


def test_breakers_and_plugs_open() -> None:
    draft = caravan()
    situation = situation_of(draft, G1="running", XP1="XD1")
    assert {"QF1", "QF2", "QF3", "QP1", "XP1"} <= opened(situation)


def joined(draft: Draft, source: str, goal: str) -> tuple[bool, bool]:
    """Whether plus and minus of a terminal are joined to a source past all that opens."""
    situation = situation_of(draft, **STATE)
    (found,) = (s for _, s in situation.active if s.owner == source)
    plus, minus = always_joined(situation, found, opened_by_hand(situation))
    nodes = situation.circuit.terminals[tuple(goal.split("."))]  # type: ignore[index]
    return nodes["+"] in plus, nodes["-"] in minus


@pytest.mark.parametrize(
    ("goal", "ends"),
    [("F1.load", (True, True)), ("QB1.load", (False, True)), ("EL1.in", (False, True))],
)
def test_a_switch_in_plus_ends_what_is_always_joined(goal: str, ends: tuple[bool, bool]) -> None:
    assert joined(van(), "GB1", goal) == ends


def test_a_switch_in_both_poles_ends_both() -> None:
    """The controller joins minus through, but the array's own minus is opened."""
    assert joined(van(), "GP1", "QB2.line") == (True, True)
    assert joined(van(), "GP1", "TC1.pv") == (False, False)


def test_the_way_back_may_go_through_the_chassis() -> None:
    draft = van()
    draft.run_poles("W8", "+")
    draft.run("EL1.in", "XB1.tie", "W30", poles="->body", size="12 AWG", length="1 ft")
    assert joined(draft, "GB1", "EL1.in") == (False, True)
