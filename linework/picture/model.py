"""A drawing that knows no device: frozen shapes in tenths of a paper millimetre, y down.

Text height is the height of a capital letter (ISO 3098). Text never turns with the group it is
in, only its place does: letters in a symbol stay upright however the symbol lies.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from linework.picture.geometry import HERE, Placing, Point
from linework.picture.inks import PEN, Ink, Pen

Across = Literal["start", "middle", "end"]
"""Which point of the text lies at x."""
Level = Literal["base", "middle", "top"]
"""Which height of the text lies at y: base line, half the capitals, top of the capitals."""

Inks = tuple[tuple[Ink, Ink], ...]
"""Pairs of roles: the first is drawn as the second."""

_ACROSS: dict[Across, int] = {"start": 1, "middle": 0, "end": -1}
_LEVEL: dict[Level, int] = {"top": 1, "middle": 0, "base": -1}


@dataclass(frozen=True, slots=True)
class Line:
    """A straight stroke."""

    x1: int
    y1: int
    x2: int
    y2: int
    pen: Pen = PEN

    def placed(self, at: Placing) -> Line:
        """The same stroke after a placing."""
        return Line(*at.point(self.x1, self.y1), *at.point(self.x2, self.y2), self.pen)


@dataclass(frozen=True, slots=True)
class Polyline:
    """Straight strokes through points; ``closed`` returns to the first."""

    points: tuple[Point, ...]
    closed: bool = False
    pen: Pen | None = PEN
    fill: Ink | None = None

    def placed(self, at: Placing) -> Polyline:
        """The same strokes after a placing."""
        return replace(self, points=tuple(at.point(x, y) for x, y in self.points))


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle from its left upper corner; ``radius`` rounds the corners."""

    x: int
    y: int
    width: int
    height: int
    radius: int = 0
    pen: Pen | None = PEN
    fill: Ink | None = None

    def placed(self, at: Placing) -> Rect:
        """The same rectangle after a placing."""
        (ax, ay), (bx, by) = (
            at.point(self.x, self.y),
            at.point(self.x + self.width, self.y + self.height),
        )
        return replace(self, x=min(ax, bx), y=min(ay, by), width=abs(ax - bx), height=abs(ay - by))


@dataclass(frozen=True, slots=True)
class Circle:
    """A full circle about its middle."""

    x: int
    y: int
    r: int
    pen: Pen | None = PEN
    fill: Ink | None = None

    def placed(self, at: Placing) -> Circle:
        """The same circle after a placing."""
        x, y = at.point(self.x, self.y)
        return replace(self, x=x, y=y)


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of an ellipse: from ``start`` degrees over ``sweep`` (0 right, 90 down: clockwise)."""

    x: int
    y: int
    rx: int
    ry: int
    start: int
    sweep: int
    pen: Pen | None = PEN
    fill: Ink | None = None

    def placed(self, at: Placing) -> Arc:
        """The same arc after a placing."""
        x, y = at.point(self.x, self.y)
        rx, ry = (self.ry, self.rx) if at.turn % 2 else (self.rx, self.ry)
        sweep = -self.sweep if at.mirror else self.sweep
        return replace(self, x=x, y=y, rx=rx, ry=ry, start=at.angle(self.start), sweep=sweep)


@dataclass(frozen=True, slots=True)
class Bezier:
    """Cubic curves one after the other: a first point, then three points for each curve."""

    points: tuple[Point, ...]
    pen: Pen | None = PEN
    fill: Ink | None = None

    def placed(self, at: Placing) -> Bezier:
        """The same curves after a placing."""
        return replace(self, points=tuple(at.point(x, y) for x, y in self.points))


@dataclass(frozen=True, slots=True)
class Text:
    """One line of writing; ``upward`` writes from bottom to top, to be read from the right."""

    x: int
    y: int
    text: str
    height: int = 35
    across: Across = "start"
    level: Level = "base"
    bold: bool = False
    ink: Ink = Ink.INK
    upward: bool = False

    def placed(self, at: Placing) -> Text:
        """The same writing at its new place, still read from where it was read before."""
        x, y = at.point(self.x, self.y)
        across, level = turned_ends(self.across, self.level, at, self.upward)
        return replace(self, x=x, y=y, across=across, level=level)


def turned_ends(
    across: Across, level: Level, at: Placing, upward: bool = False
) -> tuple[Across, Level]:
    """By which end and height a text hangs when its place is turned but its letters are not."""
    dx, dy = _ACROSS[across], _LEVEL[level]
    if upward:
        dx, dy = at.vector(dy, -dx)
        dx, dy = -dy, dx
    else:
        dx, dy = at.vector(dx, dy)
    ends: dict[int, Across] = {1: "start", 0: "middle", -1: "end"}
    heights: dict[int, Level] = {1: "top", 0: "middle", -1: "base"}
    return ends[dx], heights[dy]


@dataclass(frozen=True, slots=True)
class Target:
    """A named place to which links lead; drawn as nothing. Names are unique in a document."""

    name: str
    x: int
    y: int

    def placed(self, at: Placing) -> Target:
        """The same name at its new place."""
        x, y = at.point(self.x, self.y)
        return replace(self, x=x, y=y)


@dataclass(frozen=True, slots=True)
class Link:
    """A field that leads to a target when it is clicked; drawn as nothing."""

    target: str
    x: int
    y: int
    width: int
    height: int

    def placed(self, at: Placing) -> Link:
        """The same field after a placing."""
        field = Rect(self.x, self.y, self.width, self.height).placed(at)
        return replace(self, x=field.x, y=field.y, width=field.width, height=field.height)


Shape = Line | Polyline | Rect | Circle | Arc | Bezier
Leaf = Shape | Text | Target | Link


@dataclass(frozen=True, slots=True)
class Group:
    """Items that are mirrored, turned and moved together.

    ``name``: what it shows; painters may keep a group with a name to draw it again. ``tag``: the
    element of the design that it stands for. ``inks``: pairs of roles, the first drawn as the
    second inside this group.
    """

    items: tuple[Item, ...]
    x: int = 0
    y: int = 0
    turn: int = 0
    mirror: bool = False
    name: str = ""
    tag: str = ""
    inks: Inks = ()

    @property
    def placing(self) -> Placing:
        """How the items lie in what the group is in."""
        return Placing(self.x, self.y, self.turn, self.mirror)


Item = Leaf | Group


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing of a given size; its origin is the left upper corner."""

    width: int
    height: int
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Flat:
    """One item at its final place, with the tag of the innermost tagged group around it."""

    item: Leaf
    tag: str


