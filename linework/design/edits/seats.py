"""Edits of seats: what sits in which place."""

from __future__ import annotations

from linework.design.change import Change, EditError, changed
from linework.design.elements import Part, Seat, new_id
from linework.design.model import Design
from linework.wiring import Place
from linework.words import say


def places_of(design: Design, host: Part) -> tuple[Place, ...]:
    """The places that a part offers."""
    return design.kind(host).places(design.values(host))


def why_no_seat(design: Design, part_id: str, host_id: str, place: str) -> str:
    """The reason why a part cannot sit there, empty where it can."""
    part, host = design.part(part_id), design.part(host_id)
    found = next((p for p in places_of(design, host) if p.name == place), None)
    if found is None:
        return say("{host} has no place '{place}'", host=host.designation, place=place)
    kind = design.kind(part)
    if not kind.seat or not (found.accepts & kind.roles):
        return say("{what} does not sit in {host}", what=part.designation, host=host.designation)
    if part_id == host_id:
        return say("{what} cannot sit in itself", what=part.designation)
    if "plug" not in kind.roles:
        if any(s.place == place for s in design.seated_in(host_id) if not _is_plug(design, s.part)):
            return say("place {place} of {host} is taken", place=place, host=host.designation)
        if design.seats_of(part_id):
            return say("{what} sits elsewhere already", what=part.designation)
    return ""


def _is_plug(design: Design, part_id: str) -> bool:
    return "plug" in design.kind(design.part(part_id)).roles


def seat(design: Design, part_id: str, host_id: str, place: str, seat_id: str = "") -> Change:
    """A part put into a place; a hand-moved plug may have several, one for each outlet it can go to."""
    refusal = why_no_seat(design, part_id, host_id, place)
    if refusal:
        raise EditError(refusal)
    new = Seat(seat_id or new_id(), part_id, host_id, place)
    names = (design.part(part_id).designation, design.part(host_id).designation)
    return changed(say("{what} into {host}", what=names[0], host=names[1]), [(None, new)])


def unseat(design: Design, seat_id: str) -> Change:
    """A part taken out of a place."""
    found = design.get(seat_id)
    if not isinstance(found, Seat):
        raise EditError(say("this seat is no longer there"))
    return changed(
        say("take out {what}", what=design.part(found.part).designation), [(found, None)]
    )
