"""In which positions a part can stand."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import islice, product

from linework.design.elements import Part, Seat
from linework.design.model import Design

PLUG = "plug"
"""The selector of a hand-moved plug; its positions are its seats, called after their hosts."""
_MOST_CASES = 64


def positions_of(design: Design, part: Part, seats: Iterable[Seat]) -> dict[str, set[str]]:
    """The positions of each selector of a part, in whichever of its possible cases it is.

    ``seats``: those of a hand-moved plug. The design has their hosts.
    """
    values = design.values(part)
    kind = design.kind(part)
    choices = {key: values.open_options(key) for key in kind.declared}
    open_keys = [key for key, options in choices.items() if options]
    known: dict[str, set[str]] = {}
    for case in islice(product(*(choices[key] for key in open_keys)), _MOST_CASES):
        settled = dict(zip(open_keys, case, strict=True))
        for selector in kind.inside(design.values(part, settled)).selectors:
            known.setdefault(selector.name, set()).update(selector.positions)
    if PLUG in known:
        for seat in seats:
            known[PLUG].update(plug_labels(design.part(seat.host).designation, seat))
    return known


def plug_labels(host: str, seat: Seat) -> tuple[str, str]:
    """How the position of a hand-moved plug in a seat may be called: after its host's designation,
    or after host and place where it has several seats in one host."""
    return host, f"{host} {seat.place}"
