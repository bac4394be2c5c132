"""A DC-DC charger that empties the battery it should fill.

What is checked
    Over all states: each converter that charges one battery from another, where
    nothing else ever charges the one that it takes from and something else does
    charge the one that it gives to.
Why it matters
    Turned round it works without complaint: it carries what the one battery has
    into one that is filled anyway, until the first is flat.
How to cure it
    Input on the battery that the engine, the sun or the shore charges, output on
    the other; or a charger for the battery that it takes from.
Limits
    What charges a battery outside the drawing is not known. Where nothing else
    charges either of them, or something each, it may be meant.
Sources
    Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.situation import Situation
from linework.words import N_

MESSAGE = N_(
    "{charger} takes from {battery}, which nothing else charges, and gives to {other}, which {by}"
    " charges: turned round, it empties what it should fill."
)


@dataclass
class _Seen:
    """Of one charger over all states: the batteries on both sides, and what else charges them."""

    look: Look
    taken: set[str] = field(default_factory=set)
    given: set[str] = field(default_factory=set)
    filling: set[str] = field(default_factory=set)
    """What charges those that it takes from."""
    beside: set[str] = field(default_factory=set)
    """What charges those that it gives to."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each."""
    seen: dict[str, _Seen] = {}
    for look in view.settled_looks:
        _look(look, seen)
    for owner, found in seen.items():
        if found.taken and found.given and found.beside and not found.filling:
            yield _hit(view, owner, found)


def _look(look: Look, seen: dict[str, _Seen]) -> None:
    situation, circuit = look.studies.situation, look.studies.circuit
    drawn = {i for i, _ in situation.loads}
    for conversion in circuit.conversions:
        source, load = circuit.sources[conversion.source], circuit.loads[conversion.load]
        if not source.data.group.charges or conversion.load not in drawn:
            continue
        taken = _on(situation, load.a, stores=True)
        if taken:
            found = seen.setdefault(conversion.owner, _Seen(look))
            mine = {conversion.owner}
            found.taken |= taken
            found.given |= _on(situation, source.plus, stores=True)
            found.filling |= _on(situation, load.a, stores=False) - mine
            found.beside |= _on(situation, source.plus, stores=False) - mine


def _on(situation: Situation, node: int, *, stores: bool) -> set[str]:
    """The batteries on a conductor, or the other sources of direct current there."""
    return {
        source.owner
        for _, source in situation.active
        if source.data.hertz == 0.0
        and source.data.group.stores is stores
        and situation.clusters[source.plus] == situation.clusters[node]
    }


def _hit(view: View, owner: str, found: _Seen) -> Hit:
    words = {
        "charger": view.name(owner),
        "battery": view.names(sorted(found.taken)),
        "other": view.names(sorted(found.given)),
        "by": view.names(sorted(found.beside)),
    }
    evidence = (Evidence(N_("chargers on its input"), 0.0, "count"),)
    touches = frozenset({*found.taken, *found.given, *found.beside})
    return found.look.hit(Level.WARNING, (owner,), MESSAGE, words, evidence, touches=touches)


RULE = Rule(
    "charger-turned",
    N_("DC-DC charger turned round"),
    check,
    {"NA": "practice", "INT": "practice"},
    causes=("battery-turned",),
    hangs_on=("polarity-reversed",),
    whole=True,
)
