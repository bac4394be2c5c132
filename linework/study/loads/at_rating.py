"""Study: what inverters take from their batteries when they give their rating.

The current is greatest at the lowest voltage of the battery: rating / (efficiency x voltage), as
NFPA 70 690.8(A) has it for inverters that stand alone (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from linework.circuit.incircuit import LINKS, SOIL
from linework.circuit.model import Device, Load, Sorts
from linework.circuit.series import ways_back
from linework.codes import stated
from linework.study.loads.loaded import Loaded
from linework.study.situation import Situation, System
from linework.study.ways.sums import Inflow, inflow


@dataclass(frozen=True)
class AtRating:
    """The battery side of an inverter (load index), with its greatest lasting current in ampere at
    ``volts``, the lowest of its battery, and ``rated_va`` given."""

    situation: Situation
    index: int
    rated_va: float
    amps: float
    volts: float

    @property
    def load(self) -> Load:
        """What it is to its battery."""
        return self.situation.circuit.loads[self.index]

    @property
    def needed_a(self) -> float:
        """What its circuit must be made for: 125 % of it (NFPA 70 690.8(B), from memory)."""
        return stated("common", "inverter_input").value * self.amps

    @cached_property
    def stores(self) -> list[System]:
        """The batteries that feed it."""
        return self._feeding(self.situation.labels(self._past))

    @cached_property
    def _past(self) -> Sorts:
        """What is no way for its current: bonds too, unless it comes back by metal alone."""
        return LINKS if self._feeding(self.situation.clusters) else SOIL

    def _feeding(self, label: Sequence[int]) -> list[System]:
        sources = self.situation.circuit.sources
        return [
            system
            for system in self.situation.systems
            if sources[system.source].data.group.stores
            and label[sources[system.source].plus] == label[self.load.a]
            and label[self.load.b] in ways_back(self.situation, system.source, label)
        ]

    def devices(self) -> tuple[Inflow, list[Device]]:
        """What devices let through to it from all its batteries, and the devices that bound it."""
        comes = inflow(self.situation, (self.load.a,), self.stores)
        return comes, [self.situation.circuit.devices[i] for i in comes.devices]

    def alone(self) -> Iterator[int]:
        """The branches through which all of its current flows: opened, no battery feeds it."""
        ends = {self.situation.clusters[self.load.a], self.situation.clusters[self.load.b]}
        for index in sorted(self.situation.closed):
            branch = self.situation.circuit.branches[index]
            if self.situation.clusters[branch.a] not in ends:
                continue
            if not self._feeding(self.situation.labels_without(frozenset({index}), self._past)):
                yield index

    def beside_a(self, loaded: Loaded, branch: int) -> float:
        """What drawn loads take through a branch besides it, in ampere."""
        return max(0.0, self.comes_a(loaded, branch) - loaded.load_a.get(self.index, 0.0))

    def comes_a(self, loaded: Loaded, branch: int) -> float:
        """The current in ampere that comes through a branch from its batteries, its own with the
        drawn loads among it; below zero where they are charged through it."""
        label = self.situation.labels_without(frozenset({branch}), LINKS)
        wire, load = self.situation.circuit.branches[branch], self.load
        a, b = label[wire.a], label[wire.b]
        if a == b:
            return loaded.amps(branch)
        onward = b == label[load.a] or a == label[load.b]
        amps = loaded.branch_a.get(0.0, {}).get(branch, 0j).real
        return amps if onward else -amps


def at_rating(situation: Situation) -> list[AtRating]:
    """Each inverter that works from batteries in this state."""
    circuit, on = situation.circuit, dict(situation.active)
    found: dict[int, list[tuple[float, float]]] = {}
    drawing = {i for i, _ in situation.loads}
    for conversion in circuit.conversions:
        source, load = on.get(conversion.source), circuit.loads[conversion.load]
        direct = load.data.hertz == 0.0
        if (
            source is None
            or conversion.load not in drawing
            or not direct
            or source.data.hertz == 0.0
        ):
            continue
        rated_va = source.data.volts * (source.data.rated_a or 0.0)
        found.setdefault(conversion.load, []).append((rated_va, conversion.data.efficiency))
    made = [_one(situation, index, legs) for index, legs in found.items()]
    return [each for each in made if each.stores]


def _one(situation: Situation, index: int, legs: list[tuple[float, float]]) -> AtRating:
    volts = stated("common", "lowest_battery").value / 100.0
    volts *= situation.circuit.loads[index].data.volts
    taken_w = sum(va / efficiency for va, efficiency in legs)
    return AtRating(situation, index, sum(va for va, _ in legs), taken_w / volts, volts)
