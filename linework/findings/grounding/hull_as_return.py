"""A metal hull that carries the return current of a circuit.

What is checked
    In every state: each load on direct current in a boat whose current comes back
    to its battery or charger only through a body that is a hull.
Why it matters
    The current spreads in the hull and leaves it where it meets water: plates,
    shafts and fittings are eaten. A joint that rusts puts the load out, and with it
    a bilge pump or light.
How to cure it
    A minus wire of its own for each load, as thick as its plus; the hull joined to
    minus at one point, where nothing flows.
Limits
    An engine block may carry back what is mounted on it. What leaks into a hull is
    not judged.
Sources
    ABYC E-11, ISO 13297 (two-wire circuits), from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import Load
from linework.findings.grounding._by_metal import only_by_metal, past_ties, runs_at, ties_of
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.words import N_

MESSAGE = N_(
    "{loads}: the current comes back through {hull} by {where}. It leaves the metal where that"
    " meets water and eats it. Run a minus wire back; the hull is joined to minus at one point"
    " only, where nothing flows."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each run that brings return current into a hull."""
    hulls = [
        part
        for part in view.parts_that(lambda kind: kind.body)
        if view.place_of(part).afloat and view.values(part).pick("type") == "hull"
    ]
    for look in view.settled_looks if hulls else ():
        yield from _look(view, look, hulls)


def _look(view: View, look: Look, hulls: list[str]) -> Iterator[Hit]:
    situation = look.studies.situation
    ties = ties_of(situation, hulls)
    label = past_ties(situation, ties)
    by_run: dict[str, list[Load]] = {}
    for _, load in situation.loads:
        if load.data.hertz == 0.0 and load.data.own and only_by_metal(situation, load, label):
            for run in runs_at(situation, ties, load, label):
                by_run.setdefault(run, []).append(load)
    for run, loads in sorted(by_run.items()):
        amps = sum(load.data.watts / load.data.volts for load in loads)
        owners = frozenset(load.owner for load in loads)
        yield look.hit(
            Level.WARNING,
            (run,),
            MESSAGE,
            {"loads": view.names(owners), "hull": view.names(hulls), "where": view.name(run)},
            (Evidence(N_("current in the hull"), amps, "current"),),
            touches=frozenset({*owners, *hulls}),
        )


RULE = Rule(
    "hull-as-return",
    N_("Hull as return conductor"),
    check,
    {"NA": "ABYC E-11", "INT": "ISO 13297"},
)
