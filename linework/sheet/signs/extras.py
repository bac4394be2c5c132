"""What joins parts on the sheet besides runs: where plugs may go, interlocks, other sheets."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise, product
from typing import TYPE_CHECKING

from linework.circuit import plug_positions
from linework.design import Design, Interlock, Part, Run, Seat
from linework.picture.geometry import MODULE, Box, Point
from linework.picture.inks import MEDIUM, THIN, Dash, Ink, Pen
from linework.picture.measure import text_width
from linework.picture.model import Group, Item, Polyline, Text
from linework.picture.symbolfile import Direction
from linework.sheet.energised import Marks, look_of
from linework.sheet.lettering import SMALL
from linework.sheet.parts import End, PartDrawing, is_moved_by_hand, sheet_of
from linework.sheet.routing import VECTORS, Drawings, connect, end_of, exit_of, simplified
from linework.sheet.routing import Polyline as Way
from linework.words import N_, say

if TYPE_CHECKING:
    from linework.study.report import StateReport

_STEPS = (12, 10, 8, 6, 4, 3, 2, 14, 18)
"""Grid steps from a terminal to the sign of another sheet, best first."""
MAY = Pen(Ink.QUIET, THIN, Dash.DASHED)
_LOCK = Pen(Ink.INK, THIN, Dash.DASHED)


@dataclass(frozen=True)
class Tie:
    """A line that is no run: id of the seat or interlock, its way, how it is drawn."""

    id: str
    way: Way
    pen: Pen

    @property
    def group(self) -> Group:
        """The line as a tagged group."""
        return Group((Polyline(self.way, pen=self.pen),), tag=self.id)


# hand-moved plugs


def plug_ties(
    design: Design,
    drawings: Drawings,
    ways: Mapping[str, Way],
    state: StateReport | None,
    marks: Marks,
) -> tuple[Tie, ...]:
    """From each hand-moved plug to the outlets it may go to: dashed, or full where it is put in."""
    found: list[Tie] = []
    laid = dict(ways)
    for part in design.parts:
        if part.id not in drawings or not is_moved_by_hand(design, part):
            continue
        held = state.positions.get((part.id, "plug"), "") if state is not None else ""
        for label, seat in plug_positions(design, part.id).items():
            way = _plug_way(design, part, seat, drawings, laid)
            if way:
                laid[seat.id] = way
                found.append(Tie(seat.id, way, _plug_pen(part, label == held, state, marks)))
    return tuple(found)


def _plug_way(
    design: Design, part: Part, seat: Seat, drawings: Drawings, laid: Mapping[str, Way]
) -> Way:
    host, plug = drawings.get(seat.host), drawings[part.id]
    if host is None or host.sheet != plug.sheet or seat.place not in host.places:
        return ()
    pins = end_of(drawings, part.id, design.kind(part).seat)
    return connect((part.id, pins), (seat.host, host.places[seat.place]), drawings, laid)


def _plug_pen(part: Part, is_in: bool, state: StateReport | None, marks: Marks) -> Pen:
    if state is None or not is_in:
        return MAY
    return look_of(state.live.get((part.id, "pins"), ()), marks).pen


def elsewhere(design: Design, part: Part) -> tuple[tuple[str, str, int], ...]:
    """What a tie would lead to if it were not on another sheet: outlets to which a hand-moved plug
    may go, plugs that an outlet may take, what is interlocked.

    Each with the words to say it in, the designation, and the number of its sheet.
    """
    here = sheet_of(design, part)
    others = ((words, o.designation, sheet_of(design, o)) for words, o in _tied(design, part))
    return tuple(dict.fromkeys(other for other in others if other[2] != here))


def _tied(design: Design, part: Part) -> Iterator[tuple[str, Part]]:
    if is_moved_by_hand(design, part):
        hosts = (design.part(seat.host) for seat in design.seats_of(part.id))
        yield from ((_MAY_GO, host) for host in hosts)
    plugs = (design.part(seat.part) for seat in design.seated_in(part.id))
    yield from ((_MAY_TAKE, plug) for plug in plugs if is_moved_by_hand(design, plug))
    for lock in design.interlocks:
        members = _members(lock)
        if part.id in members:
            yield from ((_LOCKED, design.part(key)) for key in members if key != part.id)


_MAY_GO = N_("or to {part}, sheet {number}")
_MAY_TAKE = N_("or for {part}, sheet {number}")
_LOCKED = N_("interlocked with {part}, sheet {number}")


# interlocks


def interlock_ties(
    design: Design, drawings: Drawings, ways: Mapping[str, Way]
) -> tuple[tuple[Tie, str], ...]:
    """A dashed line between the parts of each interlock, with what is written at it."""
    found: list[tuple[Tie, str]] = []
    for lock in design.interlocks:
        boxes = [drawings[part] for part in _members(lock) if part in drawings]
        for one, other in pairwise(boxes):
            ends = _facing(one, other)
            way = connect((one.id, ends[0]), (other.id, ends[1]), drawings, ways)
            found.append((Tie(lock.id, way, _LOCK), lock.title or say("interlock")))
    return tuple(found)


def _members(lock: Interlock) -> tuple[str, ...]:
    return tuple(dict.fromkeys(part for part, _, _ in lock.excludes))


def _facing(one: PartDrawing, other: PartDrawing) -> tuple[End, End]:
    """The middles of the sides by which two symbols face each other."""
    (ax, ay), (bx, by) = one.box.center, other.box.center
    if one.box.bottom <= other.box.top:
        return (ax, one.box.bottom, "down"), (bx, other.box.top, "up")
    if other.box.bottom <= one.box.top:
        return (ax, one.box.top, "up"), (bx, other.box.bottom, "down")
    if ax <= bx:
        return (one.box.right, ay, "right"), (other.box.left, by, "left")
    return (one.box.left, ay, "left"), (other.box.right, by, "right")


# runs to other sheets


@dataclass(frozen=True)
class Reference:
    """The end of a run that goes on on another sheet: its way there, and the sign with its box."""

    run: str
    way: Way
    group: Group
    box: Box


def reference(
    run: Run, here: str, end: End, text: str, drawings: Drawings, area: Box, taken: list[Box]
) -> Reference | None:
    """The sign "sheet 2 B4: QT1" at the ``end`` of a run at ``here``, as near as ``area`` has room.

    Straight ahead of the terminal if it can be, else to a side; None where nothing is free there.
    """
    out = exit_of(drawings, here, end)
    sides = [end[2], *(side for side in VECTORS if VECTORS[side] not in _axis(end[2]))]
    for side, step in product(sides, _STEPS):
        dx, dy = VECTORS[side]
        at = (out[0] + dx * step * MODULE, out[1] + dy * step * MODULE)
        box, items = sign(at, side, text)
        if area.contains(box) and not any(box.overlaps(other) for other in taken):
            way = simplified((end[:2], out, at))
            return Reference(run.id, way, Group(items, tag=run.id), box)
    return None


def _axis(side: Direction) -> tuple[Point, Point]:
    """A direction and the one against it."""
    dx, dy = VECTORS[side]
    return (dx, dy), (-dx, -dy)


def sign(at: Point, direction: Direction, text: str) -> tuple[Box, tuple[Item, ...]]:
    """A box with a point where the run comes in, going in that direction."""
    x, y = at
    width, half = text_width(text, SMALL) + 30, 28
    pen = Pen(width=MEDIUM)
    if direction in ("right", "left"):
        turn = 1 if direction == "right" else -1
        far = x + turn * (width + 20)
        near = x + turn * 20
        shape = ((x, y), (near, y - half), (far, y - half), (far, y + half), (near, y + half))
        box = Box(min(x, far), y - half, max(x, far), y + half)
        middle = ((near + far) // 2, y)
    else:
        turn = 1 if direction == "down" else -1
        near, far = y + turn * 20, y + turn * (20 + 2 * half)
        wide = width // 2
        shape = ((x, y), (x - wide, near), (x - wide, far), (x + wide, far), (x + wide, near))
        box = Box(x - wide, min(y, far), x + wide, max(y, far))
        middle = (x, (near + far) // 2)
    outline = Polyline(shape, closed=True, pen=pen, fill=Ink.PAPER)
    return box, (outline, Text(*middle, text, SMALL, "middle", "middle"))
