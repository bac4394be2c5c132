"""The search for live circuits, held against all states one by one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from linework.circuit import Circuit, expand
from linework.circuit.arrangements import Cube, merged, number
from linework.circuit.growing import Grown, Growth
from linework.circuit.knowledge import AT_REST, CAUGHT, Knowledge
from linework.circuit.search import Search, Standing
from linework.circuit.states import State
from linework.design import Draft
from linework.design.edits import add_interlock
from linework.storage import load
from tests.chance import NUMBERS, draft
from tests.enumeration import all_states

SAMPLES = sorted((Path(__file__).parents[2] / "samples").glob("*.linework"))
RUN = {"size": "10 AWG", "length": "10 ft"}


@dataclass
class Oracle:
    """What all states tell: the live circuits of each, the followers that find no rest."""

    rest: list[tuple[State, frozenset[Grown]]]
    passing: list[tuple[State, frozenset[Grown]]]

    def standing(self) -> set[Grown]:
        return {grown for _, found in self.rest for grown in found}


def oracle(search: Search) -> Oracle:
    found = Oracle([], [])
    for state in all_states(search.circuit).states:
        caught = None
        if state.passing is not None:
            caught = (state.passing, state.positions[state.passing])
        known = Knowledge(search.lasting, dict(state.free), caught=caught)
        world = AT_REST if caught is None else CAUGHT
        here = frozenset(_grown(search, known, world))
        (found.rest if caught is None else found.passing).append((state, here))
    return found


def _grown(search: Search, known: Knowledge, world: int) -> Iterator[Grown]:
    for part in search.parts:
        grown = Growth(search.lasting, known, world).grow(part)
        if grown is not None:
            yield grown


def assert_as_all_states(circuit: Circuit) -> None:
    search = Search(circuit)
    found, told = search.circuits(), oracle(search)
    assert {s.grown for s in found.at_rest} == told.standing()
    between = {grown for _, here in told.passing for grown in here} - told.standing()
    assert {s.grown for s in found.passing} == between
    for standing in found.at_rest:
        assert_stands_where_said(search, standing, told)
    restless = {key for state, _ in told.rest for key in state.restless}
    assert {key for key, _ in found.restless} == restless
    assert_leaves_part_the_states(search, len(told.rest))


def assert_stands_where_said(search: Search, standing: Standing, told: Oracle) -> None:
    cubes = merged(standing.arrangements, search.choices)
    states = [state for state, here in told.rest if standing.grown in here]
    assert [state for state, _ in told.rest if _agrees(state, cubes)] == states
    assert number(cubes, search.choices) == len(states)


def _agrees(state: State, cubes: tuple[Cube, ...]) -> bool:
    return any(cube <= set(state.free) for cube in cubes)


def assert_leaves_part_the_states(search: Search, states: int) -> None:
    assert search.choices.number == states
    for part in search.parts:
        assert sum(search.choices.count(leaf.known) for leaf in search.leaves(part)) == states


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_the_samples_have_the_circuits_of_all_their_states(path: Path) -> None:
    assert_as_all_states(expand(load(path)))


@pytest.mark.parametrize("drawn", NUMBERS)
def test_a_random_design_has_the_circuits_of_all_its_states(drawn: int) -> None:
    assert_as_all_states(expand(draft(drawn).design))


@pytest.mark.parametrize("drawn", NUMBERS)
def test_a_follower_stands_where_all_rounds_put_it(drawn: int) -> None:
    search = Search(expand(draft(drawn).design))
    for state in all_states(search.circuit).states[:100]:
        if state.passing is None:
            known = Knowledge(search.lasting, dict(state.free))
            for key in search.circuit.selectors:
                assert known.position(key, AT_REST) == state.positions[key]


# many switches


def sets(count: int) -> Draft:
    """Sets with two neutral-ground links each on one ground bar, each with a cord of its own."""
    d = Draft(place="field")
    d.part("body", "XB1")
    for n in range(1, count + 1):
        d.part("generator", f"G{n}", power="3 kVA", neutral="bonded")
        d.part("panel", f"QP{n}", bond="fitted")
        d.part("outlet", f"XD{n}")
        d.part("plug", f"XP{n}")
        d.part("outlet", f"XE{n}")
        d.run(f"G{n}.out", f"XD{n}.feed", **RUN)
        d.seat(f"XP{n}", f"XD{n}", "face")
        d.run(f"XP{n}.cord", f"QP{n}.feed", **RUN)
        d.run(f"QP{n}.ground", "XB1.tie", **RUN)
    return d


def test_forty_switches_are_searched_completely() -> None:
    search = Search(expand(sets(20).design))
    found = search.circuits()
    assert search.choices.number == 2**40
    assert len(found.at_rest) == 40
    assert all(
        number(merged(s.arrangements, search.choices), search.choices) == 2**38
        for s in found.at_rest
    )


def test_interlocked_breakers_are_counted_by_what_is_permitted() -> None:
    d = Draft(place="building")
    d.part("supply", "GS1", outage="no")
    d.part("panel", "QP1", places="20")
    d.run("GS1.out", "QP1.feed", **RUN)
    names = [f"QF{n}" for n in range(1, 14)]
    for n, name in enumerate(names, 1):
        d.part("breaker", name, rating="20 A")
        d.seat(name, "QP1", str(n))
    d.design.apply(add_interlock(d.design, [(q, "breaker", "closed") for q in names]))
    search = Search(expand(d.design))
    assert search.choices.number == 14
    assert_leaves_part_the_states(search, 14)
    assert len(search.circuits().at_rest) == 14
