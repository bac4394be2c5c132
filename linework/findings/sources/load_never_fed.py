"""A load that no state energises.

What is checked
    Over all permitted positions: whether some source ever reaches the load
    and its return.
Why it matters
    It will not work; usually a wire, a plug or a neutral is missing.
How to cure it
    Follow its conductors back to the source in the every-wire view.
Limits
    Breakers count as closed.
Sources
    Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, Outcome, Rule
from linework.findings.view import View
from linework.words import N_

MESSAGE = N_("No position of the levers feeds {where}.")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each load that is dead in every state."""
    ever = {
        look.studies.circuit.loads[i].owner
        for look in view.settled_looks
        for i in look.studies.energised.fed
    }
    if view.circuit is None:
        return
    for load in view.circuit.loads:
        if load.data.name == "load" and load.owner not in ever:
            yield Hit(
                Level.WARNING,
                (load.owner,),
                MESSAGE,
                {"where": view.name(load.owner)},
                (Evidence(N_("states that feed it"), 0.0, "count"),),
            )


RULE = Rule(
    "load-never-fed",
    N_("Load never fed"),
    check,
    {"NA": "practice", "INT": "practice"},
    whole=True,
)
