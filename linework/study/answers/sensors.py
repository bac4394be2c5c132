"""What ground-fault devices see, for the rules that judge them."""

from __future__ import annotations

from linework.circuit.model import Sensor
from linework.study.answers.trust import known_faults
from linework.study.once import once
from linework.study.shorts.faults import Fault
from linework.study.situation import Situation
from linework.study.studies import Studies


def guarded(situation: Situation, sensor: Sensor, node: int) -> bool:
    """Whether a hot node hangs on its sources only through this device."""
    systems = situation.feeds(node)
    if not systems:
        return False
    cut = situation.metallic_without(frozenset(sensor.opens))
    sources = situation.circuit.sources
    return all(cut[sources[s.source].plus] != cut[node] for s in systems)


def live(situation: Situation, sensor: Sensor) -> bool:
    """Whether an AC source feeds through the device."""
    branches = situation.circuit.branches
    return any(
        s.is_ac
        for i in sensor.senses
        if i in situation.closed
        for s in situation.feeds(branches[i].a)
    )


def load_side_link(situation: Situation, sensor: Sensor) -> bool:
    """Whether neutral meets ground on the load side: with the sensor's conductors taken away, a
    load-side node is still joined by metal to a line-side one."""
    cut = situation.metallic_without(frozenset(sensor.senses))
    branches = situation.circuit.branches
    return any(
        i in situation.closed and cut[branches[i].a] == cut[branches[i].b] for i in sensor.senses
    )


def guarded_faults(studies: Studies, sensor: Sensor) -> list[tuple[int, Fault]]:
    """Faults to metal on the load side of a device, with their indices."""
    situation, at = studies.situation, _shocks_at(studies)
    fallen = situation.metallic_without(frozenset(sensor.opens)).fallen
    sources = (situation.circuit.sources[s.source].plus for s in situation.systems)
    nodes = at.keys() if any(node in fallen for node in sources) else at.keys() & fallen
    found = [pair for node in nodes if guarded(situation, sensor, node) for pair in at[node]]
    return sorted(found, key=lambda pair: pair[0])


@once
def _shocks_at(studies: Studies) -> dict[int, list[tuple[int, Fault]]]:
    """For each node the faults from there to metal on alternating current, with their indices."""
    found: dict[int, list[tuple[int, Fault]]] = {}
    for index, fault in enumerate(known_faults(studies)):
        if fault.point.kind == "metal" and fault.point.hertz > 0.0:
            found.setdefault(fault.point.node, []).append((index, fault))
    return found
