"""What becomes of interlocks when parts, seats and designations change."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from linework.design.change import Pair
from linework.design.elements import Part, Seat
from linework.design.model import Design
from linework.design.positions import PLUG, plug_labels, positions_of

Item = tuple[str, str, str]
"""Part id, selector, position."""


def without(design: Design, gone: Collection[str]) -> list[Pair]:
    """Interlocks shortened by the positions of what goes (ids of parts and seats), or taken
    away where fewer than two positions are left."""
    lost = [seat for seat in design.seats if seat.id in gone] if design.interlocks else []
    pairs: list[Pair] = []
    for lock in design.interlocks:
        if lock.id not in gone:
            kept = tuple(
                item
                for item in lock.excludes
                if item[0] not in gone and not any(_names(design, item, seat) for seat in lost)
            )
            pairs.append((lock, replace(lock, excludes=kept) if len(kept) > 1 else None))
    return pairs


def lost_position(design: Design, after: Part) -> Item | None:
    """The first interlocked position that a part, as it is to be, would no longer have."""
    items = [i for lock in design.interlocks for i in lock.excludes if i[0] == after.id]
    if not items:
        return None
    known = positions_of(design, after, design.seats_of(after.id))
    return next((i for i in items if i[2] not in known.get(i[1], ())), None)


def _names(design: Design, item: Item, seat: Seat) -> bool:
    part, selector, position = item
    host = design.part(seat.host).designation
    return part == seat.part and selector == PLUG and position in plug_labels(host, seat)


def relabelled(design: Design, host: Part, designation: str) -> list[Pair]:
    """Interlocks whose plug positions are called after a host, with its new designation."""
    words: dict[Item, str] = {}
    for seat in design.seated_in(host.id):
        before, after = plug_labels(host.designation, seat), plug_labels(designation, seat)
        for old, new in zip(before, after, strict=True):
            words[seat.part, PLUG, old] = new
    return [
        (lock, replace(lock, excludes=tuple(_renamed(item, words) for item in lock.excludes)))
        for lock in design.interlocks
    ]


def _renamed(item: Item, words: dict[Item, str]) -> Item:
    return item[0], item[1], words.get(item, item[2])
