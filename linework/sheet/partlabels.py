"""Which places the writing of a part wants: where no run leaves, close to the symbol."""

from __future__ import annotations

from linework.sheet.labels import Option, Wanted
from linework.sheet.parts import PartDrawing
from linework.sheet.texts import Block, Hung

_OFF = 14
_WIDE = 400
"""A symbol that is wider than this has all its writing above, from its left edge."""


def wanted_for_part(drawing: PartDrawing, rank: int, more: Block = ()) -> Wanted:
    """The label of a part. ``more``: lines below its captions, e.g. what the solver makes of it."""
    captions = (*drawing.captions, *more)
    whole = (*drawing.head, *captions)
    options = (*_first(drawing, captions, whole), *_rest(drawing, captions, whole))
    return Wanted(drawing.id, options, drawing.box, (whole,), rank)


def _first(drawing: PartDrawing, captions: Block, whole: Block) -> tuple[Option, ...]:
    """The best place: a side without terminals, else above and below."""
    box, sides = drawing.box, drawing.free_sides
    if box.width > _WIDE:
        return ((Hung(whole, box.left, box.top - _OFF, "start", "base"),),)
    right = (Hung(whole, box.right + _OFF, box.center[1], "start", "middle"),)
    left = (Hung(whole, box.left - _OFF, box.center[1], "end", "middle"),)
    if "right" in sides and "left" not in sides:
        return (right,)
    if "left" in sides and "right" not in sides and not {"up", "down"} & set(sides):
        return (left,)
    return ()


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
    return (*found, *_sides(drawing, whole))


def _split(drawing: PartDrawing, captions: Block) -> list[Option]:
    """Designation over, ratings under the symbol, flush with its left or right edge."""
    box = drawing.box
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


def _sides(drawing: PartDrawing, whole: Block) -> list[Option]:
    box = drawing.box
    x, y = box.center
    return [
        (Hung(whole, box.right + _OFF, y, "start", "middle"),),
        (Hung(whole, box.left - _OFF, y, "end", "middle"),),
        (Hung(whole, box.left, box.top - _OFF, "start", "base"),),
        (Hung(whole, box.right, box.top - _OFF, "end", "base"),),
        (Hung(whole, box.left, box.bottom + _OFF, "start", "top"),),
        (Hung(whole, box.right, box.bottom + _OFF, "end", "top"),),
        (Hung(whole, x + 20, box.top - _OFF, "start", "base"),),
        (Hung(whole, x - 20, box.top - _OFF, "end", "base"),),
        (Hung(whole, x + 20, box.bottom + _OFF, "start", "top"),),
        (Hung(whole, x - 20, box.bottom + _OFF, "end", "top"),),
    ]
