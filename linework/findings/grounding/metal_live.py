"""Touchable metal that stands at a voltage although nothing has failed.

What is checked
    In every state, with the drawn loads on: the voltage between each piece of
    touchable metal on AC circuits and earth, or a body or the frame of its
    source where no earth is drawn, with a person of 1,000 ohm between them.
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
from linework.circuit.network import NotSolved
from linework.codes import touch_limit_v
from linework.findings.grounding._metal import crossed_with_ground, ground_nodes
from linework.findings.model import Evidence, Hit, Level, Outcome, Rule
from linework.findings.view import Look, View
from linework.study.situation import Situation
from linework.study.tester import across
from linework.words import N_

CROSSED = N_(
    "{metal} stands at {volts} V in normal use: {where} joins a live conductor to it."
    " Touching it can kill."
)
LIVE = N_("{metal} stands at {volts} V in normal use. Touching it can kill.")

PERSON_OHM = 1000.0
"""A person between two pieces of metal (common practice, no source)."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for all live metal that hangs together."""
    for look in view.settled_looks:
        yield from _look(view, look)


def _look(view: View, look: Look) -> Iterator[Hit]:
    situation = look.studies.situation
    limit_v = touch_limit_v(False, view.design.settings.wet).value
    together: dict[int, list[MetalAt]] = {}
    for metal in situation.circuit.metals:
        together.setdefault(situation.metallic[metal.node], []).append(metal)
    others = _touched_too(situation)
    for label, metals in together.items():
        apart = [n for n in others if n not in {m.node for m in metals}]
        volts = max((_with_person(situation, metals[0].node, n) for n in apart), default=0.0)
        if volts > limit_v and label in _joined_to_hot(situation):
            yield _hit(view, look, metals, volts)


def _touched_too(situation: Situation) -> list[int]:
    """Earth and bodies; where neither is drawn, the frames of the sources that are on."""
    grounds = [n for owner in situation.owners for n in ground_nodes(situation, owner)]
    return [*situation.circuit.anchors, *grounds]
