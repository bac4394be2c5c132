"""Numbered flags of findings: the levels differ by shape and sign, not by colour alone."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import Enum
from itertools import product
from typing import TYPE_CHECKING

from linework.picture.geometry import Box, Point
from linework.picture.inks import MEDIUM, WIDE, Ink, Pen
from linework.picture.measure import text_width
from linework.picture.model import Circle, Group, Item, Line, Link, Polyline, Target, Text
from linework.sheet.lettering import OFF, Room

if TYPE_CHECKING:
    from linework.findings.model import Finding

_HEIGHT, _STAFF, _POINT = 42, 14, 14
_TEXT = 25
_LIFTS = (0, 15, 30, 60, 90, 120)
"""So much longer a staff may be, to lift its flags over what lies at their foot."""
_IN_ROW = 3
"""So many flags hang side by side on one staff; the next ones over them."""


class Shape(Enum):
    """The outline of a flag's cloth."""

    FORKED = "forked"
    POINTED = "pointed"
    PLAIN = "plain"


@dataclass(frozen=True)
class Look:
    """How a level is shown."""

    mark: str
    ink: Ink
    shape: Shape
    filled: bool


LOOKS: Mapping[str, Look] = {
    "danger": Look(" !!", Ink.DANGER, Shape.FORKED, filled=True),
    "warning": Look(" !", Ink.WARNING, Shape.POINTED, filled=True),
    "note": Look("", Ink.NOTE, Shape.PLAIN, filled=False),
}


@dataclass(frozen=True)
class FlagDrawing:
    """A flag at its place: ``foot`` is the end of its staff, ``box`` around all of it."""

    number: int
    group: Group
    foot: Point
    box: Box


def flag_items(level: str, number: int, accepted: bool = False) -> tuple[Item, ...]:
    """A flag about the foot of its staff: forked for danger, pointed for warning, plain for note.

    ``level``: "danger", "warning" or "note" (KeyError otherwise). An accepted one is hollow
    with a tick, so that it is told from an open one without colour.
    """
    return (*_staff(level, 1), *_cloth_items(level, number, accepted, 0, 0))


def _staff(level: str, up: int, lift: int = 0) -> tuple[Item, ...]:
    """From the foot upward (1) or downward (-1), so much longer than it need be."""
    ink, end = LOOKS[level].ink, -up * (_STAFF + _HEIGHT + lift)
    return (Line(0, 0, 0, end, Pen(ink, WIDE)), Circle(0, 0, 5, pen=None, fill=ink))


def _cloth_items(level: str, number: int, accepted: bool, dx: int, dy: int) -> tuple[Item, ...]:
    """The cloth with its sign, moved from where it hangs on a staff of its own."""
    look = LOOKS[level]
    sign = _sign(level, number)
    filled = look.filled and not accepted
    width, top = _width(sign), dy - _STAFF - _HEIGHT
    outline = tuple((x + dx, y) for x, y in _cloth(look.shape, width, top))
    cloth = Polyline(
        outline, closed=True, pen=Pen(look.ink, MEDIUM), fill=look.ink if filled else Ink.PAPER
    )
    ink = Ink.PAPER if filled else look.ink
    middle = top + _HEIGHT // 2
    text = Text(dx + 12, middle, sign, _TEXT, "start", "middle", bold=True, ink=ink)
    return (cloth, text, *(_tick(dx + width, top, look.ink) if accepted else ()))


def _sign(level: str, number: int) -> str:
    """The finding's number, and how bad it is. No letter: letters belong to designations."""
    return f"{number}{LOOKS[level].mark}"


def _width(sign: str) -> int:
    return text_width(sign, _TEXT, bold=True) + 24 + _POINT


def _cloth(shape: Shape, width: int, top: int) -> tuple[Point, ...]:
    middle, foot = top + _HEIGHT // 2, top + _HEIGHT
    if shape is Shape.FORKED:
        return ((0, top), (width, top), (width - _POINT, middle), (width, foot), (0, foot))
    if shape is Shape.POINTED:
        return ((0, top), (width - _POINT, top), (width, middle), (width - _POINT, foot), (0, foot))
    return ((0, top), (width - _POINT, top), (width - _POINT, foot), (0, foot))


def _tick(width: int, top: int, ink: Ink) -> tuple[Item, ...]:
    """The mark of acceptance at the flag's free end."""
    x, y = width + 6, top + _HEIGHT // 2
    return (Polyline(((x, y), (x + 8, y + 12), (x + 24, y - 16)), pen=Pen(ink, WIDE)),)


def flag_box(level: str, number: int, accepted: bool = False) -> Box:
    """The box around a flag about the foot of its staff."""
    width = _width(_sign(level, number)) + (32 if accepted else 0)
    return Box(-6, -_STAFF - _HEIGHT - 2, width + 2, 6)


