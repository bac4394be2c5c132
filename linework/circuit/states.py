"""Operating states: free choices, and the followers that find their rest."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from linework.circuit.model import Circuit, Condition, SelectorAt, SelectorKey
from linework.circuit.unions import IntUnions, joined

ROUNDS = 8
"""So often followers are let move, all at once; what moves still then finds no rest."""


@dataclass(frozen=True)
class State:
    """One position of everything.

    ``free`` are the choices of a person, ``positions`` those of every selector.
    ``passing`` names the follower that is caught between two positions.
    ``restless``: followers that found no position of rest.
    """

    free: tuple[tuple[SelectorKey, str], ...]
    positions: Mapping[SelectorKey, str] = field(compare=False)
    passing: SelectorKey | None = None
    restless: tuple[SelectorKey, ...] = ()

    def holds(self, when: Condition) -> bool:
        """Whether an element with this condition is in circuit."""
        return all(self.positions.get(key) in among for key, among in when)


def free_selectors(circuit: Circuit) -> list[SelectorAt]:
    """Levers, plugs and sources; and the breakers that an interlock names."""
    locked = {key for lock in circuit.excluded for key, _ in lock}
    return [
        selector
        for key, selector in sorted(circuit.selectors.items())
        if len(selector.positions) > 1 and (selector.moves in ("hand", "source") or key in locked)
    ]


def settle(circuit: Circuit, choice: Mapping[SelectorKey, str]) -> State:
    """The state of a choice: followers move until nothing changes any more."""
    positions = {key: selector.rest for key, selector in circuit.selectors.items()}
    positions.update(choice)
    followers = [s for s in circuit.selectors.values() if s.moves == "follows"]
    free = tuple(sorted(choice.items()))
    moved: list[SelectorKey] = []
    for _ in range(ROUNDS if followers else 0):
        state = State(free, positions)
        sets = conductive(circuit, state)
        wanted = {f.key: _follow(circuit, state, f, sets) for f in followers}
        moved = [key for key, position in wanted.items() if position != positions[key]]
        positions = {**positions, **wanted}
        if not moved:
            break
    return State(free, positions, restless=tuple(moved))


def caught(state: State, key: SelectorKey, position: str) -> State:
    """A state while a follower stands between two positions; what hangs on it has not moved yet."""
    return State(state.free, {**state.positions, key: position}, passing=key)


def _follow(circuit: Circuit, state: State, follower: SelectorAt, sets: IntUnions) -> str:
    """Its position by the first line of its rule that holds, without its own part as a source."""
    owner = follower.key[0]
    live = live_without(circuit, state, owner, sets)
    for line, pairs in follower.rule:
        stands = all(state.positions[owner, name] == position for name, position in line.stands)
        if stands and all(map(live, pairs)):
            return line.position
    return follower.rest


def live_without(
    circuit: Circuit, state: State, owner: str, sets: IntUnions
) -> Callable[[tuple[int, int]], bool]:
    """Whether a source of another part than ``owner`` lies between two nodes."""
    fed = _fed_by_others(circuit, state, owner, sets)

    def live(pair: tuple[int, int]) -> bool:
        one, other = map(sets.find, pair)
        return one != other and any(one in nodes and other in nodes for nodes in fed)

    return live


def _fed_by_others(circuit: Circuit, state: State, owner: str, sets: IntUnions) -> list[set[int]]:
    """For each source part but one the conductors it makes live; batteries in series together."""
    fed: dict[str, set[int]] = {}
    on = [s for s in circuit.sources if s.owner != owner and state.holds(s.when)]
    for s in on:
        fed.setdefault(s.owner, set()).update((sets.find(s.plus), sets.find(s.minus)))
    place = {name: i for i, name in enumerate(fed)}
    direct = [s for s in on if s.data.hertz == 0.0]
    label = joined(
        len(place),
        (
            (place[one.owner], place[after.owner])
            for one, after in itertools.permutations(direct, 2)
            if sets.find(one.minus) == sets.find(after.plus)
        ),
    )
    strings: dict[int, set[int]] = {}
    for name, nodes in fed.items():
        strings.setdefault(label[place[name]], set()).update(nodes)
    return list(strings.values())


def conductive(circuit: Circuit, state: State) -> IntUnions:
    """What is conductively joined; loads and sources do not join."""
    branches = circuit.branches
    return (
        circuit.lasting_sets(frozenset())
        .copy()
        .join_all(
            (branches[i].a, branches[i].b) for i, when in circuit.switched if state.holds(when)
        )
    )
