"""Wires that a boat shakes to pieces: solid, of aluminium, or house cable.

What is checked
    On boats, and on a boat in the drawing of another place: every run aboard, by
    its material, its stranding and how it is laid.
Why it matters
    Solid wires break where they flex, aluminium corrodes in salt air; the break
    is hidden, gets hot, or opens a ground wire that nobody misses.
How to cure it
    Stranded copper, best tinned, in boat cable.
Limits
    What hangs ashore with the supply is not looked at. Stranding and material
    that are not given are taken as right, and the material is listed as assumed.
Sources
    ABYC E-11: conductors of stranded copper (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Run
from linework.findings.mending import change_run
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.kinds import Answer
from linework.kinds.run import HOUSE_CABLE
from linework.study.neutral.ashore import ashore
from linework.words import N_, say

MESSAGE = N_(
    "{run} is {what}: it breaks or corrodes in a boat. Wires aboard are of stranded copper."
)
_ALUMINIUM, _SOLID, _HOUSE = (
    N_("of aluminium"),
    N_("of solid wire"),
    N_("house cable, whose wires are solid"),
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each run."""
    shore = {
        part
        for owner in view.parts_that(lambda kind: kind.source.off_site)
        for part in ashore(view.design, owner)
    }
    for run in sorted(view.design.runs, key=lambda item: item.id):
        what, cure = _wrong(view, run)
        if not view.place_of_run(run).afloat:
            continue
        if what and not {run.a.part, run.b.part} <= shore:
            yield Hit(
                Level.WARNING,
                (run.id,),
                MESSAGE,
                {"run": view.name(run.id), "what": say(what)},
                (Evidence(N_("what it is"), None, "text", say(what)),),
                mend=_mend(view, run, cure),
            )


def _wrong(view: View, run: Run) -> tuple[str, dict[str, Answer | None]]:
    """What is wrong with a run, and the answers that would be right; "" for nothing."""
    values = view.run_values(run.id)
    house = values.pick("installation") == HOUSE_CABLE
    told = {
        _ALUMINIUM: values.pick("material") == "aluminium",
        _HOUSE: house,
        _SOLID: values.pick("stranding") == "solid",
    }
    laid: dict[str, Answer | None] = {"installation": "cable"} if house else {}
    cure = {"material": "copper", "stranding": "stranded", **laid}
    return next((what for what, holds in told.items() if holds), ""), cure


def _mend(view: View, run: Run, cure: dict[str, Answer | None]) -> Mend:
    title = say("Draw {what} new, of stranded copper", what=view.name(run.id))
    return change_run(title, run.id, cure)


RULE = Rule(
    "wire-not-for-boats",
    N_("Wire that is not for boats"),
    check,
    {"NA": "ABYC E-11", "INT": "ISO 13297"},
)
