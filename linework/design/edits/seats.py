"""Edits of seats: what sits in which place."""

from __future__ import annotations

from linework.design.change import Change, EditError, changed
from linework.design.edits.found import part_in
from linework.design.edits.locks import without
from linework.design.elements import Part, Seat, new_id
from linework.design.fits import cannot_sit, on_two_legs
from linework.design.model import Design
from linework.design.nesting import nesting_faults
from linework.wiring import Place
from linework.words import say


def places_of(design: Design, host: Part) -> tuple[Place, ...]:
    """The places that a part offers."""
    return design.kind(host).places(design.values(host))


def place_of(design: Design, host: Part, name: str) -> Place | None:
    """The place of this name, None where the part has none."""
    return next((place for place in places_of(design, host) if place.name == name), None)


def why_no_seat(design: Design, part_id: str, host_id: str, place: str) -> str:
    """The reason why a part cannot sit there, empty where it can. EditError if one is gone."""
    part, host = part_in(design, part_id), part_in(design, host_id)
    seats = [(part_id, host_id), *_way_up(design, host_id)]
    refusal = nesting_faults(seats, lambda key: design.part(key).designation).get(0, "")
    if refusal:
        return refusal
    names = (part.designation, host.designation)
    found = place_of(design, host, place)
    refusal = cannot_sit(design.kind(part), design.values(part), found, names, place)
    return refusal or _taken(design, part, host, place)


def _way_up(design: Design, part_id: str) -> list[tuple[str, str]]:
    """The seats (part id, host id) of a part, of what it sits in, and so on."""
    reached = [part_id]
    found: list[tuple[str, str]] = []
    for part in reached:
        hosts = [seat.host for seat in design.seats_of(part)]
        found += [(part, host) for host in hosts]
        reached += [host for host in dict.fromkeys(hosts) if host not in reached]
    return found


def taken_by(design: Design, held: Seat) -> frozenset[str]:
    """The places of its host that a seat takes: its own, and for two hot poles the next leg's."""
    return _reach(design, design.part(held.part), design.part(held.host), held.place)


def _reach(design: Design, part: Part, host: Part, name: str) -> frozenset[str]:
    place = place_of(design, host, name)
    two = on_two_legs(design.kind(part), design.values(part))
    beside = place.next if place is not None and two else ""
    return frozenset({name, beside} if beside else {name})


def why_no_room(design: Design, part: Part, host: Part, place: str) -> str:
    """The reason why a part finds a place, or the next leg's, taken by others; else empty."""
    wanted = _reach(design, part, host, place)
    for other in design.seated_in(host.id):
        if other.part != part.id and not is_moved_by_hand(design, other.part):
            for both in sorted(wanted & taken_by(design, other)):
                return say("place {place} of {host} is taken", place=both, host=host.designation)
    return ""


def _taken(design: Design, part: Part, host: Part, place: str) -> str:
    """A hand-moved plug may have several seats, each once; all else has one, and alone."""
    if is_moved_by_hand(design, part.id):
        if any((s.host, s.place) == (host.id, place) for s in design.seats_of(part.id)):
            return say("{what} can be put there already", what=part.designation)
        return ""
    refusal = why_no_room(design, part, host, place)
    if refusal:
        return refusal
    if design.seats_of(part.id):
        return say("{what} sits elsewhere already", what=part.designation)
    return ""


def is_moved_by_hand(design: Design, part_id: str) -> bool:
    """Whether a part is a plug: its seats are where it may be put, one at a time."""
    return design.kind(design.part(part_id)).plugs


def seat(design: Design, part_id: str, host_id: str, place: str, seat_id: str = "") -> Change:
    """A part put into a place; a hand-moved plug gets one for each outlet it can go to."""
    refusal = why_no_seat(design, part_id, host_id, place)
    if refusal:
        raise EditError(refusal)
    new = Seat(seat_id or new_id(), part_id, host_id, place)
    names = (design.part(part_id).designation, design.part(host_id).designation)
    return changed(say("{what} into {host}", what=names[0], host=names[1]), [(None, new)])


def unseat(design: Design, seat_id: str) -> Change:
    """A part taken out of a place; interlocks lose the position of a plug that it was."""
    found = design.get(seat_id)
    if not isinstance(found, Seat):
        raise EditError(say("this seat is no longer there"))
    what = design.part(found.part).designation
    return changed(say("take out {what}", what=what), [(found, None), *without(design, {seat_id})])
