"""Busbars: at each of their terminals the lead goes to the side on which the other part lies."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Design, Part
from linework.picture import stretch, symbols
from linework.picture.symbol import Symbol

PITCH = 125
"""From tap to tap: as much as the writing on two runs side by side needs."""


def is_bar(design: Design, part: Part) -> bool:
    """A part that is drawn as a bar with taps."""
    return bool(_taps(design, part))


def bar_symbol(design: Design, part: Part) -> Symbol:
    """The bar with its leads at the left or right, about its own origin."""
    return stretch.busbar(_taps(design, part), PITCH, frozenset(_turned(design, part)))


def _taps(design: Design, part: Part) -> int:
    return symbols.taps_of(design.kind(part).symbol(design.values(part)))


def _turned(design: Design, part: Part) -> Iterator[str]:
    """The terminals whose lead does not go where it goes on a bar alone: the feed to the left, the
    taps to the right."""
    if part.turn % 4:
        return
    for run in design.runs_at(part.id):
        for here, there in ((run.a, run.b), (run.b, run.a)):
            away = _x(design, there.part) - part.x
            to_left = (away < 0) != part.mirror
            if here.part == part.id and away and to_left != (here.terminal == "feed"):
                yield here.terminal


def _x(design: Design, part_id: str) -> int:
    """Where the part lies in which another sits."""
    seen: set[str] = set()
    while part_id not in seen:
        seen.add(part_id)
        part = design.part(part_id)
        seats = [] if design.kind(part).plugs else design.seats_of(part_id)
        if seats:
            part_id = seats[0].host
    return design.part(part_id).x
