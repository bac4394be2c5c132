"""The bill of materials on paper."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable

from linework.handover.cables import ALLOWANCE, Cable, Cut, Ends, Fitting
from linework.handover.content import Content
from linework.handover.materials import SPARES, Bill, Line, bill_of
from linework.handover.sheets import NARROW, USUAL, Band, Room, Sheet
from linework.handover.styles import Cell, bullet, table, text, with_room
from linework.quantity import show
from linework.words import N_


def materials_page(content: Content, room: Room) -> list[Band]:
    """What it takes to build: parts, plugs, fuses, cable, fittings, ends, what is not drawn."""
    say, bill = content.say, bill_of(content.design)
    usual, narrow = room.columns(USUAL), max(room.columns(NARROW), _ABREAST)
    wide, slim = room.column(usual), room.column(narrow)
    head = [
        text(say("Bill of materials"), "title", anchor="materials"),
        text(
            say("Counted from the drawing. Values in [brackets] were not given: they are assumed.")
        ),
    ]
    few = [
        *_parts(content, slim, say("Plugs, outlets and inlets"), bill.plugs),
        *_parts(content, slim, say("There already: not bought"), bill.there),
        *_fuses(content, slim, bill.fuses),
        *_fittings(content, slim, bill.cables.fittings),
        *_ends(content, slim, bill.cables.ends),
    ]
    return [
        Band(usual, [*head, *_parts(content, wide, say("Parts"), bill.parts)]),
        Band(narrow, few),
        Band(usual, _cables(content, wide, bill.cables.cables)),
        Band(narrow, _undrawn(content, bill)),
    ]


_ABREAST = 2
"""So many of the small tables stand beside each other on the least paper."""


def _headed(title: str, *below: Flowable) -> list[Flowable]:
    return [with_room(), text(title, "heading"), *below]


def _parts(content: Content, room: Room, title: str, lines: Sequence[Line]) -> list[Flowable]:
    if not lines:
        return []
    say = content.say
    rows: list[list[Cell]] = [
        [str(line.quantity), line.what, line.detail or "-", ", ".join(line.where)] for line in lines
    ]
    heads = [say("pieces"), say("what"), say("ratings"), say("for")]
    return _headed(title, table(heads, rows, room.width))


def _fuses(content: Content, room: Room, lines: Sequence[Line]) -> list[Flowable]:
    if not lines:
        return []
    say = content.say
    rows: list[list[Cell]] = [
        [str(x.quantity + x.spares), str(x.quantity), str(x.spares), x.detail, ", ".join(x.where)]
        for x in lines
    ]
    heads = [say("pieces"), say("fitted"), say("spare"), say("fuse"), say("for")]
    note = say(
        "{count} spare of each type and rating: common practice, no source.", count=str(SPARES)
    )
    return _headed(say("Fuses and spares"), text(note), table(heads, rows, room.width))


def _cables(content: Content, room: Room, cables: Sequence[Cable]) -> list[Flowable]:
    if not cables:
        return []
    say = content.say
    rows: list[list[Cell]] = [
        [
            cable.make_up,
            ", ".join(filter(None, (cable.kind, cable.detail))),
            ", ".join(_cut(content, cut) for cut in cable.cuts),
            _sum(content, cable.metres, cable.whole),
            _sum(content, cable.to_buy, cable.whole),
        ]
        for cable in cables
    ]
    more = f"{100 * ALLOWANCE:.0f} %"
    heads = [
        say("conductors"),
        say("as laid, metal and insulation"),
        say("pieces to cut"),
        say("together"),
        say("+ {more}", more=more),
    ]
    note = say(
        "{more} for stripping, bends, slips: common practice, no source. Lengths one way, as"
        " drawn: measure before you cut.",
        more=more,
    )
    return _headed(say("Cable and wire"), text(note), table(heads, rows, room.width))


def _cut(content: Content, cut: Cut) -> str:
    length = (
        content.say("not given")
        if cut.metres is None
        else show(cut.metres, "length", family=content.family)
    )
    return content.say("{run} {length}", run=cut.run, length=length)


def _sum(content: Content, metres: float, whole: bool) -> str:
    """A sum from which lengths are missing is said to be one."""
    shown = show(metres, "length", family=content.family)
    return shown if whole else content.say("{length} and what is not given", length=shown)


def _fittings(content: Content, room: Room, fittings: Sequence[Fitting]) -> list[Flowable]:
    if not fittings:
        return []
    say = content.say
    rows: list[list[Cell]] = [
        [
            show(one.quantity * (1 + ALLOWANCE), "length", family=content.family)
            if one.in_metres
            else f"{one.quantity:g}",
            one.what,
            ", ".join(one.where),
        ]
        for one in fittings
    ]
    note = say("Lengths of raceways with {more} more.", more=f"{100 * ALLOWANCE:.0f} %")
    notes = [text(note)] if any(one.in_metres for one in fittings) else []
    heads = [say("quantity"), say("what"), say("for")]
    return _headed(say("Fittings and raceways"), *notes, table(heads, rows, room.width))


def _ends(content: Content, room: Room, ends: Sequence[Ends]) -> list[Flowable]:
    if not ends:
        return []
    say = content.say
    rows: list[list[Cell]] = [
        [str(one.quantity), one.size, one.material, ", ".join(one.runs)] for one in ends
    ]
    heads = [say("ends"), say("size"), say("metal"), say("for")]
    return _headed(say("Conductor ends, for lugs and ferrules"), table(heads, rows, room.width))


def _undrawn(content: Content, bill: Bill) -> list[Flowable]:
    told = [bullet(sentence) for sentence in bill.undrawn]
    return [*_headed(content.say("Needed besides, not told by the drawing")), *told]


MATERIALS = Sheet(
    "materials",
    N_("Bill of materials"),
    N_("bill of materials"),
    materials_page,
    annex=True,
)
"""Nobody signs what has to be bought: it stands behind."""
