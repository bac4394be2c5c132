"""Touchable metal that stands at a voltage although nothing has failed.

What is checked
    In every state, with the drawn loads on: the voltage between each piece of
    touchable metal on AC circuits and earth or a body, or the frame of its
    source where neither is drawn, with a person of 1,000 ohm between them.
Why it matters
    Who touches this metal and the ground closes the circuit; no breaker sees it.
How to cure it
    Find where a live conductor is joined to the ground wire or exchanged with it.
Limits
    What one broken conductor more would do is not judged here. What only
    capacitance drives tingles and is no danger; the 1,000 ohm take it away.
Sources
    NFPA 70 (2023) 250.4(A)(5); IEC 60364-4-41 411; the 1,000 ohm are common
    practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import MetalAt
from linework.circuit.network import IN_USE
from linework.codes import person_ohm
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.trust import loaded_or_none
from linework.study.neutral.metal import crossed_with_ground, ground_nodes
from linework.study.situation import Situation
from linework.study.tester import across
from linework.study.wires.ratings import rules_of
from linework.words import N_

CROSSED = N_(
    "{metal} stands at {volts} V in normal use: {where} joins a live conductor to it."
    " Touching it can kill."
)
LIVE = N_("{metal} stands at {volts} V in normal use. Touching it can kill.")


def check(view: View) -> Iterator[Outcome]:
    """One hit for all live metal that hangs together."""
    for look in view.settled_looks:
        if loaded_or_none(look.studies) is not None:
            yield from _look(view, look)


def _look(view: View, look: Look) -> Iterator[Hit]:
    situation = look.studies.situation
    limit_v = rules_of(view.design).touch_limit_v(False, view.design.settings.wet).value
    together: dict[int, list[MetalAt]] = {}
    for metal in situation.circuit.metals:
        together.setdefault(situation.metallic[metal.node], []).append(metal)
    grounds = _touched_too(situation, limit_v)
    for label, metals in together.items():
        cluster = situation.clusters
        apart = [(m.node, n) for m in metals for n in grounds if cluster[n] != cluster[m.node]]
        volts = max((_between(situation, *pair, limit_v) for pair in apart), default=0.0)
        if volts > limit_v:
            yield _hit(view, look, label, metals, volts)


def _touched_too(situation: Situation, limit_v: float) -> list[int]:
    """Earth and bodies; where neither is drawn, the frames of the sources that are on.

    A body that is itself live to earth is what a finding is about, not what it is held against.
    """
    grounds = [n for owner in situation.owners for n in ground_nodes(situation.circuit, owner)]
    found = list(dict.fromkeys(situation.circuit.anchors or grounds))
    earth = situation.circuit.earth
    if earth is None:
        return found
    return [n for n in found if n == earth or _between(situation, n, earth, limit_v) <= limit_v]


def _between(situation: Situation, metal: int, ground: int, limit_v: float) -> float:
    """Volts between two nodes; with a person there where more than the limit stands open."""
    for hertz in situation.hertz:
        if hertz > 0.0:
            net = situation.network(hertz, IN_USE)
            joined = net.islands.label[metal] == net.islands.label[ground]
            open_v = abs(complex(net.open_volts[metal] - net.open_volts[ground]))
            if joined and net.islands.live(metal) and open_v > limit_v:
                return across(situation, [(metal, ground)], person_ohm().value)[0]
    return 0.0


def _hit(view: View, look: Look, label: int, metals: list[MetalAt], volts: float) -> Hit:
    situation = look.studies.situation
    parts = tuple(sorted({m.owner for m in metals}))
    joints = crossed_with_ground(view.design, situation, neutral=False).values()
    runs = tuple(sorted({b.owner for b in joints if situation.metallic[b.a] == label}))
    bodies = tuple(sorted({m.owner for m in metals if m.data.body}))
    return look.hit(
        Level.DANGER,
        (*runs, *bodies) if runs else parts,
        CROSSED if runs else LIVE,
        {
            "metal": ", ".join(view.name(part) for part in parts),
            "where": ", ".join(view.name(run) for run in runs),
            "volts": f"{volts:.0f}",
        },
        (Evidence(N_("voltage with a person in between"), volts, "voltage"),),
        touches=frozenset(parts),
    )


RULE = Rule(
    "metal-live",
    N_("Touchable metal is live"),
    check,
    {"NA": "250.4(A)(5)", "INT": "411"},
    causes=("sources-meet",),
)
