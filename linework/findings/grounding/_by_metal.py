"""Currents that come back to their source only through the metal of a hull, chassis or frame."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from linework.circuit.incircuit import SOIL
from linework.circuit.model import Load
from linework.circuit.series import ways_back
from linework.study.situation import Situation


def ties_of(situation: Situation, bodies: Collection[str]) -> dict[int, str]:
    """The runs in circuit that end on some bodies, by branch."""
    nodes = {n for body in bodies for n in situation.circuit.terminals[body, "tie"].values()}
    branches = situation.circuit.branches
    return {
        i: branches[i].owner for i in situation.closed if nodes & {branches[i].a, branches[i].b}
    }


def past_ties(situation: Situation, ties: Mapping[int, str]) -> Sequence[int]:
    """For each node the label of what metal joins it to, with those runs taken away."""
    return situation.labels_without(frozenset(ties), SOIL)


def runs_at(
    situation: Situation, ties: Mapping[int, str], load: Load, label: Sequence[int]
) -> list[str]:
    """Those by which the current of a load comes into the metal; ``label`` is :func:`past_ties`."""
    branches = situation.circuit.branches
    return sorted(
        {
            run
            for i, run in ties.items()
            if label[load.b] in (label[branches[i].a], label[branches[i].b])
        }
    )


def only_by_metal(situation: Situation, load: Load, label: Sequence[int]) -> bool:
    """Whether some source feeds a load and gets its current back through those bodies alone."""
    whole = situation.conductive
    fed = [
        i
        for i, source in situation.active
        if source.data.hertz == 0.0
        and whole[source.plus] == whole[load.a]
        and whole[load.b] in ways_back(situation, i, whole)
    ]
    return bool(fed) and not any(label[load.b] in ways_back(situation, i, label) for i in fed)
