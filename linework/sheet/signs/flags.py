"""Numbered flags of findings: the levels differ by shape and sign, not by colour alone."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from linework.picture.geometry import Box, Point, joined_boxes
from linework.picture.inks import MEDIUM, THIN, WIDE, Ink, Pen
from linework.picture.measure import text_width
from linework.picture.model import Circle, Group, Item, Line, Link, Polyline, Target, Text
from linework.sheet.lettering import Room

if TYPE_CHECKING:
    from linework.findings.model import Finding

_HEIGHT, _STAFF, _POINT = 42, 14, 14
_TEXT = 29
_RINGS = 40
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
    return (*_staff(level), *_cloth_items(level, number, accepted, 0, 0))


def _staff(level: str) -> tuple[Item, ...]:
    ink = LOOKS[level].ink
    return (Line(0, 0, 0, -_STAFF - _HEIGHT, Pen(ink, WIDE)), Circle(0, 0, 5, pen=None, fill=ink))


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
    findings: Iterable[Finding], near: Mapping[str, Box], room: Room
) -> tuple[tuple[FlagDrawing, ...], tuple[int, ...]]:
    """A flag for every finding at its first subject that lies on this sheet.

    Flags of one subject hang on one staff. ``near``: boxes of parts and runs by id. ``room``: what
    is taken; the flags' boxes are taken in it, too. Also returns the numbers for which there was
    no room. A finding without a subject on the sheet has no flag here.
    """
    at: dict[str, list[Finding]] = {}
    for finding in findings:
        subject = next((key for key in finding.subjects if key in near), None)
        if subject is not None:
            at.setdefault(subject, []).append(finding)
    placed: list[FlagDrawing] = []
    lost: list[int] = []
    for subject, together in at.items():
        made = _placed(together, near[subject], room)
        placed += made
        room.take(flag.box for flag in made)
        if not made:
            lost += [finding.number for finding in together]
    return tuple(placed), tuple(lost)


def _placed(together: list[Finding], near: Box, room: Room) -> list[FlagDrawing]:
    """The flags of one subject on one staff, at the nearest place that is free."""
    hung = _hung(together)
    about = [box for _, _, box in hung]
    for is_free in (room.is_clear, room.is_free):
        for x, y in _feet(near, joined_boxes(about) or Box(0, 0, 0, 0)):
            if is_free([box.moved(x, y) for box in about]):
                return [
                    FlagDrawing(
                        finding.number,
                        _group(finding, offset, (x, y), near, box),
                        (x, y),
                        box.moved(x, y),
                    )
                    for finding, offset, box in hung
                ]
    return []


def _hung(together: list[Finding]) -> list[tuple[Finding, Point, Box]]:
    """Where each flag hangs from the foot of the staff, in rows from below, and its box there."""
    out: list[tuple[Finding, Point, Box]] = []
    right = 0
    for number, finding in enumerate(together):
        box = flag_box(finding.level.word, finding.number, not finding.open)
        if number % _IN_ROW == 0:
            right = 0
        up = number // _IN_ROW * (_HEIGHT + 6)
        offset = (right, -up)
        low = 6 if number == 0 else -_STAFF + 2
        cloth = Box(box.left + right, box.top - up, box.right + right, low - up)
        out.append((finding, offset, cloth))
        right += box.right + 8
    return out


def _feet(near: Box, about: Box) -> Iterable[Point]:
    """Where the staff may stand: over the subject, beside and under it, then farther off."""
    y = near.center[1]
    # Over the leads of what lies in a line.
    yield from ((near.right - 50, y - 12), (near.left + 2, y - 12))
    for ring in range(_RINGS):
        wide = near.grown(14 + 20 * ring)
        under = wide.bottom - about.top
        flush = max(near.left, near.right - about.right)
        yield from (
            (flush, wide.top),
            (near.left, wide.top),
            (wide.right, wide.top),
            (wide.right, y - about.top // 2),
            (wide.right, under),
            (near.left, under),
            (flush, under),
            (wide.left - about.right, wide.top),
            (wide.left - about.right, y - about.top // 2),
        )


def _group(finding: Finding, offset: Point, foot: Point, near: Box, box: Box) -> Group:
    dx, dy = offset
    level, accepted = finding.level.word, not finding.open
    items: list[Item] = []
    if offset == (0, 0):
        items += [*_led(finding, foot, near), *_staff(level)]
    items += _cloth_items(level, finding.number, accepted, dx, dy)
    name = f"flag-{finding.number}"
    items.append(Target(name, dx, dy - _STAFF - _HEIGHT))
    items.append(Link(f"finding-{finding.number}", box.left, box.top, box.width, box.height))
    return Group(tuple(items), *foot, tag=name)


def _led(finding: Finding, foot: Point, near: Box) -> list[Item]:
    """A thin line from the foot of the staff to a subject that is not close by."""
    x, y = foot
    nearest = (min(max(x, near.left), near.right), min(max(y, near.top), near.bottom))
    if abs(nearest[0] - x) + abs(nearest[1] - y) <= 30:
        return []
    pen = Pen(LOOKS[finding.level.word].ink, THIN)
    return [Line(0, 0, nearest[0] - x, nearest[1] - y, pen)]
