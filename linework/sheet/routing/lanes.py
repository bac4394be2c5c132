"""What lies on the paper already, and what it costs to meet it: boxes, tracks, prices.

Knows nothing of parts and runs. Lengths and prices are tenths of a millimetre.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from linework.picture.geometry import Box, Point
from linework.picture.symbolfile import Direction

Polyline = tuple[Point, ...]

VECTORS: dict[Direction, Point] = {"right": (1, 0), "down": (0, 1), "left": (-1, 0), "up": (0, -1)}

BEND = 60
"""A bend costs as much as this length."""
CROSS = 90
PLAIN = 400
"""A plain way that costs less than this on top of its length is taken as it is."""
TOUCH = 4000
"""Lines of different circuits that meet would be read as joined: any detour is better."""
SHARE = 6000
"""Lying on a track that is already there: the length is paid three times on top of it."""
TEE = 30
"""To join or to leave a run that ends at the same terminal: a dot is drawn there, no corner."""
KIN_SIDE, KIN_SHARE = 55, 5
"""To come to such a run from a side, or to leave it, twice for a crossing; the share of its length
that is paid for going along with it."""
APART = 3
"""So many times its length, where one of both is cut and nobody could tell which."""
BLOCKED = 100_000


@dataclass(frozen=True, slots=True)
class Track:
    """A straight piece that is already laid, ``low`` < ``high`` along its line."""

    level: bool
    """Whether it runs from left to right."""
    line: int
    low: int
    high: int
    kin: bool = False
    """Whether it belongs to a run that ends at a terminal of the one that is laid."""
    apart: bool = False
    """Whether such a run should go along with it no farther than it must: one of both is cut."""

    def shared(self, length: int) -> int:
        """What it costs a run of the same terminal to go along with it."""
        return APART * length if self.apart else length // KIN_SHARE


@dataclass(frozen=True)
class Ground:
    """What lies on the paper already: boxes to keep out of, tracks not to share."""

    boxes: tuple[Box, ...]
    tracks: tuple[Track, ...] = ()

    def near(self, window: Box) -> Ground:
        """Only what lies in the window."""
        return Ground(
            tuple(box for box in self.boxes if box.overlaps(window)),
            tuple(track for track in self.tracks if _track_box(track).overlaps(window)),
        )


def _track_box(track: Track) -> Box:
    if track.level:
        return Box(track.low, track.line - 1, track.high, track.line + 1)
    return Box(track.line - 1, track.low, track.line + 1, track.high)


def tracks_of(points: Polyline, kin: bool = False, apart: bool = False) -> tuple[Track, ...]:
    """The straight pieces of a polyline."""
    found = []
    for (ax, ay), (bx, by) in pairwise(points):
        if ay == by and ax != bx:
            found.append(Track(True, ay, min(ax, bx), max(ax, bx), kin, apart))
        elif ax == bx and ay != by:
            found.append(Track(False, ax, min(ay, by), max(ay, by), kin, apart))
    return tuple(found)


def simplified(points: Iterable[Point]) -> Polyline:
    """The same way without doubled points and without points in the middle of a straight piece."""
    out: list[Point] = []
    for point in points:
        if out and point == out[-1]:
            continue
        while len(out) > 1 and _in_line(out[-2], out[-1], point):
            out.pop()
        out.append(point)
    return tuple(out)


def _in_line(a: Point, b: Point, c: Point) -> bool:
    return (a[0] == b[0] == c[0]) or (a[1] == b[1] == c[1])


@dataclass(frozen=True, slots=True)
class Way:
    """From ``start`` leaving in ``leaves`` to ``goal``, whose terminal points in ``faces``."""

    start: Point
    leaves: Direction
    goal: Point
    faces: Direction
