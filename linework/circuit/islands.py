"""Islands: what is galvanically together in a state, found on the graph before anything is solved."""

from __future__ import annotations

import math
from dataclasses import dataclass

from linework.circuit.model import Circuit
from linework.circuit.states import State
from linework.circuit.unions import IntUnions

LEAST_LEAK_S = 1e-7
"""A leak below this conductance holds nothing to a potential."""

Extra = tuple[tuple[int, int, complex], ...]
"""Instruments: (node, node, admittance in siemens)."""


@dataclass(frozen=True)
class Islands:
    """``label`` of each node; for each label of a live island its reference node.

    ``defined``: labels whose potentials to body or earth mean something.
    """

    label: tuple[int, ...]
    reference: dict[int, int]
    defined: frozenset[int]

    def live(self, node: int) -> bool:
        """Whether a source of this frequency is in the node's island."""
        return self.label[node] in self.reference


def leak_admittance(farad: float, siemens: float, hertz: float) -> complex:
    """Admittance of a leak in siemens: capacitance on AC, insulation on DC."""
    return complex(siemens if hertz == 0.0 else 0.0, 2.0 * math.pi * hertz * farad)


def find_islands(circuit: Circuit, state: State, hertz: float, extra: Extra = ()) -> Islands:
    """The islands of one frequency: conductors, sources, loads, and leaks that count."""
    sets = IntUnions(len(circuit.spots))
    for branch in circuit.branches:
        if state.holds(branch.when):
            sets.join(branch.a, branch.b)
    sources = [s for s in circuit.sources if state.holds(s.when)]
    for source in sources:
        sets.join(source.plus, source.minus)
    for load in circuit.loads:
        if state.holds(load.when):
            sets.join(load.a, load.b)
    for a, b, _ in extra:
        sets.join(a, b)
    for leak in counted_leaks(circuit, state, hertz):
        sets.join(leak[0], leak[1])
    label = sets.labels()
    alive = {label[s.plus]: s.minus for s in reversed(sources) if s.data.hertz == hertz}
    reference: dict[int, int] = {}
    defined: set[int] = set()
    anchors = [n for n in (circuit.earth,) if n is not None] + list(circuit.bodies)
    for anchor in anchors:
        if label[anchor] in alive and label[anchor] not in reference:
            reference[label[anchor]] = anchor
            defined.add(label[anchor])
    for key, minus in alive.items():
        reference.setdefault(key, minus)
    return Islands(tuple(label), reference, frozenset(defined))


def counted_leaks(
    circuit: Circuit, state: State, hertz: float
) -> list[tuple[int, int, complex]]:
    """The leaks in circuit, added up for each pair of nodes, that are large enough to count."""
    total: dict[tuple[int, int], complex] = {}
    for leak in circuit.leakages:
        if leak.a != leak.b and state.holds(leak.when):
            pair = (min(leak.a, leak.b), max(leak.a, leak.b))
            total[pair] = total.get(pair, 0j) + leak_admittance(leak.farad, leak.siemens, hertz)
    return [(a, b, y) for (a, b), y in total.items() if abs(y) >= LEAST_LEAK_S]
