"""The sign of a cut conductor: two strokes across a gap of its line.

Its place is taken before anything is written, where no other line runs and nothing lies, so that
nobody takes another run for cut. Writing then keeps off it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from linework.design import Design, Run
from linework.picture.geometry import Box, Point
from linework.picture.inks import THIN, Ink, Pen
from linework.picture.model import Item, Line, Rect
from linework.sheet.lettering import OFF, TAG_HEIGHT, Room, tag_width
from linework.sheet.routing.lanes import Polyline as Way

_HALF = 23
"""Half of what the sign fills."""
_GAP = 8
"""Half of the gap in the line."""
_BESIDE = OFF + _HALF + 5
"""From the edge of a tag to the middle of the sign beside it."""
_STEP = 4
_PEN = Pen(Ink.DANGER, THIN * 2)


@dataclass(frozen=True, slots=True)
class CutSign:
    """The sign about ``x``, ``y``, on the line of its run."""

    x: int
    y: int

    @property
    def items(self) -> tuple[Item, ...]:
        """The gap, and a stroke at both sides of it."""
        x, y = self.x, self.y
        gap = Rect(x - _GAP, y - _GAP, 2 * _GAP, 2 * _GAP, pen=None, fill=Ink.PAPER)
        return (
            gap,
            Line(x - 20, y + 18, x - 2, y - 18, _PEN),
            Line(x + 2, y + 18, x + 20, y - 18, _PEN),
        )

    def box(self) -> Box:
        """Around all ink."""
        return Box(self.x, self.y, self.x, self.y).grown(_HALF)


def is_cut(design: Design, run: Run) -> bool:
    """Whether a conductor of a run is drawn as cut."""
    return design.run_values(run).pick("broken") not in ("", "none")


def cut_sign(run: Run, way: Way, room: Room) -> CutSign:
    """The sign at its place: where its line is alone, else off what is drawn but lines, else in
    the middle of the longest piece. Its tag finds room beside it where the line is long enough."""
    signs = [CutSign(*at) for piece in _pieces(run, way) for at in _along(run, piece)]
    alone = (sign for sign in signs if room.is_off_others(sign.box(), run.id))
    free = (sign for sign in signs if room.is_free([sign.box()]))
    found = next(alone, None) or next(free, None)
    return found or CutSign(*_middle(max(pairwise(way), key=_length)))


def _pieces(run: Run, way: Way) -> list[tuple[Point, Point]]:
    """The longest first of those that hold the tag besides; then the others, the shortest first,
    so that the tag keeps the longest."""
    pieces = sorted(pairwise(way), key=lambda piece: (-_worth(piece), piece[0]))
    beside = _BESIDE + _HALF
    both = [piece for piece in pieces if _length(piece) >= 2 * (_tag(run, piece) + beside)]
    return [*both, *(piece for piece in reversed(pieces) if piece not in both)]


def _tag(run: Run, piece: tuple[Point, Point]) -> int:
    """Half of what the tag of a run takes of a piece."""
    if piece[0][1] != piece[1][1]:
        return TAG_HEIGHT // 2
    return tag_width(run.designation) // 2


def _worth(piece: tuple[Point, Point]) -> float:
    return _length(piece) * (1.6 if piece[0][1] == piece[1][1] else 1.0)


def _length(piece: tuple[Point, Point]) -> int:
    (ax, ay), (bx, by) = piece
    return abs(ax - bx) + abs(ay - by)


def _middle(piece: tuple[Point, Point]) -> Point:
    (ax, ay), (bx, by) = piece
    return (ax + bx) // 2, (ay + by) // 2


def _along(run: Run, piece: tuple[Point, Point]) -> Iterator[Point]:
    """Places on a piece off its ends, behind a tag in its middle first, then ever further away."""
    (ax, ay), (bx, by) = piece
    length = _length(piece)
    best = length // 2 + _tag(run, piece) + _BESIDE
    places = range(_HALF, length - _HALF + 1, _STEP)
    for at in sorted(places, key=lambda at: abs(at - best)):
        yield ax + (bx - ax) * at // length, ay + (by - ay) * at // length
