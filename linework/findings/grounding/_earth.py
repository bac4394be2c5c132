"""What of a design reaches the soil: electrodes, and the boards to which they are joined."""

from __future__ import annotations

from linework.design import Change, Design, End, Part
from linework.design.edits import add_run
from linework.findings.view import View
from linework.study.situation import Situation

TO_ROD = {"size": "6 AWG", "length": "3 m", "installation": "jumper"}
"""A conductor to a rod: never more than 6 AWG copper is asked for (250.66(A)). The person gives
its true length."""


def only_board(view: View) -> Part | None:
    """The only panel with a ground bar, None where there are several or none."""
    boards = [
        part
        for part in view.design.parts
        if part.kind == "panel" and view.values(part.id).pick("circuit") != "dc"
    ]
    return boards[0] if len(boards) == 1 else None


def earthed(situation: Situation) -> dict[int, float]:
    """Label of metal that hangs together -> its resistance to earth in ohm, at the most."""
    label = situation.metallic
    siemens: dict[int, float] = {}
    for branch in situation.branches:
        if branch.sort == "soil":
            end = branch.b if branch.a == situation.circuit.earth else branch.a
            siemens[label[end]] = siemens.get(label[end], 0.0) + 1.0 / branch.r_hot
    return {metal: 1.0 / value for metal, value in siemens.items()}


def tied(design: Design, board: str, electrode: str) -> Change:
    """An electrode joined to the ground bar of a board."""
    return add_run(design, End(board, "ground"), End(electrode, "ground"), ratings=TO_ROD)
