"""A load that checks for a grounded neutral, on a source that has none.

What is checked
    In every state: each load that works only where its neutral is joined to its
    ground wire, and what feeds it: whether metal joins the ground contact of
    the load to the neutral of a source there.
Why it matters
    A furnace does not see its flame and locks out, a charger refuses, just when
    the set is needed. People then fit a link where a second one is dangerous.
How to cure it
    One link at the source that runs, as its maker allows it; where the maker
    forbids one, another source.
Limits
    Only loads that say so are looked at.
Sources
    Makers' manuals; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import Load
from linework.findings.model import Evidence, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.situation import Situation
from linework.words import N_

FLOATS = N_(
    "{where} works only where its {neutral} is joined to {ground}; on {source} it is not, and"
    " {where} stays off."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each load and source."""
    for look in view.settled_looks:
        for _, load in look.studies.situation.loads:
            values = view.values(load.owner)
            if "checks_bond" in values.declared and values.pick("checks_bond") == "yes":
                yield from _load(view, look, load)


def _load(view: View, look: Look, load: Load) -> Iterator[Outcome]:
    for owner in sorted(_floating(look.studies.situation, load)):
        yield look.hit(
            Level.WARNING,
            (load.owner,),
            FLOATS,
            {"where": view.name(load.owner), "source": view.name(owner)},
            (Evidence(N_("ways from its ground contact to the neutral"), 0.0, "count"),),
            touches=frozenset({owner}),
        )


def _floating(situation: Situation, load: Load) -> set[str]:
    """The sources that feed a load, where metal joins the neutral of none of them to its ground
    contact: behind an autotransformer that makes the neutral it is that one which counts."""
    joined, sources = situation.metallic, situation.circuit.sources
    grounds = {
        joined[nodes["PE"]]
        for nodes in situation.circuit.terminals_of.get(load.owner, ())
        if load.a in nodes.values() and "PE" in nodes
    }
    feeding = [s for node in (load.a, load.b) for s in situation.feeds(node) if s.is_ac]
    if any(joined[sources[s.source].minus] in grounds for s in feeding):
        return set()
    return {s.owner for s in feeding}


RULE = Rule(
    "load-refuses-source",
    N_("Load that refuses a floating source"),
    check,
    {"NA": "maker", "INT": "maker"},
    causes=("bond-missing", "ground-open"),
)
