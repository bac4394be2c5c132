"""What a person can open, and what a source reaches past all of it."""

from __future__ import annotations

from collections.abc import Collection

from linework.circuit.model import LiveSource
from linework.study.protection import reached
from linework.study.situation import Situation


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


def always_joined(
    situation: Situation, source: LiveSource, barred: Collection[int]
) -> tuple[set[int], set[int]]:
    """The nodes that each end of a source reaches whatever a person opens, plus side first."""
    wires = situation.wires()
    return reached(wires, source.plus, barred), reached(wires, source.minus, barred)
