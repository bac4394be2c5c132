"""What a person can open, and what a source reaches past all of it."""

from __future__ import annotations

from collections.abc import Collection

from linework.circuit.model import LiveSource
from linework.circuit.series import ways_back
from linework.design import Design
from linework.study.situation import Situation
from linework.study.ways.protection import reached


def opened_by_hand(situation: Situation) -> frozenset[int]:
    """The branches in circuit that a person can open: switches, breakers, plugs; no fuses."""
    circuit = situation.circuit
    levers = {key for key, s in circuit.selectors.items() if s.moves in ("hand", "protection")}
    breakers = {
        i for device in circuit.devices if device.data.curve == "breaker" for i in device.branches
    }
    return frozenset(
        i
        for i in situation.closed
        if i in breakers
        or circuit.branches[i].sort == "seat"
        or any(key in levers for key, _ in circuit.branches[i].when)
    )


def pulled_off(situation: Situation, design: Design) -> frozenset[int]:
    """The branches of the pins of inlets: the connector of a cord that is drawn to them is pulled
    off there, as a plug is."""
    return frozenset(
        i
        for part in design.parts
        if design.kind(part).lets_in and not design.kind(part).plugs
        for i in situation.circuit.branches_of.get(part.id, ())
        if i in situation.closed
    )


def always_joined(
    situation: Situation, source: LiveSource, barred: Collection[int]
) -> tuple[set[int], set[int]]:
    """The nodes that each end of a source reaches whatever a person opens, plus side first.

    Its other end is also its other leg, and the far end of batteries in series; a way back may go
    through a chassis.
    """
    wires, circuit = situation.wires(), situation.circuit
    key = (source.owner, source.data.group)
    (own,) = (i for i, s in situation.active if s is source)
    ends = {circuit.sources[way[-1]].minus for way in _ways(situation, own)} | {
        s.plus for i, s in situation.active if (s.owner, s.data.group) == key and i != own
    }
    far = set[int]().union(*(reached(situation.wires(bonds=True), e, barred) for e in ends))
    return reached(wires, source.plus, barred), far


def _ways(situation: Situation, source: int) -> Collection[tuple[int, ...]]:
    return ways_back(situation, source, situation.conductive).values()
