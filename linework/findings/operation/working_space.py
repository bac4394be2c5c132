"""Room to stand before a board.

What is checked
    Whether a board for alternating current is drawn.
Why it matters
    Who leans over a bed to reset a breaker falls on live parts when it sparks,
    and cannot get away.
How to cure it
    In a building 3 ft deep, 30 in wide and 6.5 ft high before it, kept free; in
    a recreational vehicle 24 in wide and 30 in deep; elsewhere 0.7 m and 2 m.
Limits
    A drawing shows no room. This caution is never accepted away.
Sources
    NFPA 70 (2023) 110.26(A), 551.45(B) (figures from memory); IEC 60364-7-729.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError
from linework.design import Part
from linework.design.names import natural
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.study.wires.ratings import rules_of
from linework.words import N_

NO_TABLE = N_("{fault}")
MESSAGE = N_("Keep room before {where} to stand and step back: {room}.")


def check(view: View) -> Iterator[Outcome]:
    """One note for each kind of place, at its first board."""
    boards = sorted(
        (
            p
            for p in view.design.parts
            if view.kind(p.id).board and view.values(p.id).pick("circuit") != "dc"
        ),
        key=lambda p: natural(p.designation),
    )
    for aboard in (False, True):
        here = [board for board in boards if view.place_of(board.id).aboard is aboard]
        if here:
            yield _room(view, here, aboard)


def _room(view: View, boards: list[Part], aboard: bool) -> Outcome:
    first = (boards[0].id,)
    try:
        room = rules_of(view.design).room_before_boards(aboard)
    except CodesError as fault:
        return NotChecked(NO_TABLE, {"fault": fault}, first)
    words = {"where": ", ".join(p.designation for p in boards), "room": room.value}
    figures = (Evidence(N_("boards"), float(len(boards)), "count"),)
    return Hit(Level.NOTE, first, MESSAGE, words, figures)


RULE = Rule(
    "working-space",
    N_("Room before boards"),
    check,
    {"NA": "110.26(A), 551.45(B)", "INT": "7-729"},
    always_printed=True,
)
