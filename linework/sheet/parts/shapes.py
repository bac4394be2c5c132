"""Which symbol stands for a part: its name from its kind, its size from what it holds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

from linework.design import Design, Part
from linework.design.edits.seats import places_of, taken_by
from linework.picture import stretch, symbols
from linework.picture.geometry import MODULE, Box
from linework.picture.inks import WIDE, Ink, Pen
from linework.picture.measure import boxes
from linework.picture.model import Item, Line, Rect, Text
from linework.picture.neutral import GAP, neutral_bars
from linework.picture.symbol import Symbol
from linework.picture.symbolfile import Anchor
from linework.sheet.lettering import SMALL, block_height
from linework.sheet.parts.bars import bar_symbol, is_bar
from linework.sheet.parts.captions import writing_in_row
from linework.sheet.parts.forks import forked
from linework.sheet.parts.mains import with_main
from linework.sheet.parts.neutral import neutral_link
from linework.words import say

if TYPE_CHECKING:
    from linework.study.report import StateReport

PITCH = 150
"""The least from one place of a board or source to the next: a line of writing on both sides."""
LEAD = 100
"""What is free of a board's row before the part that sits in it: room for a designation."""
_PANEL_REACH = 325
"""How far a board's outline goes on to the right of its bus: a lead, a breaker, a lead."""
_STUB = 100
ROW_OFF = 17
"""Between a board's row and the writing over and under it."""
ROW_WIDTH = 330
"""Longest line of writing at a part in a board, so that it stays inside the board."""
_NUMBER_OFF, _NUMBER = 14, 11
"""From the bus, and from its lead, to the number of a place."""
_OVER_FIRST = 2 * MODULE
"""So much more room has a board over its first row, for letters at the symbol in it."""
_BARS = 150
"""The length of the bars of neutral and ground in a board."""
_ROWS = 8
"""A board with more places than this shows those that are taken, and free ones up to it."""


def is_moved_by_hand(design: Design, part: Part) -> bool:
    """A hand-moved plug: it lies where it was drawn, its seats are places where it may go."""
    return design.kind(part).plugs


def rows_of(design: Design, part: Part) -> tuple[str, ...]:
    """The names of the places that are drawn, in order; of a large board not the spare ones.

    What a breaker of two poles takes besides its own place is not drawn.
    """
    seats = design.seated_in(part.id)
    taken = {seat.place for seat in seats}
    covered = {name for seat in seats for name in taken_by(design, seat)} - taken
    names = [place.name for place in places_of(design, part) if place.name not in covered]
    if len(names) <= _ROWS:
        return tuple(names)
    spare = [name for name in names if name not in taken][: max(1, _ROWS - len(taken))]
    return tuple(name for name in names if name in taken or name in spare)


def is_board(design: Design, part: Part) -> bool:
    """A part that is drawn as a board with a row for each of its places."""
    return design.kind(part).symbol(design.values(part)) == "panel"


def symbol_of(design: Design, part: Part, state: StateReport | None = None) -> Symbol:
    """The part's symbol about its own origin, in the position of the state (None: at rest)."""
    return forked(design, part, _whole_symbol(design, part, state))


def _whole_symbol(design: Design, part: Part, state: StateReport | None) -> Symbol:
    """The symbol before any of its terminals is forked."""
    name, family = _symbol_name(design, part), design.settings.family
    if name == "panel":
        rows, pitch = rows_of(design, part), row_pitch(design, part)
        taken = frozenset(seat.place for seat in design.seated_in(part.id))
        board = _panel(rows, pitch, _second_places(design, part), taken)
        return with_main(design, part, _barred_off(design, part, board), state)
    if name == "box":
        return _plain_box(design, part)
    if is_bar(design, part):
        return bar_symbol(design, part)
    plain = symbols.symbol(name, family, _position(part, name, family, state))
    missing = [row for row in rows_of(design, part) if row not in plain.places]
    return _with_places(design, part, plain, missing) if missing else plain


