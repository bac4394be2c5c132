"""Where a part sits, or may be put: what the card offers, and the edit that does it."""

from __future__ import annotations

from dataclasses import dataclass

from linework.design import Change, Design, Part, Seat, merged
from linework.design.edits import seat, unseat
from linework.design.edits.seats import is_moved_by_hand, places_of, why_no_seat
from linework.design.names import natural
from linework.words import say


@dataclass(frozen=True)
class Spot:
    """A place of another part."""

    host: str
    place: str
    label: str


def moved_by_hand(design: Design, part: Part) -> bool:
    """Whether it is a plug, which may have several places and stands in one at a time."""
    return is_moved_by_hand(design, part.id)


def spots_of(design: Design, part: Part) -> list[Spot]:
    """The places that it holds now."""
    return [_spot(design, s.host, s.place) for s in design.seats_of(part.id)]


def free_spots(design: Design, part: Part) -> list[Spot]:
    """The places that it could be put into, besides those it holds; as if it sat nowhere."""
    if not design.kind(part).seat:
        return []
    trial = design.snapshot()
    if not moved_by_hand(design, part):
        for old in trial.seats_of(part.id):
            trial.apply(unseat(trial, old.id))
    held = {(s.host, s.place) for s in design.seats_of(part.id)}
    return [
        _spot(design, host.id, place.name)
        for host in sorted(design.parts, key=lambda p: natural(p.designation))
        for place in places_of(design, host)
        if (host.id, place.name) not in held
        and not why_no_seat(trial, part.id, host.id, place.name)
    ]


def put(design: Design, part: Part, spot: Spot | None) -> Change:
    """Put it there and nowhere else; None takes it out. EditError where it does not fit."""
    trial, made = design.snapshot(), []
    for old in design.seats_of(part.id):
        made.append(unseat(trial, old.id))
        trial.apply(made[-1])
    if spot is not None:
        made.append(seat(trial, part.id, spot.host, spot.place))
    return merged(say("seat of {what}", what=part.designation), *made)


def allow(design: Design, part: Part, spot: Spot, allowed: bool) -> Change:
    """A plug may, or may no longer, be put there."""
    if allowed:
        return seat(design, part.id, spot.host, spot.place)
    old = next(s for s in design.seats_of(part.id) if _is_at(s, spot))
    return unseat(design, old.id)


def _is_at(held: Seat, spot: Spot) -> bool:
    return (held.host, held.place) == (spot.host, spot.place)


def _spot(design: Design, host_id: str, place: str) -> Spot:
    host = design.part(host_id)
    named = f"{host.designation} {host.title}".strip()
    several = len(places_of(design, host)) > 1
    label = say("{host}, place {place}", host=named, place=place) if several else named
    return Spot(host_id, place, label)
