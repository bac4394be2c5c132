"""How far conductors go from an inlet before a device ends them."""

from __future__ import annotations

import heapq
import math
from collections.abc import Collection, Iterable
from dataclasses import dataclass

from linework.study.situation import Situation
from linework.study.ways.leads import Lengths
from linework.study.ways.sums import drawing


@dataclass(frozen=True)
class Reach:
    """``meters``: of conductor to the farthest place before a device, infinite where a length on
    the way is not given. ``stops``: the branches of devices at which conductors end; ``draws``:
    whether loads or outlets lie before them."""

    meters: float
    stops: frozenset[int]
    draws: bool


def reach(
    situation: Situation,
    starts: Iterable[int],
    stops: Collection[int],
    leaving: str,
    lengths: Lengths,
) -> Reach:
    """Along conductors from some nodes up to these branches; not back through the part ``leaving``.
    In closed devices and contacts nothing is lost."""
    branches, wires = situation.circuit.branches, situation.wires()
    away: dict[int, float] = {}
    met: set[int] = set()
    queue = [(0.0, node) for node in starts]
    heapq.heapify(queue)
    while queue:
        meters, node = heapq.heappop(queue)
        if node in away:
            continue
        away[node] = meters
        for i, other in wires.get(node, ()):
            if i in stops:
                met.add(i)
            elif branches[i].owner != leaving:
                length = lengths.get(branches[i].owner, 0.0)
                heapq.heappush(queue, (meters + (math.inf if length is None else length), other))
    farthest, draws = (
        max(away.values(), default=0.0),
        not away.keys().isdisjoint(drawing(situation)),
    )
    return Reach(farthest, frozenset(met), draws)
