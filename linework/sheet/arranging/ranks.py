"""The order in each column: so that few lines cross, direct current below.

The way of layered drawings (Sugiyama, Tagawa and Toda, Methods for Visual Understanding of
Hierarchical System Structures, 1981; from memory): a line over several columns has a place of its
own in each, columns are sorted by where their neighbours lie, then neighbours change places while
that helps. Unlike there a line starts at its own height of a board.
"""

from __future__ import annotations

import random
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from linework.sheet.arranging.scheme import Joint, Port, Scheme

_SWEEPS, _PASSES, STARTS = 8, 6, 5
_WORTH = 3
"""So many crossings less are worth direct current above other current."""

Node = str | tuple[str, int]
"""A unit, or the place of a line (by its joint) in a column."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a line: from column ``left`` to the next, or a bow at one side of a column.

    ``bow``: 0, or 1 at the right and -1 at the left of the column.
    """

    joint: Joint
    left: int
    a: Node
    a_y: int
    b: Node
    b_y: int
    bow: int = 0


def pieces_of(joint: Joint, column: Mapping[str, int]) -> list[Piece]:
    """The pieces of a line, from left to right, through a place in each column between."""
    one, other = joint.source, joint.target
    if column[one.unit] > column[other.unit]:
        one, other = other, one
    first, last = column[one.unit], column[other.unit]
    # From the side at which it comes out: past its own column, where that is the far side.
    turn_a = one.side == "left" and first < last
    turn_b = other.side == "right" and first < last
    if first == last:
        bow = -1 if one.side == "left" and other.side != "right" else 1
        return [Piece(joint, first, one.unit, _at(one), other.unit, _at(other), bow)]
    stops: list[tuple[int, Node, int]] = [(first, one.unit, _at(one))]
    if turn_a:
        stops.append((first, (joint.id, first), 0))
    stops += [(at, (joint.id, at), 0) for at in range(first + 1, last)]
    if turn_b:
        stops.append((last, (joint.id, last), 0))
    stops.append((last, other.unit, _at(other)))
    found = []
    for (at, a, a_y), (to, b, b_y) in pairwise(stops):
        bow = 0 if at != to else (1 if at == last else -1)
        found.append(Piece(joint, at, a, a_y, b, b_y, bow))
    return found


def _at(port: Port) -> int:
    """The height of a port; what comes out below or above lies beyond all others."""
    return {"down": 10_000 + port.x, "up": -10_000 - port.x}.get(port.side, port.y)