def place_flags(
    findings: Iterable[Finding],
    edges: Mapping[str, tuple[Box, ...]],
    room: Room,
    hosts: Mapping[str, str] | None = None,
) -> tuple[tuple[FlagDrawing, ...], tuple[int, ...]]:
    """A flag for every finding, its foot on the outline or the line of a subject on this sheet.

    Flags of one subject hang on one staff. ``edges``: strokes of parts and runs by id. ``room``:
    what is taken; the flags' boxes are taken in it, too. ``hosts``: in what a part sits; a flag
    for which there is no room at the part stands there. Also returns the numbers for which there
    was no room. A finding without a subject on the sheet has no flag here.
    """
    at: dict[str, list[Finding]] = {}
    for finding in findings:
        subject = next((key for key in finding.subjects if key in edges), None)
        if subject is not None:
            at.setdefault(subject, []).append(finding)
    placed: list[FlagDrawing] = []
    lost: list[int] = []
    for subject, together in at.items():
        made = _placed(together, subject, edges, room)
        for finding in together if not made else ():
            one = _alone(finding, edges, room, hosts or {})
            placed += one
            lost += [] if one else [finding.number]
        placed += made
    return tuple(placed), tuple(lost)


def _alone(
    finding: Finding, edges: Mapping[str, tuple[Box, ...]], room: Room, hosts: Mapping[str, str]
) -> list[FlagDrawing]:
    """One flag at any subject of its finding, or at what that sits in."""
    subjects = [key for key in finding.subjects if key in edges]
    around = [hosts[key] for key in subjects if hosts.get(key) in edges]
    for subject in (*subjects, *around):
        made = _placed([finding], subject, edges, room)
        if made:
            return made
    return []


def _placed(
    together: list[Finding], subject: str, edges: Mapping[str, tuple[Box, ...]], room: Room
) -> list[FlagDrawing]:
    """The flags of one subject on one staff, at the first place on its outline that is free."""
    for lift, up, back in product(_LIFTS, (1, -1), (False, True)):
        hung = _hung(together, up, back, lift)
        staff = Box(-2, -_STAFF - lift, 2, -_STAFF) if up > 0 else Box(-2, _STAFF, 2, _STAFF + lift)
        about = [*(box for _, _, box in hung), *([staff] if lift else [])]
        for x, y in _feet(edges[subject], up):
            boxes = [box.moved(x, y) for box in about]
            if room.is_free(boxes) and not any(
                room.lines.hit(box.grown(OFF), subject) for box in boxes
            ):
                room.take(boxes)
                return [
                    FlagDrawing(
                        finding.number,
                        _group(finding, offset, (x, y), box, _staff_of(finding, up, lift, n)),
                        (x, y),
                        at,
                    )
                    for n, ((finding, offset, box), at) in enumerate(zip(hung, boxes, strict=False))
                ]
    return []


def _staff_of(finding: Finding, up: int, lift: int, number: int) -> tuple[Item, ...]:
    """The staff belongs to the first flag on it."""
    return () if number else _staff(finding.level.word, up, lift)


def _hung(
    together: list[Finding], up: int, back: bool, lift: int
) -> list[tuple[Finding, Point, Box]]:
    """Where each flag hangs from the foot of the staff, in rows, and the box of its cloth there.

    ``back``: to the left of the staff.
    """
    out: list[tuple[Finding, Point, Box]] = []
    rows = [together[at : at + _IN_ROW] for at in range(0, len(together), _IN_ROW)]
    for number, row in enumerate(rows):
        boxes = [flag_box(f.level.word, f.number, not f.open) for f in row]
        whole = sum(box.right + 8 for box in boxes) - 8
        right = -whole if back else 0
        high = lift + number * (_HEIGHT + 6)
        down = -high if up > 0 else high + 2 * _STAFF + _HEIGHT
        for finding, box in zip(row, boxes, strict=True):
            cloth = Box(right, box.top + down, box.right + right, down - _STAFF + 2)
            out.append((finding, (right, down), cloth))
            right += box.right + 8
    return out


def _feet(edges: tuple[Box, ...], up: int) -> Iterable[Point]:
    """Points on strokes: on the upper (or lower) edge of each, its middle first."""
    ordered = sorted(edges, key=lambda box: (up * box.top, -box.width, box.left))
    for share in (8, 5, 11, 3, 13, 1, 15, 6, 10, 2, 14):
        for box in ordered:
            if box.width:
                yield box.left + box.width * share // 16, box.top if up > 0 else box.bottom
            else:
                yield box.left, box.top + box.height * share // 16


def _group(
    finding: Finding, offset: Point, foot: Point, box: Box, staff: tuple[Item, ...]
) -> Group:
    dx, dy = offset
    level, accepted = finding.level.word, not finding.open
    items: list[Item] = [*staff, *_cloth_items(level, finding.number, accepted, dx, dy)]
    name = f"flag-{finding.number}"
    items.append(Target(name, dx, dy - _STAFF - _HEIGHT))
    items.append(Link(f"finding-{finding.number}", box.left, box.top, box.width, box.height))
    return Group(tuple(items), *foot, tag=name)
