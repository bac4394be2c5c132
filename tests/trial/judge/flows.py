"""How much current can come into a hot conductor, and which loads hang behind it."""

from __future__ import annotations

import math
from functools import cached_property

from tests.trial.judge.net import HOTS, Edge, Emf, Node, Use
from tests.trial.judge.standing import Standing

_SET_OVER = 1.15
"""A set without a device gives this over its rating for good (NFPA 70 445.13)."""


def capacity(source: Emf) -> float:
    """The most that a source gives for good, in ampere."""
    if source.limit_a is None:
        return math.inf
    return source.limit_a * (_SET_OVER if source.sort == "generator" else 1.0)


class Flows:
    """The hot conductors of one standing, cut into regions by overcurrent devices."""

    def __init__(self, standing: Standing) -> None:
        self.standing = standing
        self.edges = [e for e in standing.edges if e.a.pole in HOTS and e.b.pole in HOTS]
        self.near: dict[Node, list[tuple[Node, Edge]]] = {}
        for edge in self.edges:
            self.near.setdefault(edge.a, []).append((edge.b, edge))
            self.near.setdefault(edge.b, []).append((edge.a, edge))
        self.at: dict[Node, list[Emf]] = {}
        for source in standing.sources:
            self.at.setdefault(source.plus, []).append(source)
            if source.sort == "battery" and source.minus.pole in HOTS:
                self.at.setdefault(source.minus, [])

    def region(self, start: Node, without: Edge | None = None) -> frozenset[Node]:
        """All nodes joined to one without crossing a device (or ``without``)."""
        seen, waiting = {start}, [start]
        while waiting:
            for other, edge in self.near.get(waiting.pop(), ()):
                if edge.amps is None and edge is not without and other not in seen:
                    seen.add(other)
                    waiting.append(other)
        return frozenset(seen)

    @cached_property
    def regions(self) -> dict[Node, int]:
        """The region of each hot node."""
        found: dict[Node, int] = {}
        for node in {*self.near, *self.at}:
            if node not in found:
                found.update(dict.fromkeys(self.region(node), len(found)))
        return found

    def into(self, start: Node, without: Edge | None = None) -> float:
        """Ampere that can come to a node for good, not through ``without``: the sum over all
        sources, each held by the devices on its way."""
        if start not in self.near and start not in self.at:
            return 0.0
        nodes = self.region(start, without)
        return self._sum(nodes, without, {self.regions[node] for node in nodes})

    def _sum(self, nodes: frozenset[Node], without: Edge | None, seen: set[int]) -> float:
        total = sum(capacity(s) for node in nodes for s in self.at.get(node, ()))
        beyond: dict[int, tuple[float, Node]] = {}
        for node in nodes:
            for other, edge in self.near.get(node, ()):
                label = self.regions[other]
                if edge.amps is None or edge is without or label in seen:
                    continue
                amps, _ = beyond.get(label, (0.0, other))
                beyond[label] = (amps + edge.amps, other)
        for label, (amps, other) in beyond.items():
            if label not in seen:
                seen.add(label)
                total += min(amps, self._sum(self.region(other), without, seen))
        return total

    def behind(self, start: Node, without: Edge) -> set[Node]:
        """Every hot node on one side of an edge, devices crossed."""
        seen, waiting = {start}, [start]
        while waiting:
            for other, edge in self.near.get(waiting.pop(), ()):
                if edge is not without and other not in seen:
                    seen.add(other)
                    waiting.append(other)
        return seen

    def loads(self, start: Node, without: Edge) -> list[Use]:
        """The loads on one side of an edge; none where the edge is part of a ring."""
        nodes = self.behind(start, without)
        if {without.a, without.b} <= nodes:
            return []
        return [u for u in self.standing.uses if u.a in nodes or u.b in nodes]
