"""In which column each block stands, and in what order: what feeds left of what it feeds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import networkx as nx

from linework.handover.threeline.model import Port, Ribbon
from linework.sheet.arranging import ORIGIN, Spacing

Item = str | tuple[int, int]
"""A block by its key, or the place where ribbon ``n`` passes column ``c``."""
_SWEEPS = 12
_NEAR, _LEFT, _PLUG = 1.0, 0.02, 2.0


@dataclass(frozen=True)
class Hop:
    """A ribbon from one column to the next: number of the ribbon, the items at its two ends.

    ``first``, ``last``: the ports at which it ends there, None where it passes on.
    """

    ribbon: int
    left: Item
    right: Item
    first: Port | None
    last: Port | None


def columns(keys: Sequence[str], ribbons: Sequence[Ribbon]) -> dict[str, int]:
    """The column of each block, from 0. A ring is left open where it closes."""
    ahead = nx.DiGraph()
    ahead.add_nodes_from(keys)
    spacing = Spacing()
    for key in keys:
        spacing.apart(ORIGIN, key, 0)
        spacing.near(ORIGIN, key, 0, _LEFT)
    for ribbon in ribbons:
        a, b = ribbon.a.block, ribbon.b.block
        if not ribbon.flows:
            a, b = b, a
        if a == b:
            continue
        if nx.has_path(ahead, b, a):  # type: ignore[no-untyped-call]
            a, b = b, a
        ahead.add_edge(a, b)
        spacing.apart(a, b, 1)
        spacing.near(a, b, 1, _PLUG if ribbon.plug else _NEAR)
    found = spacing.places()
    assert found is not None, "columns without a ring can always be"
    least = min((found[key] for key in keys), default=0)
    return {key: found[key] - least for key in keys}


def hops(ribbons: Sequence[Ribbon], column: Mapping[str, int]) -> list[Hop]:
    """Every ribbon from column to column; one within a block has none."""
    found: list[Hop] = []
    for n, ribbon in enumerate(ribbons):
        ends = sorted((ribbon.a, ribbon.b), key=lambda port: column[port.block])
        low, high = (column[port.block] for port in ends)
        if low == high:
            continue
        items: list[Item] = [ends[0].block, *((n, c) for c in range(low + 1, high)), ends[1].block]
        for k in range(len(items) - 1):
            first = ends[0] if k == 0 else None
            last = ends[1] if k == len(items) - 2 else None
            found.append(Hop(n, items[k], items[k + 1], first, last))
    return found


def column_of(item: Item, column: Mapping[str, int]) -> int:
    """The column of a block or of a passing ribbon."""
    return column[item] if isinstance(item, str) else item[1]


class Order:
    """The order of blocks and passing ribbons from top to bottom in each column.

    By the mean of the places of their neighbours, column by column to and fro (Sugiyama, Tagawa
    and Toda, Methods for visual understanding of hierarchical system structures, 1981; from
    memory); the order with the fewest crossings of all rounds is kept.
    """

    def __init__(
        self,
        keys: Sequence[str],
        column: Mapping[str, int],
        hops: Sequence[Hop],
        fixed: Mapping[Port, float],
    ) -> None:
        self.column, self.hops, self.fixed = column, hops, fixed
        items: dict[Item, None] = dict.fromkeys(keys)
        for hop in hops:
            items.update({hop.left: None, hop.right: None})
        self.order: dict[int, list[Item]] = {}
        for item in self._walked(list(items)):
            self.order.setdefault(column_of(item, column), []).append(item)
        self._improve()

    def _walked(self, items: list[Item]) -> list[Item]:
        """What hangs together one behind the other, from the left."""
        graph = nx.Graph()
        graph.add_nodes_from(items)
        graph.add_edges_from((hop.left, hop.right) for hop in self.hops)
        at = {item: n for n, item in enumerate(items)}
        found: dict[Item, None] = {}
        for start in sorted(items, key=lambda item: (column_of(item, self.column), at[item])):
            if start not in found:
                found.update(dict.fromkeys(nx.dfs_preorder_nodes(graph, start)))
        return list(found)

    def _improve(self) -> None:
        best, least = self._copy(), self.crossings()
        for sweep in range(_SWEEPS):
            numbers = sorted(self.order)
            for number in numbers if sweep % 2 == 0 else reversed(numbers):
                self._sort(number, leftward=sweep % 2 == 0)
            count = self.crossings()
            if count < least:
                best, least = self._copy(), count
        self.order = best

    def _copy(self) -> dict[int, list[Item]]:
        return {number: list(items) for number, items in self.order.items()}

    def _places(self) -> dict[Item, int]:
        return {item: n for items in self.order.values() for n, item in enumerate(items)}

    def _ends(self, hop: Hop, place: Mapping[Item, int]) -> tuple[float, float]:
        left = place[hop.left] + (self.fixed.get(hop.first, 0.5) if hop.first else 0.5)
        right = place[hop.right] + (self.fixed.get(hop.last, 0.5) if hop.last else 0.5)
        return left, right

    def _sort(self, number: int, leftward: bool) -> None:
        place = self._places()
        wants: dict[Item, list[float]] = {}
        for hop in self.hops:
            left, right = self._ends(hop, place)
            mine, other = (hop.right, left) if leftward else (hop.left, right)
            if column_of(mine, self.column) == number:
                wants.setdefault(mine, []).append(other)
        items = self.order[number]
        mean = {item: sum(ys) / len(ys) for item, ys in wants.items()}
        self.order[number] = sorted(items, key=lambda item: mean.get(item, place[item] + 0.5))

    def crossings(self) -> int:
        """How often two ribbons cross."""
        place = self._places()
        by_column: dict[int, list[tuple[float, float]]] = {}
        for hop in self.hops:
            left = column_of(hop.left, self.column)
            by_column.setdefault(left, []).append(self._ends(hop, place))
        return sum(
            (a[0] - b[0]) * (a[1] - b[1]) < 0
            for pairs in by_column.values()
            for n, a in enumerate(pairs)
            for b in pairs[:n]
        )
