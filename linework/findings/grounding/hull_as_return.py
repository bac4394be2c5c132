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

from collections.abc import Iterator, Sequence

from linework.circuit.incircuit import SOIL
from linework.circuit.model import Load
from linework.circuit.series import ways_back
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.situation import Situation
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
    ties = _ties(situation, hulls)
    label = situation.labels_without(frozenset(ties), SOIL)
    by_run: dict[str, list[Load]] = {}
    for _, load in situation.loads:
        if load.data.hertz == 0.0 and load.data.own and _only_by_hull(situation, load, label):
            runs = {r for i, r in ties.items() if label[load.b] in _ends(situation, i, label)}
            for run in sorted(runs):
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


def _ties(situation: Situation, hulls: list[str]) -> dict[int, str]:
    """The runs in circuit that end on a hull, by branch."""
    nodes = {n for hull in hulls for n in situation.circuit.terminals[hull, "tie"].values()}
    branches = situation.circuit.branches
    return {
        i: branches[i].owner for i in situation.closed if nodes & {branches[i].a, branches[i].b}
    }


def _ends(situation: Situation, branch: int, label: Sequence[int]) -> set[int]:
    ends = situation.circuit.branches[branch]
    return {label[ends.a], label[ends.b]}


def _only_by_hull(situation: Situation, load: Load, label: Sequence[int]) -> bool:
    """Whether some source feeds a load and gets its current back through a hull alone."""
    whole = situation.conductive
    fed = [
        i
        for i, source in situation.active
        if source.data.hertz == 0.0
        and whole[source.plus] == whole[load.a]
        and whole[load.b] in ways_back(situation, i, whole)
    ]
    return bool(fed) and not any(label[load.b] in ways_back(situation, i, label) for i in fed)


RULE = Rule(
    "hull-as-return",
    N_("Hull as return conductor"),
    check,
    {"NA": "ABYC E-11", "INT": "ISO 13297"},
)
