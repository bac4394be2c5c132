"""Aluminium conductors on terminals that are made for copper.

What is checked
    Every run of aluminium that carries current: whether the terminals at both
    of its ends are marked for aluminium.
Why it matters
    Aluminium creeps and oxidises under a screw made for copper: the joint
    loosens, glows and burns, at a current at which nothing opens.
How to cure it
    Devices or connectors marked for aluminium and copper, tightened to the
    torque on them; on thin branch wires outlets marked CO/ALR.
Limits
    Nobody sees a marking on a drawing: what is not told is asked for, thin
    branch wires as not checked, thicker ones, whose lugs are mostly marked
    for both (common practice, no source), in one note.
Sources
    NFPA 70 (2023) 110.14(A), 404.14(C), 406.3(C) (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import size_of
from linework.design import Run, pole_map
from linework.findings.mending import change_run
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.kinds.run import NOT_GIVEN
from linework.wiring import is_protective
from linework.words import N_, say

MESSAGE = N_(
    "{run} is of aluminium and ends on terminals made for copper: the joint loosens, gets hot and"
    " burns."
)
LOOK = N_(
    "{runs}: look at both ends whether the lugs are marked AL or AL-CU. On one for copper only the"
    " joint loosens, gets hot and burns."
)
ASK = N_(
    "whether the terminals of {run} are made for aluminium is not given: look for CO/ALR on outlets"
    " and switches, AL-CU on breakers and connectors"
)

THINNEST_FEEDER = "8 AWG"
"""From here on lugs are mostly marked for both metals (common practice, no source)."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each run on a wrong terminal; one note for all thick runs that say nothing."""
    silent: list[str] = []
    for run in sorted(view.design.runs, key=lambda item: item.id):
        if not _carries_in_aluminium(view, run):
            continue
        marked = view.run_values(run.id).pick("terminal_metal")
        if marked == "no":
            yield _hit(view, run.id)
        elif marked == NOT_GIVEN and _thin(view, run.id):
            yield NotChecked(ASK, {"run": view.name(run.id)}, (run.id,))
        elif marked == NOT_GIVEN:
            silent.append(run.id)
    if silent:
        names = ", ".join(map(view.name, silent))
        count = (Evidence(N_("runs concerned"), float(len(silent)), "count"),)
        yield Hit(Level.NOTE, tuple(silent), LOOK, {"runs": names}, count)


def _carries_in_aluminium(view: View, run: Run) -> bool:
    values = view.run_values(run.id)
    live = not all(is_protective(pole) for pole, _ in pole_map(view.design, run))
    return live and values.has("size") and values.pick("material") == "aluminium"


def _thin(view: View, run_id: str) -> bool:
    own = size_of(view.run_values(run_id).text("size"))
    return own.cmil < size_of(THINNEST_FEEDER).cmil


def _hit(view: View, run_id: str) -> Hit:
    return Hit(
        Level.DANGER,
        (run_id,),
        MESSAGE,
        {"run": view.name(run_id)},
        (Evidence(N_("runs concerned"), 1.0, "count"),),
        mend=_mend(view, run_id),
    )


def _mend(view: View, run_id: str) -> Mend:
    title = say("Fit connectors for aluminium and copper on {what}", what=view.name(run_id))
    return change_run(title, run_id, {"terminal_metal": "yes"})


RULE = Rule(
    "aluminium-terminals",
    N_("Aluminium on terminals for copper"),
    check,
    {"NA": "110.14(A)", "INT": "526"},
)
