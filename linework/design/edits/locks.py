"""What becomes of interlocks when parts, seats and designations change."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import replace

from linework.design.change import Pair
from linework.design.elements import Interlock, Part, Seat
from linework.design.model import Design
from linework.design.positions import PLUG, plug_labels, positions_of

Item = tuple[str, str, str]
"""Part id, selector, position."""


def without(design: Design, gone: Collection[str]) -> list[Pair]:
    """Interlocks shortened by the positions of what goes (ids of parts and seats), or taken
    away where fewer than two positions are left."""
    lost = [seat for seat in design.seats if seat.id in gone] if design.interlocks else []
    return [
        _shortened(
            lock,
            lambda item: item[0] in gone or any(_names(design, item, seat) for seat in lost),
        )
        for lock in design.interlocks
        if lock.id not in gone
    ]


def still_possible(design: Design, after: Part) -> list[Pair]:
    """Interlocks without the positions that a part, as it is to be, no longer has."""
    locks = [lock for lock in design.interlocks if any(i[0] == after.id for i in lock.excludes)]
    if not locks:
        return []
    known = positions_of(design, after, design.seats_of(after.id))
    return [
        _shortened(lock, lambda i: i[0] == after.id and i[2] not in known.get(i[1], ()))
        for lock in locks
    ]


def _shortened(lock: Interlock, lost: Callable[[Item], bool]) -> Pair:
    """An interlock and what is left of it: nothing where fewer than two positions are."""
    kept = tuple(item for item in lock.excludes if not lost(item))
    return lock, replace(lock, excludes=kept) if len(kept) > 1 else None


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
