"""What is inside all parts, and which of their points are one conductor: not numbered yet."""

from __future__ import annotations

from linework.circuit.model import Spot
from linework.circuit.unions import Unions
from linework.design import Design, Part, Seat
from linework.design.model import Settled
from linework.design.names import natural
from linework.wiring import Contact, Draw, Inside, Join, Leak, Link, Metal, Point, Source


def plug_positions(design: Design, part_id: str) -> dict[str, Seat]:
    """The positions of a hand-moved plug: a label for each of its seats, sorted by outlet."""
    found: dict[str, Seat] = {}
    # not by the seats' ids: those are random, and no result may hang on them
    for seat in sorted(
        design.seats_of(part_id),
        key=lambda s: (natural(design.part(s.host).designation), natural(s.place)),
    ):
        host = design.part(seat.host).designation
        label = host if host not in found else f"{host} {seat.place}"
        found[label] = seat
    return found


def _hosts_first(design: Design) -> list[Part]:
    """All parts, those that others sit in before them.

    Where several terminals are one node, the part that carries the others gives it its name,
    whatever the ids.
    """
    depth: dict[str, int] = {}

    def deep(part_id: str) -> int:
        if part_id not in depth:
            hosts = [seat.host for seat in design.seats_of(part_id)]
            depth[part_id] = 1 + max(map(deep, hosts), default=-1)
        return depth[part_id]

    return sorted(design.parts, key=lambda part: (deep(part.id), part.id))


class Gathered:
    """What is inside every part of a design in one case, and which spots are one node."""

    def __init__(self, design: Design, settled: Settled) -> None:
        # Whatever is read of it, terminals, places and pole maps among it, is of this case.
        self.design = design.in_case(settled) if settled else design
        self.settled = dict(settled)
        self.unions: Unions[Spot] = Unions()
        self.insides: dict[str, Inside] = {}
        for part in _hosts_first(design):
            self._open(part)
        self.plugs: list[tuple[Seat, str]] = []
        for seat in sorted(design.seats, key=lambda item: item.id):
            self._take_seat(seat)

    # points

    def spot(self, owner: str, point: Point) -> Spot:
        """The spot of a point; points under "@" belong to the whole sheet."""
        terminal, pole = point
        return Spot("@", "", pole) if terminal == "@" else Spot(owner, terminal, str(pole))

    def _open(self, part: Part) -> None:
        values = self.design.values(part)
        kind = self.design.kind(part)
        inside = kind.inside(values)
        self.insides[part.id] = inside
        for terminal in kind.terminals(values):
            for pole in terminal.poles:
                self.unions.add(Spot(part.id, terminal.name, pole))
        for element in inside.elements:
            for point in _points(element):
                self.unions.add(self.spot(part.id, point))
            if isinstance(element, Join):
                self.unions.join(self.spot(part.id, element.a), self.spot(part.id, element.b))

    def offers(self, seat: Seat) -> list[tuple[Spot, Spot]]:
        """Pairs of (spot of the seated part, spot of its host) that a seat joins."""
        part, host = self.design.part(seat.part), self.design.part(seat.host)
        kind, host_kind = self.design.kind(part), self.design.kind(host)
        terminal = next(
            (t for t in kind.terminals(self.design.values(part)) if t.name == kind.seat), None
        )
        place = next(
            (p for p in host_kind.places(self.design.values(host)) if p.name == seat.place), None
        )
        if terminal is None or place is None:
            return []
        offered = dict(place.offers)
        return [
            (Spot(part.id, terminal.name, pole), self.spot(host.id, offered[pole]))
            for pole in terminal.poles
            if pole in offered
        ]

    def _take_seat(self, seat: Seat) -> None:
        if self.design.kind(self.design.part(seat.part)).plugs:
            labels = plug_positions(self.design, seat.part)
            label = next(name for name, known in labels.items() if known.id == seat.id)
            self.plugs.append((seat, label))
            return
        for mine, theirs in self.offers(seat):
            self.unions.join(mine, theirs)


def _points(element: object) -> tuple[Point, ...]:
    if isinstance(element, Link | Contact | Draw | Leak):
        return (element.a, element.b)
    if isinstance(element, Source):
        return (element.plus, element.minus)
    if isinstance(element, Metal):
        return (element.at,)
    return ()
