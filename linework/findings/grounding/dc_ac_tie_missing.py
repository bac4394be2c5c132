"""A boat whose AC ground and battery minus are not joined.

What is checked
    On a boat: whether the minus conductor of each battery is joined by metal to
    the ground wire of the AC circuits aboard that are live in any position; what
    stands on the dock does not count.
Why it matters
    Where a live wire touches the DC side (in a charger, an inverter, a bilge),
    the engine, the shaft and the water around take its voltage; without the
    joint no current flows back by wire and nothing trips.
How to cure it
    One joint between the ground bar and the battery's minus or the main ground
    point, as thick as the table for ground wires asks.
Limits
    Whether there is more than one joint is told as a doubled bond or as a ring
    of the minus. A double-insulated set with an isolation transformer is not
    drawn, and would be told too.
Sources
    ABYC E-11 (AC and DC grounding, from memory); ISO 13297.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.neutral.ashore import ashore
from linework.study.once import once
from linework.study.situation import Situation
from linework.wiring import Pole
from linework.words import N_

MESSAGE = N_(
    "The minus of {source} is not joined to the {ground_wire} of the AC circuits: a fault from AC"
    " to the DC side makes engine and water live, and nothing trips."
)


End = tuple[str, str]
"""Part and terminal."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each minus conductor, with all batteries on it, wherever AC comes from and
    whenever."""
    grounds = {end for look in view.settled_looks for end in _live_grounds(look)}
    aboard = {end for end in grounds if _is_aboard(view, end[0])}
    if aboard:
        for look in view.settled_looks:
            yield from _untied(view, look, aboard)


def _is_aboard(view: View, part: str) -> bool:
    """Neither on the dock nor at the end of a cord from there."""
    kind = view.kind(part)
    return (
        view.place_of(part).afloat and part not in _ashore(view) and not (kind.plugs or kind.loose)
    )


@once
def _ashore(view: View) -> frozenset[str]:
    supplies = view.parts_that(lambda kind: kind.source.off_site)
    return frozenset().union(*(ashore(view.design, supply) for supply in supplies))


def _live_grounds(look: Look) -> Iterator[End]:
    """The terminals with a ground wire on which alternating current is live."""
    situation = look.studies.situation
    for end, nodes in situation.circuit.terminals.items():
        hot = (node for pole, node in nodes.items() if pole.startswith("L"))
        if Pole.PE in nodes and any(situation.feeds(node) for node in hot):
            yield end


def _untied(view: View, look: Look, grounds: set[End]) -> Iterator[Hit]:
    situation = look.studies.situation
    sources, terminals = situation.circuit.sources, situation.circuit.terminals
    tied = {
        situation.metallic[terminals[end][Pole.PE]]
        for end in grounds
        if Pole.PE in terminals.get(end, {})
    }
    for system in look.studies.neutrals:
        owners = {sources[i].owner for i in system.sources if sources[i].data.group.stores}
        cells = {owner for owner in owners if view.place_of(owner).afloat}
        if not cells or system.neutral in situation.hot_of:
            continue  # between two batteries of a string no joint is asked for
        minus = sources[system.sources[0]].minus
        if situation.metallic[minus] not in tied:
            subjects = tuple(sorted(cells | _on_the_same_minus(view, situation, minus)))
            yield look.hit(
                Level.DANGER,
                subjects,
                MESSAGE,
                {"source": ", ".join(view.name(o) for o in subjects)},
                (Evidence(N_("joints"), 0.0, "count"),),
            )


def _on_the_same_minus(view: View, situation: Situation, minus: int) -> set[str]:
    """The batteries afloat whose minus metal joins with this one, in other circuits too: one joint
    serves them all."""
    label, terminals = situation.metallic, situation.circuit.terminals_of
    stores = view.parts_that(lambda kind: kind.source.stores)
    return {
        part
        for part in stores
        if view.place_of(part).afloat
        for nodes in terminals.get(part, ())
        if Pole.NEG in nodes and label[nodes[Pole.NEG]] == label[minus]
    }


RULE = Rule(
    "dc-ac-tie-missing",
    N_("AC ground and battery minus not joined"),
    check,
    {"NA": "ABYC E-11", "INT": "ISO 13297"},
    causes=(
        "battery-turned",
        "ground-open",
    ),
    hangs_on=("polarity-reversed", "metal-live"),
    timeless=True,
)
