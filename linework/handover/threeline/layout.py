"""Lays some blocks out side by side: columns, order, heights, tracks, the way of every ribbon."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from linework.handover.threeline.channels import TRACK, Lane, tracked
from linework.handover.threeline.columns import Hop, Item, Order, column_of, columns, hops
from linework.handover.threeline.model import Block, Port, Ribbon
from linework.handover.threeline.shape import HALF, HEAD, ROW, TALL, Shape, Side, Words
from linework.handover.threeline.shaping import shaped
from linework.picture.measure import text_width
from linework.sheet.arranging import ORIGIN, Spacing

Point = tuple[int, int]
_GAP, _ZONE, _BESIDE = 20, 30, 15
_PASS = 30
PARTED = 70
"""Room for the sign of a plug or a break in a conductor."""
_OFF, _STRAIGHT = 1.0, 400.0


@dataclass(frozen=True)
class Route:
    """The way of each conductor of a ribbon from its port ``start`` on."""

    ribbon: Ribbon
    start: Port
    ways: tuple[tuple[Point, ...], ...]


@dataclass(frozen=True)
class Written:
    """What stands over the first conductor of a ribbon; ``across`` as of a text."""

    x: int
    y: int
    text: str
    at_end: bool = False


@dataclass
class Layout:
    """One page: shapes with the place of their left upper corner, routes, what is written."""

    width: int = 0
    height: int = 0
    shapes: dict[str, tuple[Shape, int, int]] = field(default_factory=dict)
    routes: list[Route] = field(default_factory=list)
    written: list[Written] = field(default_factory=list)


@dataclass(frozen=True)
class Pointer:
    """A port whose ribbon is drawn on another page; ``text`` says where. ``flows``: away."""

    port: Port
    text: str
    flows: bool


def laid_out(
    blocks: Mapping[str, Block],
    ribbons: Sequence[Ribbon],
    pointers: Sequence[Pointer],
    words: Words,
    *,
    boards: frozenset[str],
    sized: bool,
    airy: bool,
) -> Layout:
    """The page of some blocks. ``boards``: whose terminals keep their order; ``sized``: with the
    sizes of the conductors; ``airy``: so that what hangs on boards lies straight beside them."""
    return _Laying(blocks, ribbons, pointers, words, boards, sized, airy).made()


class _Laying:
    def __init__(
        self,
        blocks: Mapping[str, Block],
        ribbons: Sequence[Ribbon],
        pointers: Sequence[Pointer],
        words: Words,
        boards: frozenset[str],
        sized: bool,
        airy: bool,
    ) -> None:
        self.blocks, self.ribbons, self.pointers = blocks, ribbons, pointers
        self.words, self.boards, self.sized = words, boards, sized
        self.column = columns(list(blocks), ribbons)
        self.hops = hops(ribbons, self.column)
        self.sides = self._sides()
        self.ports = {key: self._ports(block) for key, block in blocks.items()}
        self.order = Order(list(blocks), self.column, self.hops, self._shares()).order
        self._by_neighbours()
        self.shapes = {key: self._shaped(block, {}) for key, block in blocks.items()}
        if airy:
            for key, block in blocks.items():
                if block.part in boards:
                    self.shapes[key] = self._shaped(block, self._air(key))
        self.layout = Layout()

    def made(self) -> Layout:
        self._heights()
        self._channels()
        self._widths()
        for n, ribbon in enumerate(self.ribbons):
            self._route(n, ribbon)
        self._point()
        return self.layout

    # sides and order of ports

    def _sides(self) -> dict[Port, Side]:
        found: dict[Port, Side] = {}
        for ribbon in self.ribbons:
            for port, other in ((ribbon.a, ribbon.b), (ribbon.b, ribbon.a)):
                left = self.column[other.block] < self.column[port.block]
                found[port] = "left" if left else "right"
        for pointer in self.pointers:
            found[pointer.port] = "right" if pointer.flows else "left"
        return found

    def _ports(self, block: Block) -> list[Port]:
        """In their order; what leads nowhere last."""
        return sorted(block.ports, key=lambda port: not port.owner)

    def _shares(self) -> dict[Port, float]:
        """How far down its block each port lies, of those at its side."""
        found: dict[Port, float] = {}
        for ports in self.ports.values():
            for side in ("left", "right"):
                mine = [p for p in ports if self.sides.get(p) == side]
                found |= {port: (n + 0.5) / len(mine) for n, port in enumerate(mine)}
        return found

    def _by_neighbours(self) -> None:
        """Where the order of terminals is free they follow what they lead to."""
        place = {item: n for items in self.order.values() for n, item in enumerate(items)}
        share = self._shares()
        far: dict[Port, float] = {}
        for hop in self.hops:
            if hop.first:
                far[hop.first] = place[hop.right] + (share[hop.last] if hop.last else 0.5)
            if hop.last:
                far[hop.last] = place[hop.left] + (share[hop.first] if hop.first else 0.5)
        for key, ports in self.ports.items():
            if self.blocks[key].part not in self.boards:
                ports.sort(key=lambda port: (not port.owner, far.get(port, 1e6)))

    def _shaped(self, block: Block, air: Mapping[Port, int]) -> Shape:
        return shaped(block, self.sides, self.words, self.ports[block.key], air)

    def _air(self, key: str) -> dict[Port, int]:
        """So much more between the circuits of a board that what hangs on them lies straight."""
        led = {hop.first: hop for hop in self.hops if hop.first and hop.last}
        over = HALF
        found: dict[Port, int] = {}
        for port in self.ports[key]:
            hop = led.get(port)
            if hop is None or self.sides[port] != "right" or not isinstance(hop.right, str):
                over = HALF
                continue
            shape, first = self.shapes[hop.right], self._first(hop.right, hop.last)
            if len([p for p in self.ports[hop.right] if self.sides.get(p) == "left"]) > 1:
                over = HALF
                continue
            need = over + _GAP + shape.above + first - (HEAD if found else 0)
            found[port] = max(0, need) if found else 0
            over = shape.height + shape.below - first - (len(port.pins) - 1) * ROW
        return found

    # heights

    def _top(self, item: Item) -> int:
        return self.shapes[item].above if isinstance(item, str) else _PASS

    def _bottom(self, item: Item) -> int:
        if isinstance(item, str):
            return self.shapes[item].height + self.shapes[item].below
        return (len(self.ribbons[item[0]].a.pins) - 1) * ROW + HALF

    def _first(self, item: Item, port: Port | None) -> int:
        """The height of the first conductor of a ribbon at an item."""
        return self.shapes[item].pins(port)[0][1] if isinstance(item, str) and port else 0

    def _heights(self) -> None:
        spacing = Spacing()
        for items in self.order.values():
            spacing.apart(ORIGIN, items[0], max(self._top(items[0]), HALF))
            for over, under in pairwise(items):
                spacing.apart(over, under, self._bottom(over) + _GAP + self._top(under))
            for item in items:
                spacing.near(ORIGIN, item, 0, 0.01)
        for hop in self.hops:
            by = self._first(hop.left, hop.first) - self._first(hop.right, hop.last)
            spacing.near(hop.left, hop.right, by, _OFF, _STRAIGHT)
        found = spacing.places(tries=1)
        assert found is not None, "one below the other can always be"
        self.y: dict[Item, int] = {key: y for key, y in found.items() if key != ORIGIN}  # type: ignore[misc]
        self.layout.height = max((y + self._bottom(item) for item, y in self.y.items()), default=0)

    # tracks and widths

    def _rows(self, item: Item, port: Port | None, count: int) -> list[int]:
        if isinstance(item, str):
            assert port is not None
            return [self.y[item] + y for _, y in self.shapes[item].pins(port)]
        return [self.y[item] + n * ROW for n in range(count)]

    def _channels(self) -> None:
        self.lanes: dict[int, dict[tuple[int, bool], Lane]] = {}
        for hop in self.hops:
            count = len(self.ribbons[hop.ribbon].a.pins)
            lane = Lane(
                self._rows(hop.left, hop.first, count), self._rows(hop.right, hop.last, count)
            )
            at = column_of(hop.left, self.column)
            self.lanes.setdefault(at, {})[hop.ribbon, False] = lane
        for n, ribbon in enumerate(self.ribbons):
            if ribbon.a.block == ribbon.b.block:
                one, other = (self._rows(p.block, p, 0) for p in (ribbon.a, ribbon.b))
                at = self.column[ribbon.a.block]
                self.lanes.setdefault(at, {})[n, True] = Lane(one, other, back=True)
        self.tracks = {at: tracked(list(lanes.values())) for at, lanes in self.lanes.items()}
        deepest = [y for ls in self.lanes.values() for lane in ls.values() for y in lane.below]
        self.layout.height = max([self.layout.height, *(y + HALF for y in deepest)])

    def _label(self, ribbon: Ribbon) -> str:
        told = self.words.run(ribbon.owner)
        return told[0] if self.sized else told[-1]

    def _widths(self) -> None:
        """From left to right: what is written before the first column, columns, channels."""
        self.x: dict[int, int] = {}
        self.track_x: dict[int, int] = {}
        left_notes = [p for p in self.pointers if self.sides[p.port] == "left"]
        x = 0
        for number in range(max(self.order, default=-1) + 1):
            notes = [p for p in left_notes if self.column[p.port.block] == number]
            x += max([0, *(text_width(p.text, TALL) + _BESIDE * 2 for p in notes)])
            self.x[number] = x
            shapes = [self.shapes[key] for key in self.blocks if self.column[key] == number]
            wide = max([0, *(s.width + s.aside for s in shapes)])
            x += max(wide, self._written_to(number))
            x += _ZONE
            self.track_x[number] = x
            x += TRACK * self.tracks.get(number, 0) + self._entry(number)
        self.layout.width = x
        for key, shape in self.shapes.items():
            self.layout.shapes[key] = (shape, self.x[self.column[key]], self.y[key])

    def _written_to(self, number: int) -> int:
        """How far from the left edge of a column what is written at its right pins reaches."""
        told: list[tuple[str, Port]] = []
        wide = [0]
        for ribbon in self.ribbons:
            ends = [p for p in (ribbon.a, ribbon.b) if self._starts(ribbon, p, number)]
            told += [(self._label(ribbon), port) for port in ends[:1]]
            if ends and (ribbon.plug or ribbon.cut):
                wide.append(self.shapes[ends[0].block].width + PARTED)
        for p in self.pointers:
            if self.column[p.port.block] == number and self.sides[p.port] == "right":
                told.append((p.text, p.port))
        wide += [self.shapes[p.block].width + _BESIDE + text_width(t, TALL) for t, p in told]
        return max(wide)

    def _starts(self, ribbon: Ribbon, port: Port, number: int) -> bool:
        return self.column[port.block] == number and self.sides[port] == "right"

    def _entry(self, number: int) -> int:
        """Room before the next column, where what does not come straight is named again."""
        names = [
            text_width(self.words.run(self.ribbons[hop.ribbon].owner)[-1], TALL) + 2 * _BESIDE
            for hop in self.hops
            if column_of(hop.left, self.column) == number and self._again(hop)
        ]
        return max([_ZONE, *names])

    def _again(self, hop: Hop) -> bool:
        """Whether the far end of a ribbon needs its name again: it did not come straight."""
        at = column_of(hop.left, self.column)
        bent = not self.lanes[at][hop.ribbon, False].straight
        return hop.last is not None and (bent or hop.first is None)

    # routes

    def _route(self, n: int, ribbon: Ribbon) -> None:
        mine = [hop for hop in self.hops if hop.ribbon == n]
        count = len(ribbon.a.pins)
        ways: list[list[Point]] = [[] for _ in range(count)]
        if not mine:
            start = ribbon.a
            at = self.column[start.block]
            edge = self.x[at] + self.shapes[start.block].width
            self._through(self.lanes[at][n, True], at, edge, edge, ways)
        else:
            assert mine[0].first is not None
            start = mine[0].first
            for hop in mine:
                at = column_of(hop.left, self.column)
                left = self.x[at] + (self.shapes[start.block].width if hop.first else 0)
                self._through(self.lanes[at][n, False], at, left, self.x[at + 1], ways)
        self.layout.routes.append(Route(ribbon, start, tuple(_plain(way) for way in ways)))
        self._name(ribbon, start, mine[-1] if mine else None)

    def _through(self, lane: Lane, at: int, left: int, right: int, ways: list[list[Point]]) -> None:
        base = self.track_x[at]
        for i, way in enumerate(ways):
            heights = [lane.left[i], *(lane.below[i : i + 1]), lane.right[i]]
            way.append((left, heights[0]))
            for tracks, (y, then) in zip(lane.tracks, pairwise(heights), strict=False):
                x = base + TRACK * tracks[i]
                way += [(x, y), (x, then)]
            way.append((right, heights[-1]))

    def _name(self, ribbon: Ribbon, start: Port, last: Hop | None) -> None:
        shape, x, y = self.layout.shapes[start.block]
        top = min(at for _, at in shape.pins(start))
        self.layout.written.append(
            Written(x + shape.width + _BESIDE, y + top - 12, self._label(ribbon))
        )
        if last is not None and last.last is not None and self._again(last):
            shape, x, y = self.layout.shapes[last.last.block]
            top = min(at for _, at in shape.pins(last.last))
            name = self.words.run(ribbon.owner)[-1]
            self.layout.written.append(Written(x - _BESIDE, y + top - 12, name, at_end=True))

    def _point(self) -> None:
        for pointer in self.pointers:
            shape, x, y = self.layout.shapes[pointer.port.block]
            top = min(at for _, at in shape.pins(pointer.port))
            left = self.sides[pointer.port] == "left"
            at = x - _BESIDE if left else x + shape.width + _BESIDE
            self.layout.written.append(Written(at, y + top - 12, pointer.text, at_end=left))


def _plain(way: list[Point]) -> tuple[Point, ...]:
    """Without points at which it does not turn."""
    found: list[Point] = []
    for point in way:
        if found and found[-1] == point:
            continue
        if len(found) > 1 and (
            found[-2][0] == found[-1][0] == point[0] or found[-2][1] == found[-1][1] == point[1]
        ):
            found[-1] = point
        else:
            found.append(point)
    return tuple(found)
