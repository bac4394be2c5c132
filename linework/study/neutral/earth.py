"""What of a circuit reaches the soil."""

from __future__ import annotations

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
