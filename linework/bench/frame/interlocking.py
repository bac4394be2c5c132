"""Interlocks between the chosen parts: which positions can exclude each other."""

from __future__ import annotations

from linework.design import Change, Design, EditError, Interlock, merged
from linework.design.edits import add_interlock, drop_element
from linework.design.positions import positions_of
from linework.words import say

_SHUT = "closed"
"""The position in which a device connects."""


def interlock(design: Design, chosen: tuple[str, ...]) -> Change:
    """Of the chosen breakers and boards at most one may be closed. EditError where none can be."""
    found = []
    for part in design.parts:
        if part.id not in chosen:
            continue
        seats = design.seats_of(part.id)
        for selector, positions in sorted(positions_of(design, part, seats).items()):
            if _SHUT in positions:
                found.append((part.id, selector, _SHUT))
    if len(found) < 2:
        raise EditError(
            say(
                "choose two or more breakers, or boards with a main breaker, that exclude each"
                " other"
            )
        )
    return add_interlock(design, found)


def locks_of(design: Design, chosen: tuple[str, ...]) -> list[Interlock]:
    """The interlocks that name one of the chosen parts, or are chosen themselves."""
    return [
        lock
        for lock in design.interlocks
        if lock.id in chosen or any(part in chosen for part, _, _ in lock.excludes)
    ]


def unlock(design: Design, chosen: tuple[str, ...]) -> Change:
    """Those interlocks taken away. EditError where there are none."""
    locks = locks_of(design, chosen)
    if not locks:
        raise EditError(say("nothing that is chosen is held by an interlock"))
    return merged(say("remove interlock"), *(drop_element(design, lock.id) for lock in locks))
