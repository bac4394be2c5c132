"""What of a circuit reaches the soil."""

from __future__ import annotations

from collections.abc import Collection

from linework.study.neutral.metal import feeders, reaches
from linework.study.situation import Situation


def earthed(situation: Situation) -> dict[int, float]:
    """Label of metal that hangs together -> its resistance to earth in ohm, at the most."""
    label = situation.metallic
    siemens: dict[int, float] = {}
    for branch in situation.branches:
        if branch.sort == "soil":
            end = branch.b if branch.a == situation.circuit.earth else branch.a
            siemens[label[end]] = siemens.get(label[end], 0.0) + 1.0 / branch.r_hot
    return {metal: 1.0 / value for metal, value in siemens.items()}


def on_own_earth(situation: Situation) -> frozenset[int]:
    """Labels of the metal of what AC sources feed that none of their ground wires reaches, and that
    has an electrode, while soil leads to their neutral too: a fault to it comes back through the
    soil (the system TT of IEC 60364-1 312.2.2)."""
    metal, whole, earthy = situation.metallic, situation.conductive, earthed(situation)
    found = set()
    for each in situation.circuit.metals:
        owners = feeders(situation, each)
        cut = owners and not reaches(situation, metal, each.node, owners)
        if cut and metal[each.node] in earthy and _reach(situation, owners, whole[each.node]):
            found.add(metal[each.node])
    return frozenset(found)


def _reach(situation: Situation, owners: Collection[str], label: int) -> bool:
    """Whether some return of these sources is joined to what has this label, soil included."""
    whole = situation.conductive
    return any(whole[s.minus] == label for _, s in situation.active if s.owner in owners)