@dataclass(frozen=True, slots=True)
class Piece:
    """An item inside groups: how it lies in the drawing, its tag, and the roles exchanged."""

    item: Item
    at: Placing
    tag: str
    inks: Inks

    def flat(self) -> Flat:
        """The item at its final place, with its final inks. Only for what is not a group."""
        if isinstance(self.item, Group):
            raise TypeError("a group has no final place of its own; take its items")
        placed = self.item.placed(self.at)
        return Flat(with_inks(placed, dict(self.inks)) if self.inks else placed, self.tag)


def pieces(items: Iterable[Item], keep_named: bool = False) -> Iterator[Piece]:
    """All items in drawing order, groups dissolved; those with a name kept whole if wanted."""
    return _pieces(Piece(Group(tuple(items)), HERE, "", ()), keep_named)


def _pieces(piece: Piece, keep_named: bool) -> Iterator[Piece]:
    group = piece.item
    if not isinstance(group, Group) or (group.name and keep_named):
        yield piece
        return
    at, inks = group.placing.after(piece.at), joined_inks(group.inks, piece.inks)
    for item in group.items:
        yield from _pieces(Piece(item, at, group.tag or piece.tag, inks), keep_named)


def flatten(items: Iterable[Item]) -> Iterator[Flat]:
    """All leaves in drawing order at their final place."""
    return (piece.flat() for piece in pieces(items))


def joined_inks(inner: Inks, outer: Inks) -> Inks:
    """One exchange of roles that does what the inner and then the outer one do."""
    if not inner or not outer:
        return inner or outer
    after = dict(outer)
    joined = {ink: after.get(shown, shown) for ink, shown in inner}
    return tuple({**after, **joined}.items())


def with_inks(item: Leaf, inks: dict[Ink, Ink]) -> Leaf:
    """The item with roles exchanged; those not named stay."""
    if isinstance(item, Target | Link):
        return item
    if isinstance(item, Text):
        return replace(item, ink=inks.get(item.ink, item.ink))
    if isinstance(item, Line):
        return replace(item, pen=_inked(item.pen, inks))
    pen = item.pen and _inked(item.pen, inks)
    return replace(item, pen=pen, fill=item.fill and inks.get(item.fill, item.fill))


def _inked(pen: Pen, inks: dict[Ink, Ink]) -> Pen:
    return replace(pen, ink=inks.get(pen.ink, pen.ink))
