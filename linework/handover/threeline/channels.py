"""The room between two columns: each conductor level, plumb on a track of its own, level again.

Where the left row of one ribbon and the right row of another lie at one height, the first keeps to
the left of the second (the constraint graph of channel routing: Yoshimura and Kuh, Efficient
algorithms for channel routing, 1982; from memory). Where that closes a ring, one of it makes its
way below all others.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import networkx as nx

TRACK = 25
"""From track to track, in tenths of a millimetre."""
_CLEAR = 18


@dataclass
class Lane:
    """A ribbon in a channel: the heights of its conductors at the left and at the right.

    ``back``: both ends lie at the left. ``below``: the heights of its detour, if it makes one.
    """

    left: Sequence[int]
    right: Sequence[int]
    back: bool = False
    below: Sequence[int] = ()
    tracks: list[Sequence[int]] = field(default_factory=list)

    @property
    def straight(self) -> bool:
        """Whether no conductor changes its height."""
        return not self.back and list(self.left) == list(self.right)


@dataclass(frozen=True)
class _Step:
    lane: Lane
    left: Sequence[int]
    right: Sequence[int]

    @property
    def span(self) -> tuple[int, int]:
        return min(*self.left, *self.right) - _CLEAR, max(*self.left, *self.right) + _CLEAR


def tracked(lanes: Sequence[Lane]) -> int:
    """Give every conductor that is not straight its tracks; how many there are."""
    for lane in lanes:
        lane.tracks.clear()
        lane.below = ()
    deepest = max((y for lane in lanes for y in (*lane.left, *lane.right)), default=0)
    for lane in _ringed(lanes):
        lane.below = [deepest + (n + 2) * TRACK for n in range(len(lane.left))]
        deepest = lane.below[-1]
    first = [_Step(lane, lane.left, lane.below) for lane in lanes if lane.below]
    then = [_Step(lane, lane.below or lane.left, lane.right) for lane in lanes if not lane.straight]
    count = _give(first, 0)
    return _give(then, count)


def _ringed(lanes: Sequence[Lane]) -> list[Lane]:
    """Those that must make a detour so that no ring is left."""
    graph = _before(lanes)
    found: list[Lane] = []
    while True:
        try:
            ring = nx.find_cycle(graph)
        except nx.NetworkXNoCycle:
            return found
        n = min(a for a, _ in ring)
        found.append(lanes[n])
        graph.remove_node(n)


def _before(lanes: Sequence[Lane]) -> nx.DiGraph:
    """An edge from each lane to those that must lie right of it."""
    graph = nx.DiGraph()
    graph.add_nodes_from(range(len(lanes)))
    for n, one in enumerate(lanes):
        for m, other in enumerate(lanes):
            lefts = [*one.left, *one.right] if one.back else one.left
            rights = [] if other.back else other.right
            if n != m and any(abs(a - b) < _CLEAR for a in lefts for b in rights):
                graph.add_edge(n, m)
    return graph


def _give(steps: list[_Step], start: int) -> int:
    """Tracks from ``start`` on, the leftmost that are free; the first that is free for all."""
    made = [Lane(step.left, step.right, step.lane.back) for step in steps]
    graph = _before(made)
    taken: list[list[tuple[int, int]]] = []
    after: dict[int, int] = {}
    # of those that may come first, the one nearest the top; a ring cannot be any more
    for n in nx.lexicographical_topological_sort(graph, key=lambda n: steps[n].span):
        step, wide = steps[n], len(steps[n].left)
        before = graph.predecessors(n)  # type: ignore[no-untyped-call]
        least = max((after[m] for m in before), default=0)
        while not all(_free(taken, least + k, step.span) for k in range(wide)):
            least += 1
        for k in range(wide):
            while len(taken) <= least + k:
                taken.append([])
            taken[least + k].append(step.span)
        after[n] = least + wide
        down = step.right[0] > step.left[0]
        offsets = range(wide - 1, -1, -1) if down and not step.lane.back else range(wide)
        step.lane.tracks.append([start + least + k for k in offsets])
    return start + len(taken)


def _free(taken: list[list[tuple[int, int]]], track: int, span: tuple[int, int]) -> bool:
    if track >= len(taken):
        return True
    return all(span[1] <= low or high <= span[0] for low, high in taken[track])
