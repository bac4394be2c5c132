"""Study: what flows through a bar for good: no way of it brings and takes at once."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from linework.circuit.incircuit import LINKS
from linework.study.situation import Situation, System
from linework.study.ways.sums import charging_on, inflow, outflow_a, stores_on, taken_a

_MOST = 10
"""Of so many ways that may do either all combinations are tried."""


@dataclass(frozen=True)
class _Way:
    """What a way of a bar can bring, what of it chargers bring, what it can take to loads and
    outlets, and what to stores that are charged, in ampere."""

    brings: float
    charging: float
    draws: float
    charged: float

    @property
    def either(self) -> bool:
        return self.brings > 0.0 and (self.draws > 0.0 or self.charged > 0.0)


def through_bar_a(situation: Situation, node: int) -> float:
    """The most that flows through a bar for good, in ampere: of each way either what it brings or
    what it takes counts. Where ways meet again past the bar, where it is loaded itself, and of very
    many ways, all that comes and all that is taken."""
    ways = _ways(situation, node)
    if ways is None or sum(way.either for way in ways) > _MOST:
        return taken_a(situation, node, node)
    choices = ((True, False) if way.either else (way.brings > 0.0,) for way in ways)
    return max((_flow(ways, bring) for bring in product(*choices)), default=0.0)


def _flow(ways: Sequence[_Way], bring: Sequence[bool]) -> float:
    """What flows where the ways marked bring and the others take. The stores on a bar have one
    voltage: for good they give together, or what charges feeds them and the rest."""
    comes = [way for way, in_ in zip(ways, bring, strict=True) if in_]
    goes = [way for way, in_ in zip(ways, bring, strict=True) if not in_]
    drawn = sum(way.draws for way in goes)
    giving = min(sum(way.brings for way in comes), drawn)
    charging = min(sum(way.charging for way in comes), drawn + sum(way.charged for way in goes))
    return max(giving, charging)


def _ways(situation: Situation, node: int) -> list[_Way] | None:
    """None where the ways of a bar cannot be told apart."""
    sources = (n for _, s in situation.active for n in (s.plus, s.minus))
    loads = (n for _, load in situation.loads for n in (load.a, load.b))
    if node in {*sources, *loads}:
        return None
    found = []
    for branch, other in situation.wires().get(node, ()):
        label = situation.labels_without(frozenset({branch}), LINKS)
        if label[other] == label[node]:
            return None
        found.append(_way(situation, branch, other))
    return found


def _way(situation: Situation, branch: int, other: int) -> _Way:
    """Of one branch of a bar, ``other`` being its far end."""
    label = situation.labels_without(frozenset({branch}), LINKS)
    device = situation.circuit.device_of.get(branch)
    sources = situation.circuit.sources
    there = [s for s in situation.feeds(other) if label[sources[s.source].plus] == label[other]]

    def most(systems: Sequence[System]) -> float:
        return inflow(situation, (other,), systems, branch).amps

    figures = (
        most(there),
        most(charging_on(situation, label, other)),
        outflow_a(situation, label, other, branch),
        most(stores_on(situation, label, other)),
    )
    rated = math.inf if device is None else situation.circuit.devices[device].data.rating_a
    return _Way(*(min(rated, amps) for amps in figures))
