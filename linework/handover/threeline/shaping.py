"""How the inside of one block comes to lie."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from linework.handover.threeline.heading import headed
from linework.handover.threeline.model import (
    Block,
    Contact,
    Device,
    Inner,
    Means,
    Net,
    Port,
    Stub,
    rank,
)
from linework.handover.threeline.shape import (
    BAR,
    CONTACT,
    HALF,
    HEAD,
    INDENT,
    ROW,
    TALL,
    Drop,
    Row,
    Shape,
    Side,
    Title,
    Words,
    mark_width,
    stub_reach,
)
from linework.picture.measure import text_width

_SYMBOL, _EDGE = 60, 20
_DIODES = 12
"""By how much the sign of two diodes is higher than that of a contact."""
Group = tuple[Side, Port | Inner, list[tuple[tuple[Contact, ...], Net]]]
"""What lies together at one side: a terminal or a device, and where its conductors lead inside."""


def shaped(
    block: Block,
    sides: Mapping[Port, Side],
    words: Words,
    order: Sequence[Port],
    air: Mapping[Port, int],
) -> Shape:
    """The shape of a block; ``sides`` of the ports with a ribbon, all in their ``order``.

    ``air``: by how much further down than need be a port lies.
    """
    return _Shaping(block, sides, words, order, air).made()


class _Shaping:
    def __init__(
        self,
        block: Block,
        sides: Mapping[Port, Side],
        words: Words,
        order: Sequence[Port],
        air: Mapping[Port, int],
    ) -> None:
        self.air = air
        self.block, self.words = block, words
        self.shape = Shape(block)
        self.sides = {p: sides.get(p, "right") for p in order}
        self.order = order
        self.used: set[int] = set()
        self.at: dict[Net, list[object]] = {}
        self._attach()
        self.inner_side = self._inner_sides()

    def made(self) -> Shape:
        groups = list(self._groups())
        self.index = self._bar_order(groups)
        self._stack(groups)
        self._cross()
        self._measure()
        return self.shape

    # what hangs on each net

    def _attach(self) -> None:
        for port in self.order:
            for pin in port.pins:
                self.at.setdefault(pin.net, []).append(port)
        for inner in self.block.inners:
            for net in inner.nets:
                self.at.setdefault(net, []).append(inner)
        for contact in self.block.contacts:
            self.at.setdefault(contact.a, []).append(contact)
            self.at.setdefault(contact.b, []).append(contact)
        for stub in self.block.stubs:
            self.at.setdefault(stub.near.net, []).append(stub)

    def _inner_sides(self) -> dict[Inner, Side]:
        """Devices lie at the side with fewer rows."""
        count = {"left": 0, "right": 0}
        for port in self.order:
            count[self.sides[port]] += len(port.pins)
        found: dict[Inner, Side] = {}
        for inner in self.block.inners:
            side: Side = "left" if count["left"] < count["right"] else "right"
            if inner.device is not Device.SOIL:
                found[inner] = side
                count[side] += 2
        return found

    def _follow(self, net: Net) -> tuple[tuple[Contact, ...], Net]:
        """The contacts in line from an end to where something else joins."""
        chain: list[Contact] = []
        led_on = self.block.goes_on | self.block.from_above
        while len(self.at[net]) == 2 and net not in led_on:
            onward = [
                c
                for c in self.at[net]
                if isinstance(c, Contact) and c.means is not Means.BOND and id(c) not in self.used
            ]
            if len(onward) != 1:
                break
            self.used.add(id(onward[0]))
            chain.append(onward[0])
            net = onward[0].beyond(net)
        return tuple(chain), net

    def _groups(self) -> Iterator[Group]:
        """Ports, then devices. A contact is in the row of its own part's terminal, where it has
        one, and not in that of the bar."""
        led: dict[Port | Inner, list[tuple[tuple[Contact, ...], Net]]] = {}
        for port in sorted(self.order, key=lambda port: port.part == port.root):
            led[port] = [self._follow(pin.net) for pin in port.pins]
        for inner in self.inner_side:
            led[inner] = [self._follow(net) for net in inner.nets]
        for port in self.order:
            yield self.sides[port], port, led[port]
        for inner, side in self.inner_side.items():
            yield side, inner, led[inner]

    def _bar_order(self, groups: list[Group]) -> dict[Net, int]:
        """Bars from left to right: those of the left side, of both, of the right side."""
        sides: dict[Net, set[str]] = {}
        for side, _, rows in groups:
            for _, net in rows:
                sides.setdefault(net, set()).add(side)
        for contact in self.block.contacts:
            if id(contact) not in self.used:
                sides.setdefault(contact.a, set())
                sides.setdefault(contact.b, set())
        for net in (*self._dropped(), *sorted(self.block.goes_on | self.block.from_above)):
            sides.setdefault(net, set())
        where = {"left": 0, "right": 2}

        def key(net: Net) -> tuple[int, int, int]:
            at = [where[side] for side in sides[net]]
            return (at[0] if len(at) == 1 else 1), rank(self.block.poles[net]), net

        return {net: n for n, net in enumerate(sorted(sides, key=key))}

    def _dropped(self) -> list[Net]:
        soil = [i.nets[0] for i in self.block.inners if i.device is Device.SOIL]
        return [*soil, *(stub.near.net for stub in self.block.stubs)]

    # heights

    def _stack(self, groups: list[Group]) -> None:
        last = {"left": 0, "right": 0}
        lift = _DIODES if any(c.means is Means.BLOCKING for c in self.block.contacts) else 0
        for side, end, rows in groups:
            title = self._title(end, [c for chain, _ in rows for c in chain])
            top = self._opposite(side, end, rows, last[side], title)
            if isinstance(end, Inner) and top is None and rows[0][1] != rows[-1][1]:
                back = self._opposite(side, end, rows[::-1], last[side], title)
                rows, top = (rows[::-1], back) if back is not None else (rows, None)
            y = top if top is not None else last[side] + HEAD + lift
            y += self.air.get(end, 0) if isinstance(end, Port) else 0
            while self._blocked(side, y, rows):
                y += HALF
            for n, (chain, net) in enumerate(rows):
                self.shape.rows.append(Row(side, y + n * ROW, end, n, chain, net))
                self.shape.ends.setdefault(net, []).append(y + n * ROW)
            if title:
                self.shape.titles.append(Title(side, y - 16 - lift, title))
            last[side] = y + (len(rows) - 1) * ROW
        self.last = max(last.values())

    def _title(self, end: Port | Inner, contacts: list[Contact]) -> str:
        others = dict.fromkeys(c.owner for c in contacts if c.owner != self.block.part)
        if isinstance(end, Inner):
            others.setdefault(end.owner)
            named = [o for o in others if o != self.block.part]
            return " ".join(self.words.part(o) for o in named)
        return self.words.port(end, [o for o in others if o != end.part])

    def _opposite(
        self,
        side: Side,
        end: Port | Inner,
        rows: list[tuple[tuple[Contact, ...], Net]],
        last: int,
        title: str,
    ) -> int | None:
        """The height at which the rows go straight on to those at the other side."""
        if isinstance(end, Port):
            return None
        other = {row.y: row.net for row in self.shape.rows if row.side != side}
        least = last + (HEAD if title or not last else ROW)
        for y in sorted(other):
            if y >= least and all(other.get(y + n * ROW) == net for n, (_, net) in enumerate(rows)):
                return y
        return None

    def _blocked(self, side: Side, y: int, rows: list[tuple[tuple[Contact, ...], Net]]) -> bool:
        """Whether a line from the other side would lie on one of these."""
        for n, (_, net) in enumerate(rows):
            for row in self.shape.rows:
                if row.side == side or abs(row.y - y - n * ROW) >= HALF or row.net == net:
                    continue
                left, right = (net, row.net) if side == "left" else (row.net, net)
                if self.index[left] > self.index[right]:
                    return True
        return False

    # what joins bars, and leaves below

    def _cross(self) -> None:
        waiting = [c for c in self.block.contacts if id(c) not in self.used]
        for contact in waiting:
            y = self._free(contact)
            self.shape.crosses.append((contact, y))
            for net in (contact.a, contact.b):
                self.shape.ends.setdefault(net, []).append(y)
            self.last = max(self.last, y)

    def _free(self, contact: Contact) -> int:
        """The free height that makes the bars least longer; with its name over it, below all."""
        if contact.owner != self.block.part:
            return self.last + HEAD
        nets = (contact.a, contact.b)
        spans = [self.shape.ends.get(net, []) for net in nets]

        def longer(y: int) -> int:
            return sum(max(0, min(s) - y, y - max(s)) for s in spans if s)

        heights = range(HEAD, self.last + HEAD + HALF, HALF)
        return min((y for y in heights if self._clear(nets, y)), key=lambda y: (longer(y), y))

    def _clear(self, nets: tuple[Net, Net], y: int) -> bool:
        low, high = sorted(self.index[net] for net in nets)
        for row in self.shape.rows:
            reach = self.index[row.net]
            over = reach >= low if row.side == "left" else reach <= high
            if row.y == y and over:
                return False
        for other, at in self.shape.crosses:
            ends = sorted(self.index[net] for net in (other.a, other.b))
            if abs(at - y) < HALF + 1 and ends[0] <= high and low <= ends[1]:
                return False
        return True

    def _measure(self) -> None:
        shape = self.shape
        left, right = self._zone("left"), self._zone("right")
        shape.zones = left, right
        bars = [net for net in self.index if self._is_bar(net)]
        for net in self.index:
            n = bars.index(net) if net in bars else 0
            shape.bar_x[net] = left + BAR // 2 + BAR * n
        columns = len(bars)
        columns = self._drops(left, columns)
        shape.width = max(left + BAR * max(columns, 0) + right + 10, 130)
        for row in shape.rows:
            if row.net not in bars and len(shape.ends[row.net]) == 1:
                shape.bar_x[row.net] = left if row.side == "left" else shape.width - right
        shape.height = self.last + ROW
        headed(self.shape, self.words)
        reach = [stub_reach(drop, self.words) for drop in shape.drops]
        shape.aside = max(shape.aside, *(r - shape.width for r in reach), 0)

    def _is_bar(self, net: Net) -> bool:
        """Whether it needs a column of its own: not what goes straight through, or ends at once."""
        ends = self.shape.ends.get(net, [])
        cased = len(ends) == 1 and net in self.block.metals and not self.block.elsewhere
        led_on = net in self.block.goes_on or net in self.block.from_above
        return len(set(ends)) > 1 or net in self._dropped() or len(ends) > 2 or cased or led_on

    def _zone(self, side: Side) -> int:
        wide = [self._row_width(row) for row in self.shape.rows if row.side == side]
        titles = [
            text_width(t.text, TALL) + INDENT + 15 for t in self.shape.titles if t.side == side
        ]
        return max([_EDGE, *wide, *titles])

    def _row_width(self, row: Row) -> int:
        if isinstance(row.end, Inner):
            return _SYMBOL + CONTACT * len(row.chain) + 10
        return mark_width(row) + CONTACT * len(row.chain) + 10

    def _drops(self, left: int, columns: int) -> int:
        """The first of each bar goes straight down, the others from a column of their own."""
        shape, taken = self.shape, set()
        soil = [i for i in self.block.inners if i.device is Device.SOIL]
        wanted: list[tuple[Net, Stub | None]] = [(i.nets[0], None) for i in soil]
        wanted += [(stub.near.net, stub) for stub in self.block.stubs]
        for net, stub in wanted:
            if net not in taken:
                taken.add(net)
                shape.drops.append(Drop(net, shape.bar_x[net], None, stub))
                continue
            self.last += ROW
            shape.ends.setdefault(net, []).append(self.last)
            x = left + BAR // 2 + BAR * columns
            columns += 1
            shape.drops.append(Drop(net, x, self.last, stub))
        if wanted:
            self.last += HALF
            shape.below = ROW * (len(wanted) + 1) + 10
        return columns
