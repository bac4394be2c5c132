"""Devices in the circuits of a solar array, which run at their full current all day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.incircuit import LINKS
from linework.circuit.model import Device, LiveSource
from linework.codes import stated
from linework.design import Design
from linework.kinds.solar_array import BRIGHT, short_a
from linework.study.situation import Situation
from linework.study.ways.protection import reached


@dataclass(frozen=True)
class InTheSun:
    """A device with the least rating in ampere that it needs, and the parts that drive it so."""

    device: Device
    needed_a: float
    sources: tuple[str, ...]


def devices_in_the_sun(design: Design, situation: Situation) -> Iterator[InTheSun]:
    """Those between arrays and their controller, 156 % of the short-circuit current of the plates
    of all that come through it (NFPA 70 690.8, 690.9(B)); and the one at a controller's output,
    125 % of its rating."""
    controllers = _controllers(situation)
    for index, source in situation.active:
        if source.data.group.solar:
            for device in _on(situation, source):
                through = _through(situation, device, source)
                amps = sum(short_a(design.values(design.part(owner))) for owner in through)
                if through:
                    yield InTheSun(device, BRIGHT * BRIGHT * amps, through)
        elif index in controllers and source.data.group.charges:
            behind = _output_device(situation, source)
            if behind is not None:
                share = stated("common", "controller_output").value
                amps = share * (source.data.rated_a or 0.0)
                yield InTheSun(behind, amps, (source.owner,))


def _controllers(situation: Situation) -> set[int]:
    """The sources whose power comes from an array."""
    circuit = situation.circuit
    return {
        c.source
        for c in circuit.conversions
        for system in situation.feeds(circuit.loads[c.load].a)
        if circuit.sources[system.source].data.group.solar
    }


def _on(situation: Situation, source: LiveSource) -> list[Device]:
    """The devices in the hot conductor of an array that no battery shares."""
    label, circuit = situation.clusters, situation.circuit
    hot = label[source.plus]
    if any(label[s.plus] == hot for _, s in situation.active if s.data.group.stores):
        return []
    return [
        device
        for device in circuit.devices
        if any(label[circuit.branches[i].a] == hot for i in device.branches)
    ]


def _through(situation: Situation, device: Device, source: LiveSource) -> tuple[str, ...]:
    """The arrays whose current comes through a device, where that of one does; that one alone where
    nothing takes it or another way leads past the device. Empty where only others come through."""
    clusters, hot = situation.clusters, situation.clusters[source.plus]
    ends = {node for _, load in situation.loads for node in (load.a, load.b)}
    if hot not in {clusters[node] for node in ends}:
        return (source.owner,)
    label = situation.labels_without(frozenset(device.branches), LINKS)
    taking = {label[node] for node in ends}
    lost = {
        s.owner
        for _, s in situation.active
        if s.data.group.solar and clusters[s.plus] == hot and label[s.plus] not in taking
    }
    if source.owner in lost:
        return tuple(sorted(lost))
    branches = situation.circuit.branches
    ring = any(label[branches[i].a] == label[branches[i].b] for i in device.branches)
    return (source.owner,) if ring else ()


def _output_device(situation: Situation, source: LiveSource) -> Device | None:
    """The only device between a controller's output and everything else that gives power."""
    circuit, wires = situation.circuit, situation.wires()
    by_branch = circuit.device_of
    near = reached(wires, source.plus, by_branch)
    edge = {by_branch[i] for node in near for i, _ in wires.get(node, ()) if i in by_branch}
    others = any(s.plus in near for _, s in situation.active if s.owner != source.owner)
    return circuit.devices[edge.pop()] if len(edge) == 1 and not others else None
