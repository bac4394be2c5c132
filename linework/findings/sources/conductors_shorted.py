"""Two conductors of one source joined by wire: a dead short.

What is checked
    In every state: whether wires, switches and closed devices alone join the hot
    conductor of a winding or battery to its own return, or two legs of a source
    that are out of phase; and whether two links, each of which joins one of them to
    ground, do so.
Why it matters
    As soon as it is switched on, all that the source can give flows: the device
    before it opens at once, and where there is none something burns.
How to cure it
    Take one of the two off where they meet: an outlet that two hots feed wants its
    tab broken out. Of two links only that at the neutral in use stays.
Limits
    Shorts of a wire to ground wires and metal are told as live metal, sources of different
    parts as sources that meet. Devices count as closed: what their opening leaves
    alive is not looked at.
Sources
    NFPA 70 (2023) 110.7; IEC 60364-6 6.4.3.3 (both from memory).
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator
from itertools import combinations

from linework.circuit.model import LiveSource
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.situation import Situation
from linework.study.ways.paths import fed_parts, way
from linework.words import N_

MESSAGE = N_(
    "Two conductors of {source} are joined at {where}: a short with {volts} V across it. All that"
    " the source can give flows until a device opens."
)

BY_LINKS = N_(
    "{where} each join another conductor of {source} to {ground}: a short with {volts} V across it."
    " All that the source can give flows until a device opens. Leave only the link of the neutral"
    " that the loads use."
)

_IN_STEP_V = 1e-3
"""Two windings of less than this between their ends are one leg, drawn twice."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each source and joint."""
    for look in view.looks:
        told: set[str] = set()
        for start, goal, source, volts in _shorts(look.studies.situation):
            if source.owner not in told:
                told.add(source.owner)
                yield _hit(view, look, (start, goal), source, volts)
        for source, links in _by_links(view, look.studies.situation):
            if source.owner not in told:
                told.add(source.owner)
                yield _linked(view, look, source, links)


def _by_links(view: View, situation: Situation) -> Iterator[tuple[LiveSource, tuple[str, ...]]]:
    """The windings whose two conductors meet at ground, with the parts of the links at both."""
    metal, sources = situation.metallic, situation.circuit.sources
    for system in situation.systems:
        source = sources[system.source]
        if system.is_ac and metal[source.plus] == metal[source.minus]:
            steps = way(situation, source.plus, source.minus, bonds=True) or ()
            links = {situation.circuit.branches[i].owner for i in steps if _is_link(situation, i)}
            # a run that ties a body, of which a crossed wire made a live one, is none
            owners = sorted(owner for owner in links if view.run(owner) is None)
            if len(owners) > 1:
                yield source, tuple(owners)


def _is_link(situation: Situation, index: int) -> bool:
    """Whether a bond begins at a conductor in use; a tie of bodies and ground wires does not."""
    branch, live = situation.circuit.branches[index], situation.hot_of.keys() | situation.back_of
    ends = {situation.clusters[branch.a], situation.clusters[branch.b]}
    return branch.sort == "bond" and not ends.isdisjoint(live)


def _shorts(situation: Situation) -> Iterator[tuple[int, int, LiveSource, float]]:
    """The two nodes that are joined, the source, and what stands between them open, in volt."""
    label, sources = situation.clusters, situation.circuit.sources
    active = [sources[system.source] for system in situation.systems]
    for source in active:
        if label[source.plus] == label[source.minus]:
            yield source.plus, source.minus, source, source.data.volts
    for one, other in combinations(active, 2):
        if one.owner == other.owner and label[one.plus] == label[other.plus]:
            volts = abs(_emf(one) - _emf(other))
            if volts > _IN_STEP_V and one.data.hertz > 0.0:
                yield one.plus, other.plus, one, volts


def _emf(source: LiveSource) -> complex:
    return cmath.rect(source.data.volts, math.radians(source.data.phase_deg))


def _hit(view: View, look: Look, ends: tuple[int, int], source: LiveSource, volts: float) -> Hit:
    situation = look.studies.situation
    where = _middle(view, situation, ends)
    hot = situation.clusters[source.plus]
    on_it = {b.owner for b in situation.circuit.branches if situation.clusters[b.a] == hot}
    on_it |= {*situation.parts_on.get(hot, ()), source.owner}
    return look.hit(
        Level.DANGER,
        (*where, source.owner),
        MESSAGE,
        {
            "where": view.names(where) if where else view.name(source.owner),
            "source": view.name(source.owner),
            "volts": f"{volts:.3g}",
        },
        (Evidence(N_("voltage across it"), volts, "voltage"),),
        touches=frozenset(on_it),
        explains=frozenset(on_it),
    )


def _linked(view: View, look: Look, source: LiveSource, links: tuple[str, ...]) -> Hit:
    situation = look.studies.situation
    fed = frozenset({source.owner, *links, *fed_parts(situation, source.owner)})
    on_it = {branch.owner for branch in situation.branches if view.run(branch.owner) is not None}
    return look.hit(
        Level.DANGER,
        tuple(dict.fromkeys((source.owner, *links))),
        BY_LINKS,
        {
            "where": view.names(links),
            "source": view.name(source.owner),
            "volts": f"{source.data.volts:.3g}",
        },
        (Evidence(N_("voltage across it"), source.data.volts, "voltage"),),
        touches=fed,
        explains=fed | on_it,  # all that lies in this circuit follows from it
    )


def _middle(view: View, situation: Situation, ends: tuple[int, int]) -> tuple[str, ...]:
    """The runs about the joint, else what else joins: what the way from one conductor to the other
    has left when all that it passes out and back again is taken off."""
    owners = [situation.circuit.branches[i].owner for i in way(situation, *ends) or ()]
    passed = list(dict.fromkeys(owners))
    twice = [owner for owner in passed if owners.index(owner) != _last(owners, owner)]
    start = owners.index(twice[-1]) + 1 if twice else 0
    end = _last(owners, twice[-1]) if twice else len(owners)
    inner = owners[start:end] or owners[start - 1 : start]
    runs = [owner for owner in dict.fromkeys(inner) if view.run(owner) is not None]
    return tuple(sorted(runs or dict.fromkeys(inner), key=view.name))


def _last(owners: list[str], owner: str) -> int:
    return len(owners) - 1 - owners[::-1].index(owner)


RULE = Rule(
    "conductors-shorted",
    N_("Dead short"),
    check,
    {"NA": "110.7", "INT": "6-6.4.3.3"},
    hangs_on=("polarity-reversed", "battery-turned"),
)
