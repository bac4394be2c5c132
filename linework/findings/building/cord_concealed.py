"""A flexible cord that goes out of sight.

What is checked
    Each run that is a flexible cord and is said to be hidden, or to go through
    a hole in a wall, floor, door or window.
Why it matters
    Nobody sees it age, be pinched or get warm; it is in nobody's way until it
    burns.
How to cure it
    A cable made for the wall up to an outlet or inlet, and the cord from there.
Limits
    What is not said of a run is taken as lying open. The cord of a vehicle that
    is attached for good and ends in a plug may leave through its wall.
Sources
    NFPA 70 (2023) 400.12(2), (4), (5), 551.46(A); IEC 60364-5-52 522.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Run
from linework.findings.mending import change_run
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.words import N_, say

HIDDEN = N_("{run} is a flexible cord hidden in the building: nobody sees it age or get warm.")
HOLE = N_("{run} is a flexible cord through a hole in a wall, floor, door or window.")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each cord."""
    for run in sorted(view.design.runs, key=lambda item: item.id):
        values = view.run_values(run.id)
        where = values.pick("hidden")
        if values.pick("installation") != "cord" or where == "no" or _attached(view, run, where):
            continue
        yield Hit(
            Level.WARNING,
            (run.id,),
            HIDDEN if where == "hidden" else HOLE,
            {"run": view.name(run.id)},
            (Evidence(N_("how it is laid"), None, "text", say("flexible cord")),),
            mend=_mend(view, run.id),
            clause=view.clause(_CLAUSES[where]),
        )


_CLAUSES = {"hidden": {"NA": "400.12(4), (5)"}, "hole": {"NA": "400.12(2)"}}


def _attached(view: View, run: Run, where: str) -> bool:
    """The cord of a vehicle that is attached for good, with its plug at the other end."""
    ends = [end.part for end in (run.a, run.b)]
    aboard = [end for end in ends if not view.kind(end).plugs and view.place_of(end).on_wheels]
    return where == "hole" and len(aboard) == 1 and any(view.kind(end).plugs for end in ends)


def _mend(view: View, run_id: str) -> Mend:
    title = say("Make {what} a cable", what=view.name(run_id))
    return change_run(title, run_id, {"installation": "cable"})


RULE = Rule(
    "cord-concealed",
    N_("Flexible cord out of sight"),
    check,
    {"NA": "400.12", "INT": "522"},
)
