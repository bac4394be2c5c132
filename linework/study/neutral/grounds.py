"""Study: ground wires on their own, without which some metal has no way back to its source."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from linework.circuit.incircuit import SOIL
from linework.circuit.model import Branch
from linework.study.situation import Situation, System
from linework.study.ways.protection import Guard, guards
from linework.wiring import Pole


@dataclass(frozen=True)
class LoneWire:
    """A run of nothing but a ground wire that some circuit relies on.

    ``device``: index of the largest device ahead of the ``parts`` whose metal hangs on it;
    ``live_runs``: the runs that feed these.
    """

    run: str
    device: int
    parts: tuple[str, ...]
    live_runs: tuple[str, ...]


def relied_on(situation: Situation, index: int) -> Iterator[LoneWire]:
    """What relies on one link of a ground wire, of each alternating-current system."""
    branch = situation.circuit.branches[index]
    label = situation.labels_without(frozenset({index}), SOIL)
    if index not in situation.closed or label[branch.a] == label[branch.b]:
        return
    for system in situation.systems:
        if system.is_ac:
            ahead = guards(situation, system)
            wire = _relied_on(situation, branch, label, system, ahead)
            if wire is not None:
                yield wire


def lone_ground_wires(situation: Situation) -> Iterator[LoneWire]:
    """Of the state's alternating-current systems."""
    systems = [s for s in situation.systems if s.is_ac]
    ahead = {s.source: guards(situation, s) for s in systems} if systems else {}
    for index in sorted(situation.closed):
        branch = situation.circuit.branches[index]
        if branch.sort != "run" or branch.pole != Pole.PE or _has_company(situation, branch):
            continue
        label = situation.labels_without(frozenset({index}), SOIL)
        if label[branch.a] == label[branch.b]:
            continue
        for system in systems:
            wire = _relied_on(situation, branch, label, system, ahead[system.source])
            if wire is not None:
                yield wire


def _has_company(situation: Situation, branch: Branch) -> bool:
    mine = situation.circuit.branches_of[branch.owner]
    return any(situation.circuit.branches[i].pole != Pole.PE for i in mine)


def _relied_on(
    situation: Situation,
    branch: Branch,
    label: Sequence[int],
    system: System,
    ahead: Mapping[int, Guard],
) -> LoneWire | None:
    """What hangs on a wire of all that one source winding feeds; ``label``: without that wire."""
    circuit = situation.circuit
    home = {
        label[nodes[Pole.PE]] for nodes in circuit.terminals_of[system.owner] if Pole.PE in nodes
    }
    sides = {label[branch.a], label[branch.b]}
    if len(sides & home) != 1:
        return None
    far = next(iter(sides - home))
    rated: list[tuple[float, int]] = []
    parts: set[str] = set()
    fed: set[int] = set()
    for (part, _), nodes in circuit.terminals.items():
        if Pole.PE in nodes and label[nodes[Pole.PE]] == far:
            for node in nodes.values():
                guard = ahead.get(node)
                if guard is not None and guard.device is not None:
                    parts.add(part)
                    fed.add(node)
                    rated.append((guard.rating_a, guard.device))
    if not rated:
        return None
    live = {b.owner for b in situation.branches if b.sort == "run" and fed & {b.a, b.b}}
    return LoneWire(branch.owner, max(rated)[1], tuple(sorted(parts)), tuple(sorted(live)))
