"""A feeder without a ground wire to a board that joins neutral and ground itself.

What is checked
    In buildings, in every state: boards with a link that a run feeds without a
    ground wire, another link being before them; and whether they have an
    electrode of their own.
Why it matters
    All metal of that building hangs on the neutral: where it opens, that metal
    stands at the full voltage. Any other metal between the buildings carries
    load current.
How to cure it
    A feeder with a ground wire, and the link out of the board.
Limits
    When it was built is not drawn; whether water pipes or cables join the
    buildings is not seen either.
Sources
    NFPA 70 (2023) 250.32(B)(1) exception, 250.32(A) (from memory: allowed where
    it stood before the edition of 2008).
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.study.answers.services import linked_feeders
from linework.words import N_

OLD = N_(
    "{run} brings no {ground_wire} to {board}, which joins {neutral} and {ground} itself. That may"
    " stay only where it has stood since before the code of 2008, and where no other metal joins"
    " the two buildings. New work takes {a_ground_wire} in {run} and no link in {board}."
)
NO_ROD = N_(
    "{board} joins {neutral} and {ground} in a building of its own and has no {electrode} there:"
    " one is asked for."
)


def check(view: View) -> Iterator[Outcome]:
    """A note for each such feeder, a warning for each such board without an electrode."""
    clause = view.clause({"NA": "250.32(B)(1)"})
    for look in view.settled_looks if clause else ():
        for found in linked_feeders(look.studies, view.design):
            names = {"board": view.name(found.board)}
            links = Evidence(N_("{neutral_ground_link}s beyond the first"), 1.0, "count")
            yield look.hit(
                Level.NOTE,
                (found.run,),
                OLD,
                names | {"run": view.name(found.run)},
                (links,),
                touches=frozenset({found.board}),
                clause=clause,
            )
            if not found.rod:
                rods = Evidence(N_("electrodes in reach"), 0.0, "count")
                yield look.hit(
                    Level.WARNING, (found.board,), NO_ROD, names, (rods,), clause="250.32(A)"
                )


RULE = Rule(
    "link-on-feeder",
    N_("Feeder without {a_ground_wire} to a board with a link"),
    check,
    {"NA": "250.32(B)", "INT": "practice"},
    causes=("bond-doubled",),
)
