"""Bare pins that are live from behind.

What is checked
    In every permitted position: whether the pins of an inlet without a cord,
    or of a plug that is in no outlet, hang on a source's live conductor. A lead
    can be taken off at either end: so for the pins of an inlet on which one is.
Why it matters
    A hand or a child's fingers on the pins close the circuit.
How to cure it
    Let the lever or relay cut the pins off from every other source; never a
    cord with plugs at both ends.
Limits
    Pins behind a follower are judged in its position of rest and while it moves.
    Direct current below the voltage that may be touched for good hurts nobody:
    what it can burn is a note.
Sources
    NFPA 70 (2023) 406.7(B); IEC 60364-7-721.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.incircuit import LINKS
from linework.design.names import natural
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.sources._male_cords import male_cords
from linework.findings.view import Look, View
from linework.study.situation import Situation
from linework.study.slack import within
from linework.study.wires.ratings import rules_of
from linework.wiring import Pole, is_protective
from linework.words import N_

MESSAGE = N_("The bare pins of {where} are live from {source}.")
BOTH = N_(
    "The bare pins of {where} are live from {source}; so are those of {inlet} when the lead is"
    " taken off there instead."
)
OFF = N_("With its lead taken off, the pins of {where} are live from {source}.")
LOW = N_(
    "On the bare pins of {where} lie {volts} V of {source}. That hurts nobody, but metal across"
    " them shorts it: keep a cap on them."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each set of pins; an inlet whose lead has a plug that is told of stands there,
    and whatever a cord with two plugs makes live under that cord."""
    told = {pins.owner for look in view.looks for pins in look.studies.energised.live_pins}
    for look in view.looks:
        leads = list(_leads(view, look))
        cords = male_cords(view, look)
        yield from (cord.hit(view, look) for cord in cords)
        for pins in look.studies.energised.live_pins:
            if any(pins.owner in cord.behind for cord in cords):
                continue
            inlets = {lead.inlet for lead in leads if pins.owner in lead.ends}
            yield _hit(view, look, pins.owner, pins.sources, MESSAGE, inlets)
        for lead in leads:
            if told.isdisjoint(lead.ends) and not look.meeting:
                yield _hit(view, look, lead.inlet, lead.sources, OFF, set())


@dataclass(frozen=True)
class _Lead:
    """What is on the pins of an inlet: the parts at its other end, and the sources that reach the
    pins without it."""

    inlet: str
    ends: frozenset[str]
    sources: tuple[str, ...]


def _leads(view: View, look: Look) -> Iterator[_Lead]:
    """Those of inlets whose pins are live without them."""
    situation, design = look.studies.situation, view.design
    for inlet in view.parts_that(lambda kind: kind.lets_in):
        runs = [
            run
            for run in design.runs_at(inlet, "outside")
            if view.run_values(run.id).pick("installation") == "cord"
        ]
        owners = {run.id for run in runs} | set(_plugged_on(view, inlet))
        off = frozenset(i for o in owners for i in look.studies.circuit.branches_of.get(o, ()))
        sources = _reached(situation, inlet, off & situation.closed)
        if owners and sources:
            ends = {end.part for run in runs for end in (run.a, run.b)}
            ends |= {seat.host for seat in design.seats_of(inlet)}
            yield _Lead(inlet, frozenset(ends - {inlet}), sources)


def _plugged_on(view: View, part: str) -> Iterator[str]:
    """The cord set or adapter that is put on an inlet, and what is put on that before the outlet,
    with the seats: they are one with its pins and are taken off with them."""
    for seat in view.design.seats_of(part):
        yield seat.id
        if view.kind(seat.host).loose:
            yield seat.host
            yield from _plugged_on(view, seat.host)


def _reached(situation: Situation, inlet: str, off: frozenset[int]) -> tuple[str, ...]:
    """The sources on the pins of an inlet with some conductors taken away."""
    label = situation.labels_without(off, LINKS)
    nodes = situation.circuit.terminals.get((inlet, "outside"), {})
    pins = {label[node] for pole, node in nodes.items() if not is_protective(Pole(pole))}
    return tuple(sorted({s.owner for _, s in situation.active if label[s.plus] in pins}))


def _hit(
    view: View, look: Look, owner: str, owners: tuple[str, ...], message: str, inlets: set[str]
) -> Hit:
    sources = [s.data for s in look.studies.circuit.sources if s.owner in owners]
    volts = max(source.volts for source in sources)
    harmless = all(s.hertz == 0.0 for s in sources) and within(volts, _touched_v(view))
    words = {
        "where": view.name(owner),
        "source": ", ".join(view.name(o) for o in owners),
        "volts": f"{volts:.3g}",
    }
    if inlets and not harmless:
        message, words["inlet"] = BOTH, ", ".join(sorted(map(view.name, inlets), key=natural))
    return look.hit(
        Level.NOTE if harmless else Level.DANGER,
        (owner,),
        LOW if harmless else message,
        words,
        (Evidence(N_("voltage on the pins"), volts, "voltage"),),
        touches=frozenset(owners),
    )


def _touched_v(view: View) -> float:
    """Direct voltage that may be touched for good; wet, as plugs lie outdoors."""
    return rules_of(view.design).touch_limit_v(dc=True, wet=True).value


RULE = Rule(
    "pins-live",
    N_("Bare pins are live"),
    check,
    {"NA": "406.7(B)", "INT": "7-721"},
)
