"""Touchable metal and ground terminals: what feeds the part, and what wires join to it."""

from __future__ import annotations

from collections.abc import Sequence

from linework.circuit.model import Branch, Circuit, MetalAt
from linework.design import Design, pole_map
from linework.study.once import once
from linework.study.situation import Situation
from linework.wiring import Pole, is_dc, is_protective


def ground_nodes(circuit: Circuit, owner: str) -> list[int]:
    """The nodes of the ground terminals of a part."""
    terminals = circuit.terminals_of.get(owner, ())
    return [nodes[Pole.PE] for nodes in terminals if Pole.PE in nodes]


def feeders(situation: Situation, metal: MetalAt) -> tuple[str, ...]:
    """AC sources on the hot conductors of the part that the metal belongs to, as far as they can
    touch it; bodies have none."""
    if metal.data.body:
        return ()
    circuit, beside = situation.circuit, metal.data.beside
    near = [circuit.terminals[metal.owner, name] for name in beside]
    found = {
        s.owner
        for nodes in near or circuit.terminals_of[metal.owner]
        for node in nodes.values()
        for s in situation.feeds(node)
        if s.is_ac and s.owner != metal.owner
    }
    return tuple(sorted(found))


def grounded_at(circuit: Circuit, labels: Sequence[int], owner: str) -> set[int]:
    """The labels of the ground terminals of a part."""
    return {labels[node] for node in ground_nodes(circuit, owner)}


def hanging_on(circuit: Circuit, labels: Sequence[int], metal: int) -> set[str]:
    """The parts whose ground terminal hangs on metal of this label."""
    return {
        part
        for (part, _), nodes in circuit.terminals.items()
        if Pole.PE in nodes and labels[nodes[Pole.PE]] == metal
    }


def reaches(
    situation: Situation, labels: Sequence[int], node: int, owners: tuple[str, ...]
) -> bool:
    """Whether a node is joined to the ground terminals of all these sources, by these labels."""
    circuit = situation.circuit
    return all(labels[node] in grounded_at(circuit, labels, owner) for owner in owners)


def crossed_with_ground(design: Design, situation: Situation, neutral: bool) -> dict[int, Branch]:
    """Conductors of AC runs in circuit that end on a ground wire or metal, by branch index.

    ``neutral``: those that begin as a neutral; else those that begin as a hot conductor.
    """
    wanted = _crossed(situation.circuit, design, neutral)
    branches = situation.circuit.branches
    return {i: branches[i] for i in wanted if i in situation.closed}


@once
def _crossed(circuit: Circuit, design: Design, neutral: bool) -> tuple[int, ...]:
    """The same, in circuit or not."""
    wanted: dict[str, set[str]] = {}
    for run in design.runs:
        for p, q in pole_map(design, run):
            live = q if is_protective(p) else p
            unlike = is_protective(p) != is_protective(q)
            if unlike and not is_dc(live) and (live is Pole.N) == neutral:
                wanted.setdefault(run.id, set()).add(str(p))
    return tuple(
        i
        for i, branch in enumerate(circuit.branches)
        if branch.pole in wanted.get(branch.owner, ())
    )
