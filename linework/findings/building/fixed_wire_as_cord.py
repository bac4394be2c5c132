"""House cable or solid wire used as a cord.

What is checked
    Every run to a plug that a hand moves, and to the outside of an inlet: whether
    it is house cable or of solid wire.
Why it matters
    Solid wires break inside their insulation where they are bent, first the
    ground wire that nobody misses; their sheath is cut on gravel and by doors.
How to cure it
    A flexible cord that is made for hard use outdoors.
Limits
    A run of which neither is said is taken as what it should be.
Sources
    NFPA 70 (2023) 334.12, 400.10(A) (from memory); IEC 60364-5-52 521.9.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import End, Run
from linework.findings.mending import change_run
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.kinds.run import HOUSE_CABLE
from linework.words import N_, say

MESSAGE = N_(
    "{run} is a cord of house cable or solid wire: where it is bent its wires break, the"
    " {ground_wire} without a sign."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each run."""
    for run in sorted(view.design.runs, key=lambda item: item.id):
        if _fixed(view, run) and any(_moved(view, end) for end in (run.a, run.b)):
            yield Hit(
                Level.WARNING,
                (run.id,),
                MESSAGE,
                {"run": view.name(run.id)},
                (Evidence(N_("runs concerned"), 1.0, "count"),),
                mend=_mend(view, run),
            )


def _fixed(view: View, run: Run) -> bool:
    values = view.run_values(run.id)
    return values.pick("installation") == HOUSE_CABLE or values.pick("stranding") == "solid"


def _moved(view: View, end: End) -> bool:
    """Whether a hand moves what is at this end, or takes a cord off it."""
    kind = view.kind(end.part)
    roles = {t.name: t.role for t in kind.terminals(view.values(end.part))}
    return kind.plugs or (kind.lets_in and roles.get(end.terminal) == "in")


def _mend(view: View, run: Run) -> Mend:
    title = say("Make {what} a flexible cord", what=view.name(run.id))
    return change_run(title, run.id, {"installation": "cord", "stranding": None})


RULE = Rule(
    "fixed-wire-as-cord",
    N_("House cable as a cord"),
    check,
    {"NA": "334.12, 400.10(A)", "INT": "521.9"},
)
