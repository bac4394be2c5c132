"""Every state of a circuit, one by one: the oracle that the search for live circuits is held to."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from linework.circuit import Circuit, SelectorKey, State, free_selectors, settle
from linework.circuit.model import SelectorAt
from linework.circuit.states import caught, conductive, live_without


@dataclass(frozen=True)
class StateSet:
    """The states of a circuit, of how many combinations."""

    states: tuple[State, ...]
    combinations: int


def all_states(circuit: Circuit) -> StateSet:
    """Every permitted combination of free choices, settled; then the passing states."""
    choices = list(_combinations(free_selectors(circuit)))
    found = [settle(circuit, choice) for choice in choices if _permitted(circuit, choice)]
    passing = [between for state in found for between in _passing(circuit, state)]
    return StateSet((*found, *passing), len(choices))


def _combinations(free: list[SelectorAt]) -> Iterator[dict[SelectorKey, str]]:
    keys = [selector.key for selector in free]
    for positions in itertools.product(*(selector.positions for selector in free)):
        yield dict(zip(keys, positions, strict=True))


def _permitted(circuit: Circuit, choice: Mapping[SelectorKey, str]) -> bool:
    return all(
        sum(choice.get(key) == position for key, position in lock) <= 1 for lock in circuit.excluded
    )


def _passing(circuit: Circuit, state: State) -> Iterator[State]:
    for selector in circuit.selectors.values():
        for passage, pairs in selector.passing:
            if state.positions[selector.key] == passage.after and _may_pass(
                circuit, state, selector, pairs
            ):
                yield caught(state, selector.key, passage.position)


def _may_pass(
    circuit: Circuit, state: State, selector: SelectorAt, pairs: tuple[tuple[int, int], ...]
) -> bool:
    if not pairs:
        return True
    live = live_without(circuit, state, selector.key[0], conductive(circuit, state))
    return all(map(live, pairs))
