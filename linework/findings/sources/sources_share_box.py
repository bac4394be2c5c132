"""Two sources in one box that nothing opens together.

What is checked
    Each outlet with faces that are fed one by one, and all outlets and joints
    that lie in one box: whether conductors of two sources of alternating
    current are live in it at once, and no switch, breaker or plug opens both.
Why it matters
    Who switched one of them off and tested it dead puts a hand on the other.
    The two do not run in step: between their conductors lies up to the sum of
    their voltages.
How to cure it
    Outlets of their own in boxes of their own, marked; or a transfer switch
    that gives one box one source at a time.
Limits
    Only boxes that the drawing says are shared are known. Two circuits of one
    source are told by handle-not-common.
Sources
    Common practice, no source; compare NFPA 70 (2023) 210.7.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds import Kind
from linework.study.situation import Situation, System
from linework.study.ways.openings import opened_by_hand
from linework.study.ways.paths import way
from linework.study.wires.fill import boxes
from linework.wiring import Pole, is_ungrounded
from linework.words import N_

MESSAGE = N_(
    "In the box of {where} conductors of {one} and of {other} are live at once, and nothing opens"
    " both: who switches one off meets the other."
)


@dataclass(frozen=True)
class _Live:
    """A hot conductor in a box: its node, its source and what opens it by hand."""

    look: Look
    node: int
    owner: str
    volts: float
    openers: frozenset[str]


def check(view: View) -> Iterator[Outcome]:
    """One hit for each box and pair of sources."""
    for parts in _boxes(view):
        live = [each for look in view.settled_looks for each in _live(look, parts)]
        told: set[frozenset[str]] = set()
        for one, other in combinations(live, 2):
            pair = frozenset((one.owner, other.owner))
            if len(pair) == 2 and pair not in told and _at_once(view, one, other):
                told.add(pair)
                yield _hit(view, parts, one, other)


def _boxes(view: View) -> list[tuple[str, ...]]:
    """The parts of each box in which more than one circuit may end."""
    return [
        parts
        for parts in boxes(view.design)
        if len(parts) > 1 or any(_halves(view.kind(part)) for part in parts)
    ]


def _halves(kind: Kind) -> bool:
    """Whether it is an outlet of several faces with a feed each."""
    return kind.receptacle and len({limit.terminal for limit in kind.carries}) > 1


def _live(look: Look, parts: tuple[str, ...]) -> Iterator[_Live]:
    situation = look.studies.situation
    seen: set[tuple[int, str]] = set()
    for part in parts:
        for nodes in situation.circuit.terminals_of.get(part, ()):
            for pole, node in nodes.items():
                for system in situation.feeds(node) if is_ungrounded(Pole(pole)) else ():
                    key = (situation.clusters[node], system.owner)
                    if system.is_ac and key not in seen:
                        seen.add(key)
                        volts = situation.circuit.sources[system.source].data.volts
                        openers = _openers(situation, system, node)
                        yield _Live(look, key[0], system.owner, volts, openers)


def _openers(situation: Situation, system: System, node: int) -> frozenset[str]:
    """What a person opens on the way from a source."""
    steps = way(situation, situation.circuit.sources[system.source].plus, node) or []
    by_hand = opened_by_hand(situation)
    return frozenset(situation.circuit.branches[i].owner for i in steps if i in by_hand)


def _at_once(view: View, one: _Live, other: _Live) -> bool:
    """Whether both are live in some state, on two conductors that nothing opens together."""
    if one.openers & other.openers:
        return False
    if one.look is other.look:
        return one.node != other.node
    return view.standing.together(one.look.state, other.look.state)


def _hit(view: View, parts: tuple[str, ...], one: _Live, other: _Live) -> Hit:
    first, second = sorted((one, other), key=lambda live: view.name(live.owner))
    volts = one.volts + other.volts
    return first.look.hit(
        Level.WARNING,
        parts,
        MESSAGE,
        {
            "where": ", ".join(map(view.name, parts)),
            "one": view.name(first.owner),
            "other": view.name(second.owner),
        },
        (Evidence(N_("most voltage between the two"), volts, "voltage"),),
        touches=frozenset({one.owner, other.owner}),
    )


RULE = Rule(
    "sources-share-box",
    N_("Two sources in one box"),
    check,
    {"NA": "practice", "INT": "practice"},
    causes=("sources-meet",),
    whole=True,
)
