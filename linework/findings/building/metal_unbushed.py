"""A cable that passes through sheet metal without a bushing.

What is checked
    Every run of which it is said how it passes through metal.
Why it matters
    Vibration saws the edge through the insulation: on a vehicle within months.
    The metal becomes live.
How to cure it
    A bushing or grommet in the hole.
Limits
    Of runs that say nothing nothing is known, and nothing is told.
Sources
    NFPA 70 (2023) 300.4(B)(1), 551.47; IEC 60364-5-52 522.8.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Run, pole_map
from linework.findings.mending import change_run
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.wiring import is_protective
from linework.words import N_, say

MESSAGE = N_("{run} passes through sheet metal without a bushing: its edge cuts the insulation.")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each run with a live conductor."""
    for run in sorted(view.design.runs, key=lambda item: item.id):
        if view.run_values(run.id).pick("passes") == "bare_metal" and not _bare(view, run):
            yield Hit(
                Level.WARNING,
                (run.id,),
                MESSAGE,
                {"run": view.name(run.id)},
                (Evidence(N_("bushings"), 0.0, "count"),),
                mend=_mend(view, run.id),
            )


def _bare(view: View, run: Run) -> bool:
    """Whether it is nothing but a ground wire, which may touch the metal."""
    return all(is_protective(pole) for pole, _ in pole_map(view.design, run))


def _mend(view: View, run_id: str) -> Mend:
    title = say("Fit a bushing where {what} passes", what=view.name(run_id))
    return change_run(title, run_id, {"passes": "bushed"})


RULE = Rule(
    "metal-unbushed",
    N_("No bushing through sheet metal"),
    check,
    {"NA": "300.4(B)(1)", "INT": "522.8"},
)