class Ranks:
    """The order of units and lines in each column."""

    def __init__(self, scheme: Scheme, column: Mapping[str, int]) -> None:
        self.scheme = scheme
        self.pieces = [piece for joint in scheme.joints for piece in pieces_of(joint, column)]
        self.direct: dict[Node, bool] = {key: unit.direct for key, unit in scheme.units.items()}
        self.column: dict[Node, int] = {key: column[key] for key in scheme.units}
        self.between: dict[int, list[Piece]] = defaultdict(list)
        self.bows: dict[tuple[int, int], list[Piece]] = defaultdict(list)
        self.lines: dict[Node, list[tuple[int, Node, int]]] = defaultdict(list)
        """Of each node the lines to the right (1) and left (-1), with where they end."""
        self.ends: dict[tuple[int, int], list[tuple[Node, int]]] = defaultdict(list)
        """Of each side of a column where lines end there."""
        for piece in self.pieces:
            for node in (piece.a, piece.b):
                if not isinstance(node, str):
                    self.column[node] = node[1]
                    self.direct[node] = piece.joint.direct
            if piece.bow:
                self.bows[piece.left, piece.bow].append(piece)
            else:
                self.between[piece.left].append(piece)
                self.lines[piece.a].append((1, piece.b, piece.b_y))
                self.lines[piece.b].append((-1, piece.a, piece.a_y))
                self.ends[piece.left, 1].append((piece.a, piece.a_y))
                self.ends[piece.left + 1, -1].append((piece.b, piece.b_y))
        self.order: dict[int, list[Node]] = {}

    def best(self, starts: int = STARTS) -> dict[int, list[Node]]:
        """By column, the nodes from above; ``starts``: from so many orders that chance makes, too.

        Direct current lies below, but where all comes from it, or where lines would cross each
        other much oftener for that.
        """
        return self.several(1, starts)[0]

    def several(self, most: int, starts: int = STARTS) -> list[dict[int, list[Node]]]:
        """The best order, then the next best ones that differ from it, at most so many."""
        if not self._has_other_source():
            self.direct = dict.fromkeys(self.direct, False)
        self.order = self._first()
        found = self._started(starts)
        least = found[0][1]
        if least >= _WORTH and any(self.direct.values()):
            self.direct = dict.fromkeys(self.direct, False)
            self.order = self._first()
            mixed = self._started(starts)
            found = [*found, *((order, count + _WORTH - 1) for order, count in mixed)]
            found.sort(key=lambda each: each[1])
        orders = []
        for order, _ in found:
            if order not in orders:
                orders.append(order)
        return orders[:most]

    def _has_other_source(self) -> bool:
        """Whether there is a source of alternating current."""
        units = self.scheme.units.values()
        return any(unit.strip == "sources" and not unit.direct for unit in units)

    def _started(self, starts: int) -> list[tuple[dict[int, list[Node]], int]]:
        """What comes of the order as it is, and of some that chance makes of it, with how many
        lines cross then; the best first."""
        first = self._copy()
        found = [self._improved()]
        chance = random.Random(0)
        for _ in range(starts):
            if not found[0][1]:
                break
            self.order = {at: list(nodes) for at, nodes in first.items()}
            for nodes in self.order.values():
                chance.shuffle(nodes)
                nodes.sort(key=lambda node: self.direct[node])
            found.append(self._improved())
        return sorted(found, key=lambda each: each[1])

    def _improved(self) -> tuple[dict[int, list[Node]], int]:
        """The best of some sweeps, and how many lines cross then."""
        best, least = self._copy(), self.crossings()
        for sweep in range(_SWEEPS):
            if not least:
                break
            self._sweep(bool(sweep % 2))
            self._swap()
            count = self.crossings()
            if count < least:
                best, least = self._copy(), count
        return best, least

    def crossings(self) -> int:
        """How many lines cross, as far as the order tells."""
        return sum(self._crossings(at) for at in self._gaps())

    def _gaps(self) -> set[int]:
        return {*self.between, *(at for at, _ in self.bows), *(at - 1 for at, _ in self.bows)}

    def _first(self) -> dict[int, list[Node]]:
        """As a walk along the flow comes to them, the first source first."""
        ahead: dict[Node, list[Piece]] = defaultdict(list)
        for piece in self.pieces:
            ahead[piece.a].append(piece)
        seen: dict[Node, int] = {}
        sources = sorted(
            (node for node in self.column if isinstance(node, str)),
            key=lambda node: (self.column[node], self.scheme.units[node].order),
        )
        for source in sources:
            stack: list[Node] = [source]
            while stack:
                node = stack.pop()
                if node in seen:
                    continue
                seen[node] = len(seen)
                onward = sorted(ahead[node], key=lambda piece: piece.a_y)
                stack += [piece.b for piece in reversed(onward)]
        found: dict[int, list[Node]] = defaultdict(list)
        for node in sorted(seen, key=lambda node: (self.direct[node], seen[node])):
            found[self.column[node]].append(node)
        return dict(sorted(found.items()))

    def _copy(self) -> dict[int, list[Node]]:
        return {at: list(nodes) for at, nodes in self.order.items()}

    def _sweep(self, back: bool) -> None:
        """Column by column, each sorted by where the neighbours on one side lie."""
        for at in sorted(self.order, reverse=back):
            places = self._places(at + 1 if back else at - 1)
            here = self._places(at)
            wanted: dict[Node, list[float]] = defaultdict(list)
            for piece in self.between[at if back else at - 1]:
                here_node, there = (piece.a, piece.b) if back else (piece.b, piece.a)
                y = piece.b_y if back else piece.a_y
                wanted[here_node].append(places[there] + _share(y))
            for piece in (*self.bows[at, 1], *self.bows[at, -1]):
                wanted[piece.a].append(here[piece.b])
                wanted[piece.b].append(here[piece.a])
            middle = {
                node: sum(wanted[node]) / len(wanted[node]) if wanted[node] else float(here[node])
                for node in self.order[at]
            }
            self.order[at].sort(key=lambda node: (self.direct[node], middle[node], here[node]))

    def _swap(self) -> None:
        """Neighbours change places while fewer lines cross then."""
        for _ in range(_PASSES):
            swapped = [self._swap_in(at) for at in self.order]
            if not any(swapped):
                break

    def _swap_in(self, at: int) -> bool:
        """Once through a column; whether any neighbours changed places."""
        nodes, better = self.order[at], False
        sides = {-1: self._places(at - 1), 1: self._places(at + 1)}
        bowed = bool(self.bows.get((at, 1)) or self.bows.get((at, -1)))
        for first in range(len(nodes) - 1):
            one, other = nodes[first], nodes[first + 1]
            if self.direct[one] != self.direct[other]:
                continue
            gain = self._gain(sides, one, other)
            if bowed:
                gain += self._over_bows(at)
            nodes[first], nodes[first + 1] = other, one
            if bowed:
                gain -= self._over_bows(at)
            if gain > 0:
                better = True
            else:
                nodes[first], nodes[first + 1] = one, other
        return better

    def _gain(self, sides: Mapping[int, Mapping[Node, int]], one: Node, other: Node) -> int:
        """How many crossings less it would be if two neighbours changed places."""
        gain = 0
        for side, near, near_y in self.lines[one]:
            for to, far, far_y in self.lines[other]:
                if side == to:
                    a, b = (sides[side][near], near_y), (sides[side][far], far_y)
                    gain += (a > b) - (a < b)
        return gain

    def _places(self, at: int) -> dict[Node, int]:
        return {node: number for number, node in enumerate(self.order.get(at, ()))}

    def _crossings(self, at: int) -> int:
        """Between a column and the next, bows at both sides of the gap included."""
        left, right = self._places(at), self._places(at + 1)
        lines = [((left[p.a], p.a_y), (right[p.b], p.b_y)) for p in self.between.get(at, ())]
        count = sum(
            (a[0] < b[0] and a[1] > b[1]) or (a[0] > b[0] and a[1] < b[1])
            for number, a in enumerate(lines)
            for b in lines[:number]
        )
        return count + self._over_bows(at, 1) + self._over_bows(at + 1, -1)

    def _over_bows(self, at: int, *sides: int) -> int:
        """How often bows of a column cross lines of it and each other, at the right (1) or left
        (-1) or both."""
        places, count = self._places(at), 0
        for side in sides or (1, -1):
            spans = [
                sorted(((places[bow.a], bow.a_y), (places[bow.b], bow.b_y)))
                for bow in self.bows.get((at, side), ())
            ]
            for low, high in spans:
                count += sum(low < (places[n], y) < high for n, y in self.ends[at, side])
                count += sum(low < first < high < last for first, last in spans)
        return count


def _share(y: int) -> float:
    """Where on a unit a line comes out, as a share of the way to the next."""
    return 0.5 + max(-0.49, min(0.49, y / 5000))


def following(order: Mapping[int, Sequence[Node]]) -> Iterable[tuple[Node, Node]]:
    """Each node with the one below it."""
    for nodes in order.values():
        yield from pairwise(nodes)
