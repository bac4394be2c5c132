"""The bill of materials: what a design takes to build, as plain values; a pure function.

Quantities are counted from the drawing. What a drawing of single lines cannot tell (boxes, clamps,
screws) is listed as such and never passed over.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from linework.design import Design, Part
from linework.design.names import natural
from linework.handover.cables import Bill as CableBill
from linework.handover.cables import cable_bill
from linework.handover.rating_words import ratings_text, value_text
from linework.kinds import STRIP, is_known
from linework.sheet.parts import has_main
from linework.wiring import Overcurrent
from linework.words import say, say_count

SPARES = 1
"""Of each type and rating of fuse (common practice, no source)."""


@dataclass(frozen=True)
class Line:
    """Parts that are alike: ``what`` they are, ``detail`` their ratings, ``where`` designations.

    ``quantity`` counts pieces, several to a part that is bought piece by piece.
    """

    what: str
    detail: str
    quantity: int
    where: tuple[str, ...]
    spares: int = 0


@dataclass(frozen=True)
class Bill:
    """The bill in its groups, each line once.

    ``parts``, ``plugs`` (whatever has contacts of a configuration) and ``fuses`` (their quantity
    counts links, several where a part opens several conductors) together name every part that is
    bought; ``there`` those that the place has already. ``undrawn``: what is needed besides and
    cannot be read from the drawing, in sentences.
    """

    parts: tuple[Line, ...]
    plugs: tuple[Line, ...]
    fuses: tuple[Line, ...]
    there: tuple[Line, ...]
    cables: CableBill
    undrawn: tuple[str, ...]


def bill_of(design: Design) -> Bill:
    """What the design takes. Never fails on a design that can be drawn."""
    groups: dict[str, list[Part]] = defaultdict(list)
    for part in design.parts:
        groups[_group(design, part)].append(part)
    cables = cable_bill(design)
    return Bill(
        _lines(design, groups["parts"]),
        _lines(design, groups["plugs"]),
        _fuses(design, groups["fuses"]),
        _lines(design, groups["there"]),
        cables,
        tuple(_undrawn(design, groups["fuses"], cables)),
    )


def _group(design: Design, part: Part) -> str:
    kind = design.kind(part)
    if kind.source.off_site or kind.body or _at_site(design, part):
        return "there"
    if kind.melts:
        return "fuses"
    contacts = any(rating.quantity == "configuration" for rating in kind.ratings)
    return "plugs" if contacts and not kind.consumes else "parts"


def _at_site(design: Design, part: Part) -> bool:
    """Whether it sits in a supply from outside, as the outlet of a pedestal does."""
    hosts = (design.part(seat.host) for seat in design.seats_of(part.id))
    return any(design.kind(host).source.off_site for host in hosts)


def _lines(design: Design, parts: Iterable[Part]) -> tuple[Line, ...]:
    """In the order of the parts strip; parts of one kind and equal ratings together."""
    alike = _gathered(parts, lambda part: (*_place(design, part), _detail(design, part)))
    return tuple(
        Line(
            _what(design, group[0]),
            _detail(design, group[0]),
            _pieces(design, group),
            _names(group),
        )
        for group in alike
    )


Key = Callable[[Part], tuple[object, ...]]


def _gathered(parts: Iterable[Part], key: Key) -> list[list[Part]]:
    """Parts of one key together, in the order of their keys, then of their names."""
    found: dict[tuple[object, ...], list[Part]] = defaultdict(list)
    for part in sorted(parts, key=lambda part: natural(part.designation)):
        found[key(part)].append(part)
    return [found[key] for key in sorted(found, key=lambda k: tuple(natural(str(x)) for x in k))]


def _place(design: Design, part: Part) -> tuple[object, ...]:
    kind = design.kind(part)
    at = STRIP.index(kind.strip) if kind.strip in STRIP else len(STRIP)
    return at, kind.key, part.kind


def _what(design: Design, part: Part) -> str:
    kind = design.kind(part)
    name = kind.piece or kind.name
    return say(name, family=design.settings.family)


def _pieces(design: Design, parts: Iterable[Part]) -> int:
    return sum(design.kind(part).pieces(design.values(part)) for part in parts)


def _detail(design: Design, part: Part) -> str:
    if not is_known(part.kind):
        return say("of a kind that this version does not know: {kind}", kind=part.kind)
    kind, values, poles = design.kind(part), design.values(part), _poles(design, part)
    told = ratings_text(kind, values, design.settings.family, _idle(design, part, poles))
    return "; ".join(filter(None, (poles, told)))


def _idle(design: Design, part: Part, poles: str) -> set[str]:
    """Ratings that say nothing: which poles open, where that is each conductor that is counted, and
    which a main opens that is not there."""
    values = design.values(part)
    declared = values.declared.get("poles")
    usual = poles and declared is not None and values.pick("poles") == declared.default
    return {*(["poles"] if usual else []), *([] if has_main(design, part) else ["main_poles"])}


def _poles(design: Design, part: Part) -> str:
    """Of a device by which circuits are protected, how many conductors it opens together."""
    opened = _opened(design, part)
    if design.kind(part).strip != "protection" or not opened:
        return ""
    return say_count("opens {count} conductor", "opens {count} conductors", opened)


def _names(parts: Iterable[Part]) -> tuple[str, ...]:
    return tuple(sorted((part.designation for part in parts), key=natural))


# fuses


def _fuses(design: Design, parts: Iterable[Part]) -> tuple[Line, ...]:
    """Links by type and rating; the holder is the part, the link what is kept in reserve."""
    alike = _gathered(parts, lambda part: _link(design, part))
    return tuple(
        Line(
            _what(design, group[0]),
            ", ".join(filter(None, _link(design, group[0]))),
            sum(_links_in(design, part) for part in group),
            _names(group),
            SPARES,
        )
        for group in alike
    )


def _link(design: Design, part: Part) -> tuple[str, ...]:
    """Type, rating, and the voltage that it breaks."""
    values, declared = design.values(part), design.kind(part).declared
    family = design.settings.family
    amps = value_text(declared["rating"], values, family) or say("rating not given")
    volts = value_text(declared["voltage"], values, family) if "voltage" in declared else ""
    return value_text(declared["type"], values, family), amps, volts


def _links_in(design: Design, part: Part) -> int:
    """One for each conductor that it opens."""
    return max(_opened(design, part), 1)


def _opened(design: Design, part: Part) -> int:
    elements = design.kind(part).inside(design.values(part)).elements
    return sum(len(e.contacts) for e in elements if isinstance(e, Overcurrent))


# what cannot be read from the drawing


def _undrawn(design: Design, fuses: list[Part], cables: CableBill) -> Iterable[str]:
    unknown = [part for part in design.parts if not is_known(part.kind)]
    if unknown:
        yield say("What {names} are: this version does not know them.", names=_told(unknown))
    yield from cables.undrawn
    if fuses:
        yield say("Holders or blocks for the fuses {names}.", names=_told(fuses))
    outlets = (part for part in design.parts if design.kind(part).receptacle)
    seated = [part for part in outlets if not _at_site(design, part)]
    if seated:
        yield say("Boxes, covers and plates for {names}.", names=_told(seated))
    yield say(
        "Cable clamps, straps and supports, screws and bolts with their washers, tape and sleeves,"
        " labels, and what fastens parts to the structure."
    )


def _told(parts: Iterable[Part]) -> str:
    return ", ".join(_names(parts))
