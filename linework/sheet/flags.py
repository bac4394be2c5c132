"""Numbered flags of findings: the levels differ by shape and letter, not by colour alone."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from linework.picture.geometry import Box, Point
from linework.picture.inks import MEDIUM, THIN, WIDE, Ink, Pen
from linework.picture.measure import text_width
from linework.picture.model import Circle, Group, Item, Line, Link, Polyline, Target, Text
from linework.sheet.labels import Room

if TYPE_CHECKING:
    from linework.findings.model import Finding

_HEIGHT, _STAFF, _POINT = 46, 30, 16
_TEXT = 29
_RINGS = 40


class Shape(Enum):
    """The outline of a flag's cloth."""

    FORKED = "forked"
    POINTED = "pointed"
    PLAIN = "plain"


@dataclass(frozen=True)
class Look:
    """How a level is shown."""

    letter: str
    ink: Ink
    shape: Shape
    filled: bool


LOOKS: Mapping[str, Look] = {
    "danger": Look("D", Ink.DANGER, Shape.FORKED, filled=True),
    "warning": Look("W", Ink.WARNING, Shape.POINTED, filled=True),
    "note": Look("N", Ink.NOTE, Shape.PLAIN, filled=False),
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
    look = LOOKS[level]
    sign = f"{look.letter}{number}"
    filled = look.filled and not accepted
    width = _width(sign)
    top = -_STAFF - _HEIGHT
    cloth = Polyline(
        _cloth(look.shape, width, top),
        closed=True,
        pen=Pen(look.ink, MEDIUM),
        fill=look.ink if filled else Ink.PAPER,
    )
    staff = Line(0, 0, 0, top, Pen(look.ink, WIDE))
    text = Text(
        12,
        top + _HEIGHT // 2,
        sign,
        _TEXT,
        "start",
        "middle",
        bold=True,
        ink=Ink.PAPER if filled else look.ink,
    )
    items: tuple[Item, ...] = (staff, cloth, text, Circle(0, 0, 5, pen=None, fill=look.ink))
    return (*items, *_tick(width, top, look.ink)) if accepted else items


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
    width = _width(f"{LOOKS[level].letter}{number}") + (32 if accepted else 0)
    return Box(-6, -_STAFF - _HEIGHT - 2, width + 2, 6)


def place_flags(
    findings: Iterable[Finding], near: Mapping[str, Box], room: Room
) -> tuple[tuple[FlagDrawing, ...], tuple[int, ...]]:
    """A flag for every finding at its first subject that lies on this sheet.

    ``near``: boxes of parts and runs by id. ``room``: what is taken; the flags' boxes are taken
    in it, too. Also returns the numbers for which there was no room. A finding without a
    subject on the sheet has no flag here.
    """
    placed: list[FlagDrawing] = []
    lost: list[int] = []
    for finding in findings:
        subject = next((key for key in finding.subjects if key in near), None)
        if subject is None:
            continue
        made = _placed(finding, near[subject], room)
        if made is None:
            lost.append(finding.number)
            continue
        placed.append(made)
        room.take([made.box])
    return tuple(placed), tuple(lost)


def _placed(finding: Finding, near: Box, room: Room) -> FlagDrawing | None:
    level, accepted = finding.level.word, not finding.open
    about = flag_box(level, finding.number, accepted)
    for over_lines in (False, True):
        for x, y in _feet(near):
            box = about.moved(x, y)
            if room.is_free([box], over_lines):
                return FlagDrawing(finding.number, _group(finding, x, y, near, box), (x, y), box)
    return None


def _feet(near: Box) -> Iterable[Point]:
    """Where the staff may stand: at the upper right corner, the other corners, then farther off."""
    for ring in range(_RINGS):
        wide = near.grown(6 + 20 * ring)
        x, y = near.center
        yield from (
            (wide.right, wide.top),
            (wide.left, wide.top),
            (x, wide.top),
            (wide.right, y),
            (wide.right, wide.bottom + 70),
            (wide.left, wide.bottom + 70),
            (x, wide.bottom + 70),
            (wide.left - 90, y),
        )


def _group(finding: Finding, x: int, y: int, near: Box, box: Box) -> Group:
    items: list[Item] = [*flag_items(finding.level.word, finding.number, not finding.open)]
    nearest = (min(max(x, near.left), near.right), min(max(y, near.top), near.bottom))
    if abs(nearest[0] - x) + abs(nearest[1] - y) > 30:
        ink = LOOKS[finding.level.word].ink
        items.insert(0, Line(0, 0, nearest[0] - x, nearest[1] - y, Pen(ink, THIN)))
    name = f"flag-{finding.number}"
    items.append(Target(name, 0, -_STAFF - _HEIGHT))
    items.append(
        Link(f"finding-{finding.number}", box.left - x, box.top - y, box.width, box.height)
    )
    return Group(tuple(items), x, y, tag=name)
