"""Where parts lie on the paper: at their own place, or in the place of the part they sit in."""

from __future__ import annotations

from linework.design import Design, Part, Seat
from linework.picture.geometry import Placing
from linework.picture.symbolfile import Anchor
from linework.sheet.parts.shapes import is_moved_by_hand, symbol_of


def seat_of(design: Design, part: Part) -> Seat | None:
    """The place in which a part is drawn; None where it lies at its own x and y.

    A hand-moved plug lies at its own place: its seats are only where it may go.
    """
    if is_moved_by_hand(design, part):
        return None
    seats = design.seats_of(part.id)
    return seats[0] if seats else None


def position_of(design: Design, part: Part) -> tuple[int, int]:
    """The origin of a part on its sheet, in tenths of a millimetre, seats resolved."""
    at = placing_of(design, part)
    return at.x, at.y


def placing_of(design: Design, part: Part) -> Placing:
    """How a part lies: position, quarter turns, mirrored. A seated part turns with its host."""
    own = Placing(part.x, part.y, part.turn % 4, part.mirror)
    seat = seat_of(design, part)
    if seat is None:
        return own
    host = design.part(seat.host)
    place = symbol_of(design, host).places.get(seat.place)
    if place is None:
        return own
    lying = placing_of(design, host)
    return _seated(lying, place, symbol_of(design, part).anchors.get(design.kind(part).seat))


def sheet_of(design: Design, part: Part) -> int:
    """The number of the sheet on which a part is drawn: that of its host where it is seated."""
    while (seat := seat_of(design, part)) is not None:
        part = design.part(seat.host)
    return part.sheet


def _seated(host: Placing, place: Anchor, seat: Anchor | None) -> Placing:
    """Turned and mirrored as the host, moved so that the seat's terminal meets the place."""
    x, y = host.point(place.x, place.y)
    if seat is None:
        return Placing(x, y, host.turn, host.mirror)
    dx, dy = host.vector(seat.x, seat.y)
    return Placing(x - dx, y - dy, host.turn, host.mirror)


def sheet_numbers(design: Design) -> tuple[int, ...]:
    """The sheets on which parts or notes lie; at least sheet 1."""
    found = {sheet_of(design, part) for part in design.parts}
    return tuple(sorted(found | {note.sheet for note in design.notes} | {1}))
