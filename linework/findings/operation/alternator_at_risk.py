"""An alternator that loses its battery while it turns, or that a lithium bank works to death.

What is checked
    In every state with the engine running: whether some battery lies across the
    alternator, whether a switch could part it from all of them, and whether one
    of lithium lies across it, without a converter between.
Why it matters
    Parted from its battery the voltage of an alternator leaps for some tenths of
    a second to ten times its own and burns its diodes and what hangs on it. A
    lithium bank takes all it can give for hours; made for bursts, it overheats.
How to cure it
    No switch between it and its battery that can be turned while the engine
    runs; or one that passes both batteries. For lithium a DC-DC charger, or an
    alternator and regulator made for it.
Limits
    Fuses and breakers count as closed, and so does the battery's own management,
    which may cut out too. A switch that is closed in all states is a note. An
    alternator whose field the switch opens first, and one with a regulator that
    watches its heat, are not told apart.
Sources
    ABYC E-11 and E-13, from memory; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import LiveSource
from linework.circuit.series import ways_back
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.situation import Situation
from linework.study.ways.openings import always_joined
from linework.words import N_

PARTED = N_(
    "{where} can turn without a battery: its voltage then leaps and burns its diodes and what hangs"
    " on it. Nothing that a hand can turn may lie between it and a battery."
)
BEHIND = N_(
    "{switch} parts {where} from every battery if somebody opens it while the engine runs: the"
    " voltage then leaps and burns diodes and what hangs there. Join it to the battery side of the"
    " switch, behind a fuse of its own."
)
WORKED = N_(
    "{where} feeds {battery} of lithium straight: that takes all it can give for hours, and an"
    " alternator made for bursts overheats. A DC-DC charger between them holds it to a part of"
    " that."
)
UNKNOWN = N_(
    "the chemistry of {battery} decides whether {where} may feed it straight: give it on the card"
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each alternator without a battery, and for each on one of lithium."""
    for look in view.settled_looks:
        for _, source in look.studies.situation.active:
            if source.data.group.needs_store:
                yield from _judged(view, look, source)


def _judged(view: View, look: Look, source: LiveSource) -> Iterator[Hit | NotChecked]:
    stores = _across(look.studies.situation, source)
    if not stores and _wired(view, look.studies.situation, source):
        yield look.hit(
            Level.WARNING,
            (source.owner,),
            PARTED,
            {"where": view.name(source.owner)},
            (Evidence(N_("batteries that it reaches"), 0.0, "count"),),
        )
    yield from _behind_switch(view, look, source) if stores else ()
    values = {owner: view.values(owner) for owner in stores}
    unknown = [owner for owner in stores if not values[owner].given("chemistry")]
    if unknown:
        words = {"where": view.name(source.owner), "battery": ", ".join(map(view.name, unknown))}
        yield NotChecked(UNKNOWN, words, tuple(unknown), look.state)
    lithium = [
        owner
        for owner in stores
        if owner not in unknown and values[owner].pick("chemistry") == "lithium"
    ]
    if lithium:
        yield look.hit(
            Level.WARNING,
            (source.owner,),
            WORKED,
            {
                "where": view.name(source.owner),
                "battery": ", ".join(view.name(owner) for owner in lithium),
            },
            (Evidence(N_("current"), source.data.rated_a, "current"),),
            touches=frozenset(lithium),
        )


def _behind_switch(view: View, look: Look, source: LiveSource) -> Iterator[Hit]:
    """Of an alternator on batteries all of which a plain switch cuts off from it."""
    situation = look.studies.situation
    barred = _switches(situation)
    plus, minus = always_joined(situation, source, barred)
    stores = [s for _, s in situation.active if s.data.group.stores]
    if any(s.plus in plus for s in stores) and any(s.minus in minus for s in stores):
        return
    branches = situation.circuit.branches
    at = {branches[i].owner for i in barred if {branches[i].a, branches[i].b} & (plus | minus)}
    yield look.hit(
        Level.NOTE,
        (source.owner,),
        BEHIND,
        {"where": view.name(source.owner), "switch": view.names(at)},
        (Evidence(N_("batteries that it reaches past it"), 0.0, "count"),),
        touches=frozenset(at),
    )


def _switches(situation: Situation) -> frozenset[int]:
    """The contacts of switches that are closed in all states and that a person can open; no
    breakers, which a fault opens."""
    circuit = situation.circuit
    guarded = {device.owner for device in circuit.devices}
    return frozenset(
        i
        for i in situation.closed
        if circuit.branches[i].owner not in guarded
        and any(circuit.selectors[key].moves == "protection" for key, _ in circuit.branches[i].when)
    )


def _across(situation: Situation, source: LiveSource) -> list[str]:
    """The batteries, or first batteries of strings, between the posts of a source."""
    label = situation.conductive
    return sorted(
        {
            s.owner
            for i, s in situation.active
            if s.data.group.stores
            and label[s.plus] == label[source.plus]
            and label[source.minus] in ways_back(situation, i, label)
        }
    )


def _wired(view: View, situation: Situation, source: LiveSource) -> bool:
    """Whether a run ends at its plus: one that is not joined to anything is another matter."""
    spots = situation.circuit.spots[source.plus]
    return any(
        view.design.runs_at(spot.part, spot.terminal) for spot in spots if spot.part == source.owner
    )


RULE = Rule(
    "alternator-at-risk",
    N_("Alternator at risk"),
    check,
    {"NA": "practice", "INT": "practice"},
)