def row_pitch(design: Design, part: Part) -> int:
    """From row to row of a board: as much as the parts in it and their writing need."""
    need = PITCH
    for seat in design.seated_in(part.id):
        guest = design.part(seat.part)
        below = ROW_OFF + block_height(writing_in_row(design, guest, ROW_WIDTH)[1])
        above = max(ROW_OFF + SMALL, -symbol_of(design, guest).box.top)
        need = max(need, above + below + ROW_OFF)
    return -(-need // MODULE) * MODULE


def solid_boxes(design: Design, part: Part) -> tuple[Box, ...]:
    """What the part's strokes fill about its origin, in every position it can be shown in.

    A field that holds other parts is hollow: only its edges count.
    """
    name, family = _symbol_name(design, part), design.settings.family
    found = list(_strokes(symbol_of(design, part)))
    if not _is_one_of_a_kind(name):
        for position in symbols.positions(name, family):
            found += _strokes(symbols.symbol(name, family, position))
    return tuple(dict.fromkeys(found))


def _is_one_of_a_kind(name: str) -> bool:
    """Whether a symbol of this name is drawn anew for each part, to what it holds."""
    return name in ("panel", "box") or symbols.taps_of(name) > 0


def _symbol_name(design: Design, part: Part) -> str:
    """The name of the part's symbol, "box" where there is none."""
    name = design.kind(part).symbol(design.values(part))
    return name if name in _known(design.settings.family) else "box"


@cache
def _known(family: str) -> frozenset[str]:
    return frozenset(symbols.symbol_names())


def _strokes(symbol: Symbol) -> list[Box]:
    found: list[Box] = []
    for boxed in boxes([symbol.group]):
        holds = isinstance(boxed.item, Rect) and symbol.name == "panel"
        found += _edges(boxed.box) if holds else [boxed.box]
    return found


def _edges(box: Box) -> list[Box]:
    return [
        Box(box.left, box.top, box.right, box.top + 3),
        Box(box.left, box.bottom - 3, box.right, box.bottom),
        Box(box.left, box.top, box.left + 3, box.bottom),
        Box(box.right - 3, box.top, box.right, box.bottom),
    ]


def _position(part: Part, name: str, family: str, state: StateReport | None) -> str:
    """The first position of the part in this state that its symbol can show."""
    if state is None:
        return ""
    shown = symbols.positions(name, family)
    held = (at for (owner, _), at in sorted(state.positions.items()) if owner == part.id)
    return next((at for at in held if at in shown), "")


def _second_places(design: Design, part: Part) -> dict[str, str]:
    """Place -> the other place that the breaker of two poles in it takes."""
    return {
        seat.place: other
        for seat in design.seated_in(part.id)
        for other in taken_by(design, seat) - {seat.place}
    }


def _panel(
    rows: tuple[str, ...], pitch: int, second: Mapping[str, str], taken: frozenset[str]
) -> Symbol:
    """A board with a numbered lead for each place, and room over the first.

    Under the number of a place that of the second one which its breaker takes.
    """
    made = stretch.panel(max(len(rows), 1), pitch, _PANEL_REACH)
    ends = dict(zip(rows, made.places.values(), strict=False))
    items = [_higher(item) if isinstance(item, Rect) else item for item in made.group.items]
    for name, at in ends.items():
        if name in taken:
            items.append(Line(at.x, at.y, at.x + _STUB, at.y))
        else:
            items.append(Text(at.x + 8, at.y, say("free"), SMALL, "start", "middle", ink=Ink.QUIET))
        items += _numbers(at, name, second.get(name, ""))
    places = {name: Anchor(at.x + _STUB, at.y, at.direction) for name, at in ends.items()}
    group = replace(made.group, items=tuple(items), name="")
    box = replace(made.box, top=made.box.top - _OVER_FIRST)
    above = replace(made.labels["above"], y=made.labels["above"].y - _OVER_FIRST)
    labels = {**made.labels, "above": above}
    return replace(made, group=group, places=places, box=box, labels=labels)


def _barred_off(design: Design, part: Part, board: Symbol) -> Symbol:
    """With the bars of neutral and ground in place of the plain ground bar, where it has both."""
    found = neutral_link(design, part)
    if found is None:
        return board
    foot = board.anchors["ground"].y - 2 * MODULE
    left = board.anchors["ground"].x
    items = [item for item in board.group.items if not _is_level_at(item, foot)]
    items += neutral_bars(found[0], left - MODULE // 2 + 10, foot - GAP, _BARS)
    return replace(board, group=replace(board.group, items=tuple(items), name=""))


def _is_level_at(item: Item, y: int) -> bool:
    return isinstance(item, Line) and item.y1 == item.y2 == y


def _numbers(at: Anchor, name: str, second: str) -> Iterator[Text]:
    """The number of a place over its lead, that of the second one that its breaker takes under."""
    x = at.x - 2 * MODULE + _NUMBER_OFF
    yield Text(x, at.y - _NUMBER, name, SMALL, ink=Ink.QUIET)
    if second:
        yield Text(x, at.y + _NUMBER, second, SMALL, "start", "top", ink=Ink.QUIET)


def _higher(outline: Rect) -> Rect:
    return replace(outline, y=outline.y - _OVER_FIRST, height=outline.height + _OVER_FIRST)


def _with_places(design: Design, part: Part, plain: Symbol, names: list[str]) -> Symbol:
    """A source with places of its own: what sits there is fed from a bar at its output.

    What alone sits at an output to which no run goes is drawn straight at it. Free places are
    not drawn; they lie below the others.
    """
    kind = design.kind(part)
    outs = [t.name for t in kind.terminals(design.values(part)) if t.role == "out"]
    terminal = next((name for name in outs if name in plain.anchors), "")
    if not terminal or plain.anchors[terminal].direction != "right":
        return replace(plain, places={**plain.places, **_stacked(plain, names)})
    seated = {seat.place for seat in design.seated_in(part.id)}
    taken = [name for name in names if name in seated]
    wired = bool(design.runs_at(part.id, terminal))
    rows = ([terminal] if wired or not taken else []) + taken
    free = [name for name in names if name not in seated]
    return _barred(plain, terminal, rows, free)


def _barred(plain: Symbol, terminal: str, rows: list[str], free: list[str]) -> Symbol:
    """Rows at the output, the first level with it; a bar where there are several."""
    out = plain.anchors[terminal]
    bar, edge = out.x + MODULE, out.x + 2 * MODULE
    if len(rows) == 1:
        ends = {rows[0]: out}
    else:
        ends = {
            row: Anchor(edge, out.y + number * PITCH, "right") for number, row in enumerate(rows)
        }
    places = {row: end for row, end in ends.items() if row != terminal}
    for number, name in enumerate(free, start=len(rows)):
        places[name] = Anchor(edge, out.y + number * PITCH, "right")
    if len(rows) == 1:
        return replace(plain, places={**plain.places, **places})
    foot = out.y + (len(rows) - 1) * PITCH
    items: list[Item] = [*plain.group.items, Line(out.x, out.y, bar, out.y)]
    items.append(Line(bar, out.y, bar, foot, Pen(width=WIDE)))
    items += [Line(bar, end.y, edge, end.y) for end in ends.values()]
    group = replace(plain.group, items=tuple(items), name="")
    anchors = {**plain.anchors, terminal: ends.get(terminal, Anchor(edge, out.y, "right"))}
    box = plain.box.joined(Box(out.x, out.y, edge, foot).grown(3))
    places = {**plain.places, **places}
    return replace(plain, group=group, anchors=anchors, places=places, box=box)


def _stacked(plain: Symbol, names: list[str]) -> Mapping[str, Anchor]:
    """Places of a symbol that shows none: at its right side, one below the other."""
    x = plain.box.right + MODULE - plain.box.right % MODULE
    return {name: Anchor(x, row * PITCH, "right") for row, name in enumerate(names)}


def _plain_box(design: Design, part: Part) -> Symbol:
    """For a kind without a symbol: a box with the terminals it has, or that runs end at."""
    terminals = design.kind(part).terminals(design.values(part))
    left = [t.name for t in terminals if t.role in ("in", "both")]
    right = [t.name for t in terminals if t.role == "out"]
    foot = [t.name for t in terminals if t.role == "tie"]
    named = {*left, *right, *foot}
    for run in sorted(design.runs_at(part.id), key=lambda run: run.id):
        for end, side in ((run.b, left), (run.a, right)):
            if end.part == part.id and end.terminal not in named:
                side.append(end.terminal)
                named.add(end.terminal)
    return stretch.box(left, right, foot)
