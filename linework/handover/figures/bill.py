"""The bill of materials and the list of pieces to cut, as tables."""

from __future__ import annotations

from collections.abc import Iterator

from linework.handover.cables import ALLOWANCE
from linework.handover.content import Content
from linework.handover.figures.model import Cell, Column, Data, figure, joined, length, length_unit
from linework.handover.materials import Bill, bill_of

Row = tuple[Cell, ...]


def materials(content: Content) -> Data:
    """Everything that is to be bought, each once: pieces or a length, never both."""
    say, unit = content.say, length_unit(content)
    bill = bill_of(content.design)
    columns = (
        Column(say("group")),
        Column(say("what")),
        Column(say("ratings")),
        Column(say("pieces")),
        Column(say("of these spare")),
        Column(say("length drawn"), unit),
        Column(say("length with {more} more", more=f"{ALLOWANCE:.0%}"), unit),
        Column(say("for")),
    )
    rows = (*_parts(content, bill), *_cables(content, bill), *_rest(content, bill))
    return Data("materials", say("Bill of materials"), columns, rows)


def _parts(content: Content, bill: Bill) -> Iterator[Row]:
    say = content.say
    groups = (
        (say("part"), bill.parts),
        (say("plug, outlet or inlet"), bill.plugs),
        (say("fuse"), bill.fuses),
        (say("there already"), bill.there),
    )
    for group, lines in groups:
        for line in lines:
            pieces = line.quantity + line.spares
            spares = line.spares or None
            names = joined(line.where)
            yield (group, line.what, line.detail, pieces, spares, None, None, names)


def _cables(content: Content, bill: Bill) -> Iterator[Row]:
    group = content.say("cable or wire")
    for cable in bill.cables.cables:
        what = f"{cable.make_up}, {cable.kind}"
        lengths = (length(content, cable.metres), length(content, cable.to_buy))
        yield (group, what, cable.detail, None, None, *lengths, joined(cable.runs))


def _rest(content: Content, bill: Bill) -> Iterator[Row]:
    say = content.say
    for one in bill.cables.fittings:
        names = joined(one.where)
        if one.in_metres:
            drawn = length(content, one.quantity)
            more = length(content, one.quantity * (1 + ALLOWANCE))
            yield (say("raceway"), one.what, "", None, None, drawn, more, names)
        else:
            yield (say("fitting"), one.what, "", figure(one.quantity), None, None, None, names)
    for ends in bill.cables.ends:
        what = say("conductor end {size}", size=ends.size)
        names = joined(ends.runs)
        group = say("end to terminate")
        yield (group, what, ends.material, ends.quantity, None, None, None, names)
    for sentence in bill.undrawn:
        yield (say("not told by the drawing"), sentence, "", None, None, None, None, "")


def cuts(content: Content) -> Data:
    """Every piece of cable or wire that is to be cut."""
    say, unit = content.say, length_unit(content)
    columns = (
        Column(say("run")),
        Column(say("conductors")),
        Column(say("laid")),
        Column(say("metal and insulation")),
        Column(say("length"), unit),
    )
    rows = tuple(
        (cut.run, cable.make_up, cable.kind, cable.detail, length(content, cut.metres))
        for cable in bill_of(content.design).cables.cables
        for cut in cable.cuts
    )
    return Data("cuts", say("Pieces to cut"), columns, rows)
