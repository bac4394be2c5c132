"""What is live, fed, crossed and met in a state is what its circuits tell, each by itself."""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from pathlib import Path

import pytest

from linework.circuit import Circuit, expand
from linework.circuit.arrangements import merged
from linework.circuit.content import Contents
from linework.circuit.search import Search, parted
from linework.design import Draft
from linework.storage import load
from linework.study.energised import energised
from linework.study.situation import Situation
from tests.chance import NUMBERS, draft
from tests.enumeration import all_states

SAMPLES = sorted((Path(__file__).parents[2] / "samples").glob("*.linework"))
MOST = 60
"""States looked at of one design, spread over all."""


def facts(situation: Situation) -> Iterator[Hashable]:
    """Each with the owner of one source, where it has sources."""
    found = energised(situation)
    yield from (("fed", load, owner) for load, owners in found.fed.items() for owner in owners)
    yield from (("crossed", load) for load in found.crossed)
    yield from (("meets", m.one.source, m.other.source) for m in found.meetings)
    yield from (("pins", p.pins, owner) for p in found.live_pins for owner in p.sources)
    yield from (("backfed", pair) for pair in found.backfed)
    for node in range(len(situation.circuit.spots)):
        yield from (("live", node, system.source) for system in situation.feeds(node))


def assert_circuits_tell_all(circuit: Circuit) -> None:
    search = Search(circuit)
    contents = Contents(search.lasting)
    states = [state for state in all_states(circuit).states if state.passing is None]
    for state in states[:: max(len(states) // MOST, 1)]:
        whole = set(facts(Situation(circuit, state)))
        found: set[Hashable] = set()
        for grown in parted(search.lasting, dict(state.free)):
            found |= set(facts(Situation(circuit, state, contents.extent(grown, state))))
        assert found == whole, dict(state.free)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_the_circuits_of_a_sample_tell_what_its_states_do(path: Path) -> None:
    assert_circuits_tell_all(expand(load(path)))


@pytest.mark.parametrize("drawn", NUMBERS)
def test_the_circuits_of_a_random_design_tell_what_its_states_do(drawn: int) -> None:
    assert_circuits_tell_all(expand(draft(drawn).design))


# an island


def standing(d: Draft) -> dict[bytes, Hashable]:
    """Every circuit by its content: its parts, and the arrangements in which it stands."""
    search = Search(expand(d.design))
    contents = Contents(search.lasting)
    found = search.circuits()
    return {
        contents.of(s.grown, s.passing): (s.grown.parts, merged(s.arrangements, search.choices))
        for s in (*found.at_rest, *found.passing)
    }


@pytest.mark.parametrize("drawn", NUMBERS)
def test_an_island_leaves_every_circuit_of_a_random_design(drawn: int) -> None:
    d = draft(drawn)
    before = standing(d)
    d.part("generator", "G99", power="2 kVA")
    d.part("outlet", "XD99")
    d.run("G99.out", "XD99.feed", "W99", size="12 AWG", length="10 ft")
    after = standing(d)
    assert {mark: after[mark] for mark in after if mark in before} == before
    assert [told for mark, told in after.items() if mark not in before] == [
        (frozenset({"G99"}), (frozenset({(("G99", "set"), "running")}),))
    ]
