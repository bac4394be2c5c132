"""Heights: as many lines as can be lie straight, nothing over another, no higher than needed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from linework.picture.geometry import MODULE
from linework.sheet.arranging.ranks import Node, Piece, following
from linework.sheet.arranging.scheme import Port, Scheme, Unit, steps
from linework.sheet.arranging.spacing import ORIGIN, TRIES, Key, Spacing

_BEND, _LONG, _HIGH = 2.0, 0.02, 0.004
"""What a line that is not straight costs, a step of its height, and a step down of anything."""
_ENDS = 1.5
"""How much rather a line to a load lies straight than one that feeds on."""
_UNITS, _BESIDE, _LINES, _CORNER, _CLOSE = 5, 40, 50, 65, 15
_FORK = 50
"""From unit to unit, from a unit to a line, from line to line, from a unit to a corner of a line
that comes to it from below, from a fuse or switch to a line under it."""


def levels(
    scheme: Scheme,
    order: Mapping[int, Sequence[Node]],
    pieces: Sequence[Piece],
    height: int,
    tries: int = TRIES,
) -> dict[str, int]:
    """The height of each unit's origin from the top of the first one's writing.

    All of it within ``height``, if that can be without one thing over another.
    """
    found = _Levels(scheme, order, pieces, height).found(tries)
    if found is None:
        found = _Levels(scheme, order, pieces, None).found(tries)
    assert found is not None, "one below the other can always be"
    return found


class _Levels:
    def __init__(
        self,
        scheme: Scheme,
        order: Mapping[int, Sequence[Node]],
        pieces: Sequence[Piece],
        height: int | None,
    ) -> None:
        self.scheme, self.order, self.pieces, self.height = scheme, order, pieces, height
        self.spacing = Spacing()
        self.low: dict[Node, Key] = {}
        """The corner under a node, where there is one."""
        self.high: dict[Node, Key] = {}
        self.turning = {
            port.name
            for joint in scheme.joints
            if not joint.drops
            for port in joint.ports
            if not port.is_level
        }
        """The ports at which a line comes out below or above and then turns."""
        self.runs_at = Counter(port.name for joint in scheme.joints for port in joint.ports)

    def found(self, tries: int) -> dict[str, int] | None:
        """The heights; None where all that is to lie within cannot."""
        for node in (node for nodes in self.order.values() for node in nodes):
            self.spacing.near(ORIGIN, node, 0, _HIGH)
            if self.height is not None:
                unit = self._unit(node)
                lowest = self.height - (unit.roomy.bottom if unit else _BESIDE)
                self.spacing.apart(node, ORIGIN, -(lowest // MODULE))
        self._corners()
        for nodes in self.order.values():
            if nodes:
                self.spacing.apart(ORIGIN, self.high.get(nodes[0], nodes[0]), self._top(nodes[0]))
        for one, other in following(self.order):
            self._below(one, other)
        for piece in self.pieces:
            self._straight(piece)
        places = self.spacing.places(tries)
        return None if places is None else {k: places[k] * MODULE for k in self.scheme.units}

    def _corners(self) -> None:
        """Places under or over units, where lines that come out there turn.

        Of several arms side by side the left one turns first: so lines from the left do not cross.
        """
        ports = {port.name: port for joint in self.scheme.joints for port in joint.ports}
        before: Port | None = None
        for port in sorted(ports.values(), key=lambda port: (port.unit, port.side, port.x)):
            if port.name in self.turning:
                self._corner(port, (port.unit, port.name), before)
                before = port

    def _corner(self, port: Port, corner: Key, before: Port | None) -> None:
        box, down = self.scheme.units[port.unit].box, port.side == "down"
        last = (self.low if down else self.high).get(port.unit, port.unit)
        # what comes out of one fork comes from one, too, and lies as close there
        fork = before is not None and _are_arms(before, port)
        least = steps(_FORK if fork else _LINES)
        if last == port.unit:
            least = steps(_CORNER + (box.bottom if down else -box.top))
        if down:
            self._hang(last, corner, least)
            self.low[port.unit] = corner
        else:
            self._hang(corner, last, least)
            self.high[port.unit] = corner

    def _hang(self, upper: Key, lower: Key, least: int) -> None:
        self.spacing.apart(upper, lower, least)
        self.spacing.near(upper, lower, least, _LONG)

    def _top(self, node: Node) -> int:
        """From the upper edge of what a node needs to it."""
        unit = None if node in self.high else self._unit(node)
        return steps(-unit.roomy.top if unit else _BESIDE)

    def _unit(self, key: Key) -> Unit | None:
        """The unit of that id; None for a line or a corner."""
        return self.scheme.units.get(key) if isinstance(key, str) else None

    def _below(self, one: Node, other: Node) -> None:
        """What one node and the next one need between them."""
        upper, lower = self.low.get(one, one), self.high.get(other, other)
        self._apart(upper, lower)
        if upper != one:
            self._apart(one, lower)
        if lower != other:
            self._apart(upper, other)

    def _apart(self, upper: Key, lower: Key) -> None:
        one, other = self._unit(upper), self._unit(lower)
        down = one.roomy.bottom if one else 0
        up = -other.roomy.top if other else 0
        free = _UNITS if one and other else (_BESIDE if one or other else _LINES)
        if one and one.in_line and not other:
            # over a line the writing of what lies in a line itself stands above it
            down, free = one.box.bottom, _CLOSE
        self.spacing.apart(upper, lower, steps(down + up + free))

    def _straight(self, piece: Piece) -> None:
        a, a_y = self._end(piece, piece.a, piece.a_y)
        b, b_y = self._end(piece, piece.b, piece.b_y)
        shared = max(self.runs_at[port.name] for port in piece.joint.ports)
        bend = 0.0 if piece.bow else _BEND / (2 if shared > 1 else 1)
        if self.scheme.units[piece.joint.target.unit].is_load:
            bend *= _ENDS
        self.spacing.near(a, b, a_y - b_y, _LONG, bend)

    def _end(self, piece: Piece, node: Node, y: int) -> tuple[Key, int]:
        """What a piece is held to, and how far below it, in steps."""
        if not isinstance(node, str):
            return node, 0
        for port in piece.joint.ports:
            if port.unit == node and port.name in self.turning:
                return (node, port.name), 0
            if port.unit == node:
                return node, port.y // MODULE
        return node, y // MODULE


def _are_arms(one: Port, other: Port) -> bool:
    """Whether two ports are arms of one fork, side by side."""
    return (one.unit, one.side) == (other.unit, other.side) and abs(one.x - other.x) <= _FORK
