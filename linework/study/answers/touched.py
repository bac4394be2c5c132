"""What is live to a person: where a source drives a voltage to what is touched with it.

Told on the graph, so that it also holds of what floats: two conductors of one terminal, or one and
the earth, a body or a case, between which a source that is on has a way. Loads pass voltage on.
"""

from __future__ import annotations

from collections.abc import Iterable

from linework.circuit.incircuit import InCircuit
from linework.circuit.model import LiveSource
from linework.circuit.unions import IntUnions

Place = tuple[str, str]
"""A part and its terminal."""


def live_places(here: InCircuit) -> dict[Place, frozenset[str]]:
    """Each terminal at which a voltage can be met, with the parts whose sources drive it."""
    potential, island = _potentials(here)
    circuit = here.circuit
    on = [s for _, s in here.active if potential[s.plus] != potential[s.minus]]
    metal = {*circuit.anchors, *(each.node for each in circuit.metals)}
    told = _by_island(metal, island, potential)
    found: dict[Place, frozenset[str]] = {}
    for place, nodes in circuit.terminals.items():
        mine = _by_island(nodes.values(), island, potential)
        for one, levels in mine.items():
            if len(levels | told.get(one, set())) > 1:
                driving = _driving(on, one, levels - told.get(one, set()), island, potential)
                found[place] = found.get(place, frozenset()) | driving
    return {place: owners for place, owners in found.items() if owners}


def _driving(
    on: list[LiveSource], island: int, levels: set[int], islands: list[int], potential: list[int]
) -> frozenset[str]:
    """The parts whose windings end at the conductors, else all that can reach them."""
    near = [s for s in on if islands[s.plus] == island]
    at = [s for s in near if levels & {potential[s.plus], potential[s.minus]}]
    return frozenset(s.owner for s in at or near)


def _by_island(
    nodes: Iterable[int], island: list[int], potential: list[int]
) -> dict[int, set[int]]:
    found: dict[int, set[int]] = {}
    for node in nodes:
        found.setdefault(island[node], set()).add(potential[node])
    return found


def _potentials(here: InCircuit) -> tuple[list[int], list[int]]:
    """For each node a label of what has its voltage for certain, and one of all to which sources
    and loads lead from it.

    What hangs on one live conductor by loads alone is at the voltage of that; what hangs on two
    is between them.
    """
    label = here.conductive
    ends = [(label[s.plus], label[s.minus]) for _, s in here.active]
    draws = [(label[x.a], label[x.b]) for _, x in here.loads if x.data.watts > 0.0]
    fed = {end for pair in ends for end in pair}
    level = IntUnions(len(label)).join_all(enumerate(label))
    level.join_all(pair for pair in draws if fed.isdisjoint(pair))
    beyond: dict[int, set[int]] = {}
    for one, other in (*draws, *((b, a) for a, b in draws)):
        if one not in fed and other in fed:
            beyond.setdefault(level.find(one), set()).add(other)
    level.join_all((group, min(there)) for group, there in beyond.items() if len(there) == 1)
    potential = level.labels()
    island = level.join_all([*ends, *draws]).labels()
    return potential, island
