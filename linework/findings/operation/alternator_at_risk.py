"""An alternator that loses its battery while it turns, or that a lithium bank works to death.

What is checked
    In every state with the engine running: whether some battery lies across the
    alternator, and whether one of lithium does, without a converter between.
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
    which may cut out too. An alternator whose field the switch opens first, and
    one with a regulator that watches its heat, are not told apart.
Sources
    ABYC E-11 and E-13, from memory; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import LiveSource
from linework.circuit.series import ways_back
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.situation import Situation
from linework.words import N_

PARTED = N_(
    "{where} can turn without a battery: its voltage then leaps and burns its diodes and what hangs"
    " on it. Nothing that a hand can turn may lie between it and a battery."
)
WORKED = N_(
    "{where} feeds {battery} of lithium straight: that takes all it can give for hours, and an"
    " alternator made for bursts overheats. A DC-DC charger between them holds it to a part of"
    " that."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each alternator without a battery, and for each on one of lithium."""
    for look in view.settled_looks:
        for _, source in look.studies.situation.active:
            if source.data.group.needs_store:
                yield from _judged(view, look, source)


def _judged(view: View, look: Look, source: LiveSource) -> Iterator[Hit]:
    stores = _across(look.studies.situation, source)
    if not stores and _wired(view, look.studies.situation, source):
        yield look.hit(
            Level.WARNING,
            (source.owner,),
            PARTED,
            {"where": view.name(source.owner)},
            (Evidence(N_("batteries that it reaches"), 0.0, "count"),),
        )
    lithium = [owner for owner in stores if view.values(owner).pick("chemistry") == "lithium"]
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
