"""Which places the writing of a part wants: where no run leaves, close to the symbol."""

from __future__ import annotations

from dataclasses import replace

from linework.picture.geometry import Box
from linework.picture.inks import Ink
from linework.picture.model import Across
from linework.sheet.lettering import Block, Hung, Option, Row, Wanted
from linework.sheet.parts.parts import PartDrawing
from linework.sheet.parts.shapes import ROW_OFF

_OFF = 14
_WIDE = 400
"""A symbol that is wider than this has all its writing above, from its left edge."""


def wanted_for_part(drawing: PartDrawing, rank: int, more: Block = ()) -> Wanted:
    """The label of a part. ``more``: lines below its captions, e.g. what the solver makes of it."""
    captions = (*drawing.captions, *more)
    whole = (*drawing.head, *captions)
    options = (*_first(drawing, captions, whole), *_rest(drawing, captions, whole))
    tall = (*drawing.tall, *captions)
    if drawing.tall != drawing.head:
        options = (*options, *_rest(replace(drawing, head=drawing.tall), captions, tall))
    parted = _parted(drawing.head)
    named = tuple(row for row in parted if row[0].ink is not Ink.QUIET)
    name = ((drawing.head[0][0],),)
    less = [(*parted, *captions[:n]) for n in range(len(captions) - 1, 0, -1)]
    forms = dict.fromkeys((whole, (*parted, *captions), tall, *less, drawing.tall, named, name))
    return Wanted(drawing.id, options, drawing.whole, tuple(f for f in forms if f[0]), rank)


def _parted(head: Block) -> Block:
    """The head with what runs there under designation and title, where it stands beside them."""
    rows: list[Row] = []
    for row in head:
        *names, last = row
        beside = bool(names) and last.ink is Ink.QUIET
        rows += [tuple(names), (last,)] if beside else [row]
    return tuple(rows)


def _first(drawing: PartDrawing, captions: Block, whole: Block) -> tuple[Option, ...]:
    """The best place: in a board's row along it, else at a side without runs."""
    box = drawing.whole
    if drawing.lead:
        return _in_row(drawing, captions)
    if box.width > _WIDE:
        return ((Hung(whole, box.left, box.top - _OFF, "start", "base"),),)
    if "right" not in drawing.busy and "left" in drawing.busy:
        return ((Hung(whole, box.right + _OFF, box.center[1], "start", "middle"),),)
    if drawing.busy == {"up"}:
        return ((Hung(whole, box.right + _OFF, box.center[1], "start", "middle"),),)
    return ()


def _in_row(drawing: PartDrawing, captions: Block) -> tuple[Option, ...]:
    """Designation over the row before the symbol, ratings under it."""
    if drawing.group.turn % 2:
        return ()
    flip = drawing.group.mirror != (drawing.group.turn == 2)
    x = drawing.box.right + drawing.lead if flip else drawing.box.left - drawing.lead
    across: Across = "end" if flip else "start"
    head = Hung(drawing.head, x, drawing.y - ROW_OFF, across, "base")
    if not captions:
        return ((head,),)
    under = Hung(captions, x, drawing.y + ROW_OFF, across, "top")
    middle = Hung(captions, drawing.box.center[0], drawing.box.bottom + ROW_OFF, "middle", "top")
    return (head, middle), (head, under)


def _rest(drawing: PartDrawing, captions: Block, whole: Block) -> tuple[Option, ...]:
    above, below = drawing.hangs["above"], drawing.hangs["below"]
    found: list[Option] = []
    if captions:
        head = Hung(drawing.head, above.x, above.y, above.across, above.level)
        found.append((head, Hung(captions, below.x, below.y, below.across, below.level)))
    found.append((Hung(whole, above.x, above.y, above.across, above.level),))
    found.append((Hung(whole, below.x, below.y, below.across, below.level),))
    if captions:
        found += _split(drawing, captions)
    return (*found, *_sides(drawing.whole, whole))


def _split(drawing: PartDrawing, captions: Block) -> list[Option]:
    """Designation over, ratings under the symbol, flush with its left or right edge."""
    box = drawing.whole
    return [
        (
            Hung(drawing.head, box.left, box.top - _OFF, "start", "base"),
            Hung(captions, box.left, box.bottom + _OFF, "start", "top"),
        ),
        (
            Hung(drawing.head, box.right, box.top - _OFF, "end", "base"),
            Hung(captions, box.right, box.bottom + _OFF, "end", "top"),
        ),
    ]


def _sides(box: Box, whole: Block) -> list[Option]:
    x, y = box.center
    found: list[Option] = []
    flush: tuple[tuple[int, Across], ...] = (
        (box.left, "start"),
        (box.right, "end"),
        (x + 20, "start"),
        (x - 20, "end"),
        (box.right, "start"),
        (box.left, "end"),
    )
    for at, across in flush:
        found.append((Hung(whole, at, box.top - _OFF, across, "base"),))
        found.append((Hung(whole, at, box.bottom + _OFF, across, "top"),))
    return [
        *found,
        (Hung(whole, box.right + _OFF, y, "start", "middle"),),
        (Hung(whole, box.left - _OFF, y, "end", "middle"),),
    ]
