"""Study: neutrals by which circuits behind different devices come back together.

A feeder's neutral returns many circuits too, but all of them lie behind the device of the feeder.
What is told here hangs on a neutral without lying behind the device of the hot conductor beside it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.incircuit import LINKS
from linework.circuit.model import Device
from linework.study.neutral.neutrals import Taker, returning
from linework.study.situation import Situation, System
from linework.study.ways.protection import device_at
from linework.study.ways.windings import live_windings
from linework.wiring import Pole, is_ungrounded


@dataclass(frozen=True)
class Together:
    """A neutral conductor (``branch``) of the circuit of one device, and what comes back by it from
    the circuit of another, on the same leg or not."""

    branch: int
    one: Device
    other: Device
    taker: Taker
    same_leg: bool


def neutrals_of_two_circuits(situation: Situation) -> Iterator[Together]:
    """Every conductor of a run in which returns of two devices meet after them."""
    for branch, takers in returning(situation).items():
        found: dict[tuple[str, str], tuple[Device, Taker]] = {}
        for taker in takers:
            device = device_at(situation, taker.system, taker.hot)
            if device is not None:
                found.setdefault((device.owner, taker.system.owner), (device, taker))
        if len(found) > 1:
            yield from _meeting(situation, branch, list(found.values()))


def _meeting(
    situation: Situation, branch: int, found: list[tuple[Device, Taker]]
) -> Iterator[Together]:
    for system, one in _own(situation, branch, [taker.system for _, taker in found]):
        for device, taker in found:
            alike = taker.system.owner == system.owner
            if alike and device.owner != one.owner and not _behind(situation, one, taker):
                same = taker.system.source == system.source
                yield Together(branch, one, device, taker, same)


def _own(
    situation: Situation, branch: int, systems: list[System]
) -> Iterator[tuple[System, Device]]:
    """The devices to whose circuit a neutral belongs, each with the winding before it: those of the
    hot conductors beside it, or the one at whose terminal a neutral of its own begins."""
    circuit = situation.circuit
    run = circuit.branches[branch].owner
    beside = [
        circuit.branches[i]
        for i in circuit.branches_of[run]
        if i in situation.closed and is_ungrounded(Pole(circuit.branches[i].pole))
    ]
    ends = (circuit.branches[branch].a, circuit.branches[branch].b)
    at = {spot.part for node in ends for spot in circuit.spots[node]}
    for system in dict.fromkeys(systems):
        devices = [device_at(situation, system, wire.a) for wire in beside]
        if not beside:
            devices = [
                d for d in circuit.devices if d.owner in at and _passes(situation, system, d)
            ]
        yield from ((system, device) for device in devices if device is not None)


def _passes(situation: Situation, system: System, device: Device) -> bool:
    """Whether a winding feeds through a device."""
    branches = situation.circuit.branches
    return any(
        i in situation.closed and situation.clusters[branches[i].a] == system.hot
        for i in device.branches
    )


def _behind(situation: Situation, device: Device, taker: Taker) -> bool:
    """Whether a taker is dead once the device is open."""
    opened = frozenset(device.branches) & situation.closed
    cluster = situation.labels_without(opened, LINKS)
    if taker.system not in live_windings(situation, cluster):
        return True  # the device lies before the primary that drives its winding
    return cluster[taker.hot] != cluster[situation.circuit.sources[taker.system.source].plus]


__all__ = ["Together", "neutrals_of_two_circuits"]
