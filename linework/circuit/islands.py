"""Islands: what is galvanically together in a state, found before anything is solved."""

from __future__ import annotations

import math
from dataclasses import dataclass

from linework.circuit.incircuit import InCircuit
from linework.circuit.model import Load
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


def find_islands(here: InCircuit, hertz: float, loads: bool, extra: Extra = ()) -> Islands:
    """The islands of one frequency: conductors, sources, loads if on, and leaks that count."""
    circuit = here.circuit
    sets = IntUnions(len(circuit.spots)).join_all(enumerate(here.conductive))
    sets.join_all((s.plus, s.minus) for _, s in here.active)
    if loads:
        sets.join_all((x.a, x.b) for _, x in here.loads if carries(x, hertz))
    sets.join_all((a, b) for a, b, _ in (*extra, *counted_leaks(here, hertz)))
    label = sets.labels()
    alive = {label[s.plus]: s.minus for _, s in reversed(here.active) if s.data.hertz == hertz}
    reference: dict[int, int] = {}
    for anchor in circuit.anchors:
        if label[anchor] in alive:
            reference.setdefault(label[anchor], anchor)
    defined = frozenset(reference)
    for key, minus in alive.items():
        reference.setdefault(key, minus)
    return Islands(tuple(label), reference, defined)


def carries(load: Load, hertz: float) -> bool:
    """A load made for DC is on a network of DC only, one for AC on one of AC."""
    made_for = load.data.hertz
    return load.data.watts > 0.0 and (made_for is None or (made_for == 0.0) == (hertz == 0.0))


def counted_leaks(here: InCircuit, hertz: float) -> list[tuple[int, int, complex]]:
    """The leaks in circuit, added up for each pair of nodes, that are large enough to count."""
    total: dict[tuple[int, int], complex] = {}
    for leak in here.leaks:
        pair = (min(leak.a, leak.b), max(leak.a, leak.b))
        total[pair] = total.get(pair, 0j) + leak_admittance(leak.farad, leak.siemens, hertz)
    return [(a, b, y) for (a, b), y in total.items() if abs(y) >= LEAST_LEAK_S]
