"""Boxes and placings: integers in tenths of a paper millimetre, x to the right, y down."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

MODULE = 25
"""The grid on which symbols are drawn: 2.5 mm (IEC 60617, module M)."""

Point = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle; ``left`` <= ``right`` and ``top`` <= ``bottom``."""

    left: int
    top: int
    right: int
    bottom: int

    @property
    def width(self) -> int:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> int:
        """From top to bottom."""
        return self.bottom - self.top

    @property
    def center(self) -> Point:
        """The middle, rounded down."""
        return (self.left + self.right) // 2, (self.top + self.bottom) // 2

    def grown(self, by: int) -> Box:
        """The box with a margin on all four sides."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def moved(self, dx: int, dy: int) -> Box:
        """The box shifted."""
        return Box(self.left + dx, self.top + dy, self.right + dx, self.bottom + dy)

    def joined(self, other: Box) -> Box:
        """The smallest box around both."""
        return Box(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )

    def overlaps(self, other: Box) -> bool:
        """True if they share area; touching edges do not count."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def contains(self, other: Box) -> bool:
        """True if the other box lies wholly inside or on the edge."""
        return self.joined(other) == self

    def holds(self, x: int, y: int) -> bool:
        """True if the point lies inside or on the edge."""
        return self.left <= x <= self.right and self.top <= y <= self.bottom


def box_around(points: Iterable[Point]) -> Box:
    """The smallest box around the points; ValueError if there are none."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def joined_boxes(boxes: Iterable[Box]) -> Box | None:
    """The smallest box around all boxes; None if there are none."""
    whole: Box | None = None
    for box in boxes:
        whole = box if whole is None else whole.joined(box)
    return whole


@dataclass(frozen=True, slots=True)
class Placing:
    """First mirrored left to right, then turned clockwise by quarter turns, then moved."""

    x: int = 0
    y: int = 0
    turn: int = 0
    mirror: bool = False

    def vector(self, dx: int, dy: int) -> Point:
        """A direction after mirroring and turning."""
        if self.mirror:
            dx = -dx
        for _ in range(self.turn % 4):
            dx, dy = -dy, dx
        return dx, dy

    def point(self, x: int, y: int) -> Point:
        """Where a point comes to lie."""
        dx, dy = self.vector(x, y)
        return self.x + dx, self.y + dy

    def angle(self, degrees: int) -> int:
        """Where a direction in degrees (0 right, 90 down) comes to point."""
        mirrored = 180 - degrees if self.mirror else degrees
        return (mirrored + 90 * self.turn) % 360

    def after(self, outer: Placing) -> Placing:
        """This placing followed by the outer one."""
        x, y = outer.point(self.x, self.y)
        turn = outer.turn + (-self.turn if outer.mirror else self.turn)
        return Placing(x, y, turn % 4, self.mirror != outer.mirror)


HERE = Placing()
