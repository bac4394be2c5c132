"""In which positions a part can stand."""

from __future__ import annotations

from collections.abc import Iterable

from linework.design.cases import cases_of
from linework.design.elements import Part, Seat
from linework.design.model import Design

PLUG = "plug"
"""The selector of a hand-moved plug; its positions are its seats, called after their hosts."""


def positions_of(design: Design, part: Part, seats: Iterable[Seat]) -> dict[str, set[str]]:
    """The positions of each selector of a part that an interlock can hold, in whichever of its
    possible cases it is: what moves by itself is not held by a piece of metal.

    ``seats``: those of a hand-moved plug. The design has their hosts.
    """
    known: dict[str, set[str]] = {}
    for case in cases_of(design, [part]):
        values = design.in_case(case).values(part)
        selectors = design.kind(part).inside(values).selectors
        for selector in (s for s in selectors if s.moves != "follows"):
            known.setdefault(selector.name, set()).update(selector.positions)
    if PLUG in known:
        for seat in seats:
            known[PLUG].update(plug_labels(design.part(seat.host).designation, seat))
    return known


def plug_labels(host: str, seat: Seat) -> tuple[str, str]:
    """How the position of a hand-moved plug in a seat may be called: after its host's designation,
    or after host and place where it has several seats in one host."""
    return host, f"{host} {seat.place}"
