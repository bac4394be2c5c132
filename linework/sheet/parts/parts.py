"""One part as it is drawn: its symbol, where runs attach, where other parts sit, its writing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING

from linework.design import Design, Part
from linework.picture.geometry import Box, Placing, joined_boxes
from linework.picture.model import Group, Rect
from linework.picture.symbol import Symbol
from linework.picture.symbolfile import Direction, LabelPlace
from linework.sheet.lettering import Block
from linework.sheet.parts.captions import captions_of, head_of, writing_in_row
from linework.sheet.parts.places import placing_of, seat_of, sheet_of
from linework.sheet.parts.shapes import LEAD, ROW_WIDTH, is_board, solid_boxes, symbol_of

if TYPE_CHECKING:
    from linework.study.report import StateReport


_NARROW = 240

End = tuple[int, int, Direction]
"""A point on the paper and the direction in which a run leaves it."""


@dataclass(frozen=True)
class PartDrawing:
    """A part on the paper. All but ``group`` is in paper coordinates.

    ``group``: the symbol, mirrored and turned, about the part's origin (or where
    it lies, see :func:`draw_part`). ``x``, ``y``: the part's origin. ``anchors``:
    by terminal; ``places``: by place, where another part's seat terminal comes to
    lie. ``box``: around the symbol's ink. ``head`` (designation and title) and
    ``captions`` (ratings): writing to be placed, see labels; ``tall``: the head in a
    narrower form. ``hangs``: where the
    symbol wants it. ``host``: id of the part in which it sits, "" if it does not.
    ``sheet``: the number of its sheet. ``solid``: what its strokes fill, whatever the
    position it is shown in: no writing there. ``busy``: the sides from which runs leave.
    ``lead``: free length of the board's row in which it sits, before the symbol.
    """

    id: str
    group: Group
    x: int
    y: int
    anchors: Mapping[str, End]
    places: Mapping[str, End]
    box: Box
    head: Block
    tall: Block
    captions: Block
    hangs: Mapping[str, LabelPlace] = field(repr=False)
    host: str = ""
    sheet: int = 1
    solid: tuple[Box, ...] = field(default=(), repr=False)
    busy: frozenset[Direction] = frozenset()
    lead: int = 0

    @property
    def labels(self) -> Block:
        """All writing of the part, one line below the other."""
        return (*self.head, *self.captions)

    @cached_property
    def whole(self) -> Box:
        """The box around the symbol in all its positions."""
        return joined_boxes((self.box, *self.solid)) or self.box


def draw_part(
    design: Design, part: Part, *, state: StateReport | None = None, at_origin: bool = True
) -> PartDrawing:
    """How a part lies on its sheet.

    ``state``: contacts and levers are drawn in the positions of this state; None:
    as the standard draws them. ``at_origin``: the group lies about (0, 0), to be
    moved by whoever paints it; else it lies where the part lies.
    """
    at = placing_of(design, part)
    bare = symbol_of(design, part, state)
    placed = bare.at(at.x, at.y, at.turn, at.mirror, part.id)
    group = replace(placed.group, x=0, y=0) if at_origin else placed.group
    seat = seat_of(design, part)
    in_row = seat is not None and is_board(design, design.part(seat.host))
    anchors = _ends(placed, design, part)
    head, captions = head_of(design, part), captions_of(design, part)
    if in_row:
        head, captions = writing_in_row(design, part, ROW_WIDTH)
    return PartDrawing(
        part.id,
        group,
        at.x,
        at.y,
        anchors,
        {name: (a.x, a.y, a.direction) for name, a in placed.places.items()},
        placed.box,
        head,
        head if in_row else head_of(design, part, _NARROW),
        captions,
        placed.labels,
        "" if seat is None else seat.host,
        sheet_of(design, part),
        tuple(_placed(box, at) for box in solid_boxes(design, part)),
        _busy(design, part, placed, anchors),
        LEAD if in_row else 0,
    )


def draw_parts(
    design: Design, *, state: StateReport | None = None, at_origin: bool = True
) -> dict[str, PartDrawing]:
    """Every part of a design, by id, in the order of the design."""
    return {
        part.id: draw_part(design, part, state=state, at_origin=at_origin) for part in design.parts
    }


def _placed(box: Box, at: Placing) -> Box:
    lying = Rect(box.left, box.top, box.width, box.height).placed(at)
    return Box(lying.x, lying.y, lying.x + lying.width, lying.y + lying.height)


def _busy(
    design: Design, part: Part, placed: Symbol, anchors: Mapping[str, End]
) -> frozenset[Direction]:
    """The sides of a symbol at which runs end, or parts sit."""
    ends = (end for run in design.runs_at(part.id) for end in (run.a, run.b))
    used = {anchors[end.terminal][2] for end in ends if end.part == part.id}
    seats = (*design.seated_in(part.id), *design.seats_of(part.id))
    for seat in seats:
        if seat.host == part.id and seat.place in placed.places:
            used.add(placed.places[seat.place].direction)
        elif seat.part == part.id and design.kind(part).seat in anchors:
            used.add(anchors[design.kind(part).seat][2])
    return frozenset(used)


def _ends(placed: Symbol, design: Design, part: Part) -> dict[str, End]:
    """Anchors by terminal; one that the symbol does not show lies at the middle of a side."""
    found: dict[str, End] = {
        name: (anchor.x, anchor.y, anchor.direction) for name, anchor in placed.anchors.items()
    }
    named = [t.name for t in design.kind(part).terminals(design.values(part))]
    ends = (end for run in design.runs_at(part.id) for end in (run.a, run.b))
    named += [end.terminal for end in ends if end.part == part.id]
    for name in named:
        found.setdefault(name, (placed.box.right, placed.box.center[1], "right"))
    return found
