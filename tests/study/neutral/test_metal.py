"""Touchable metal, what feeds it, and conductors that end on it."""

from __future__ import annotations

from linework.design import Draft
from linework.study.neutral.metal import (
    crossed_with_ground,
    feeders,
    ground_nodes,
    grounded_at,
    hanging_on,
    reaches,
)
from linework.study.situation import Situation
from tests.designs import situation_of
from tests.findings.camps import camp, caravan


def fed(situation: Situation, owner: str) -> set[tuple[str, ...]]:
    return {feeders(situation, m) for m in situation.circuit.metals if m.owner == owner}


def test_a_case_is_fed_by_what_its_hot_conductor_hangs_on_and_a_body_by_nothing() -> None:
    situation = situation_of(caravan(), G1="running", XP1="XD1")
    assert fed(situation, "EA1") == {("G1",)}
    assert fed(situation, "XB1") == {()}
    assert fed(situation, "G1") == {()}


def test_ground_terminals_and_what_they_are_joined_to() -> None:
    situation = situation_of(camp(), G1="running")
    (load,) = ground_nodes(situation.circuit, "EA1")
    assert reaches(situation, situation.metallic, load, ("G1",))
    assert grounded_at(situation.circuit, situation.metallic, "EA1") == {situation.metallic[load]}
    assert ground_nodes(situation.circuit, "nothing") == []
    here = situation.metallic[load]
    assert hanging_on(situation.circuit, situation.metallic, here) >= {"G1", "QP1", "EA1", "XD1"}


def without_ground(draft: Draft) -> Situation:
    draft.rate_run("W2", broken="PE")
    return situation_of(draft, G1="running")


def test_a_broken_ground_wire_reaches_nothing() -> None:
    situation = without_ground(camp())
    (load,) = ground_nodes(situation.circuit, "EA1")
    assert not reaches(situation, situation.metallic, load, ("G1",))
    here = situation.metallic[load]
    assert hanging_on(situation.circuit, situation.metallic, here) == {"EA1"}


def crossed(poles: str) -> tuple[set[str], set[str]]:
    """The poles of W2 that are crossed with ground: as neutrals, as hot conductors."""
    draft = camp()
    draft.run_poles("W2", poles)
    situation = situation_of(draft, G1="running")
    sides = (crossed_with_ground(draft.design, situation, neutral) for neutral in (True, False))
    one, other = ({branch.pole for branch in side.values()} for side in sides)
    return one, other


def test_conductors_crossed_with_ground_are_told_by_what_they_begin_as() -> None:
    assert crossed("L N PE") == (set(), set())
    assert crossed("L>L N>PE PE>N") == ({"N", "PE"}, set())
    assert crossed("L>PE N>N PE>L") == (set(), {"L", "PE"})
