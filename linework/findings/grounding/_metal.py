"""Touchable metal, what feeds the part that it belongs to, and what is joined to it by mistake."""

from __future__ import annotations

from linework.circuit.model import Branch, MetalAt
from linework.design import pole_map
from linework.findings.view import View
from linework.study.situation import Situation
from linework.wiring import Pole, is_dc, is_protective


def feeders(situation: Situation, metal: MetalAt) -> tuple[str, ...]:
    """AC sources on the hot conductors of the part that the metal belongs to; bodies have none."""
    if metal.data.kind == "body":
        return ()
    found = {
        s.owner
        for nodes in situation.circuit.terminals_of[metal.owner]
        for node in nodes.values()
        for s in situation.feeds(node)
        if s.is_ac and s.owner != metal.owner
    }
    return tuple(sorted(found))


def ground_nodes(situation: Situation, owner: str) -> list[int]:
    """The nodes of the ground terminals of a part."""
    terminals = situation.circuit.terminals_of.get(owner, ())
    return [nodes[Pole.PE] for nodes in terminals if Pole.PE in nodes]


def reaches(situation: Situation, labels: list[int], node: int, owners: tuple[str, ...]) -> bool:
    """Whether a node is joined to the ground terminals of all these sources, by these labels."""
    return all(
        labels[node] in {labels[ground] for ground in ground_nodes(situation, owner)}
        for owner in owners
    )


def _unlike(view: View, neutral: bool) -> dict[str, set[str]]:
    """Run -> its conductors that join ground to a neutral, or to a hot conductor."""
    wanted: dict[str, set[str]] = {}
    for run in view.design.runs:
        for p, q in pole_map(view.design, run):
            live = q if is_protective(p) else p
            unlike = is_protective(p) != is_protective(q)
            if unlike and not is_dc(live) and (live is Pole.N) == neutral:
                wanted.setdefault(run.id, set()).add(str(p))
    return wanted


def crossed_with_ground(view: View, situation: Situation, neutral: bool) -> dict[int, Branch]:
    """Conductors of AC runs in circuit that end on a ground wire or metal, by branch index.

    ``neutral``: those that begin as a neutral; else those that begin as a hot conductor.
    """
    wanted = view.once(("unlike", neutral), lambda: _unlike(view, neutral))
    branches = situation.circuit.branches
    return {
        i: branches[i]
        for i in sorted(situation.closed)
        if branches[i].pole in wanted.get(branches[i].owner, ())
    }
