"""Where writing goes: no label lies on another, on a symbol, or outside the frame.

Each label brings its wanted places in order; they are tried first clear of every line, too. Where
none is free, free room is looked for around the thing it belongs to, ever farther away, and
a thin line leads back. The same input gives the same places.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import chain

from linework.picture.geometry import MODULE, Box, Point, joined_boxes
from linework.sheet.lettering.texts import Block, Hung

_GAP, _ASIDE = 5, 12
"""Between two labels, or a label and a symbol, in tenths of a millimetre: over one another, and
side by side, where two would else read as one line."""
_OFF_LINES = 5
"""The least between writing and a line that is not its own."""
_CELL = 200
_NEAR = 20
"""So near a line may lead over a symbol to its label, rather than the label lie over a run."""
_STEP = 12
"""From point to point of a line that is looked along."""
_FAR = 60
"""So many rings of free places are tried clear of every line before one may be crossed."""
_LEADER_FROM = 70
"""Farther than this from its thing a label gets a line that leads to it."""

Option = tuple[Hung, ...]
"""One way of writing a label: one or several blocks, each at its place."""


@dataclass(frozen=True)
class Wanted:
    """A label that looks for a place.

    ``options``: wanted places, best first. ``shapes``: the forms in which it may be put
    anywhere around ``near`` where none of them is free, best first. ``rank``: lower ones are
    placed first. ``keep_off``: how far it stays from lines that are not its own, so that nobody
    takes it for theirs.
    """

    key: str
    options: tuple[Option, ...]
    near: Box
    shapes: tuple[Block, ...]
    rank: int = 0
    keep_off: int = 0
    body: tuple[Box, ...] = ()
    """All of the thing, where ``near`` is only its best place."""


@dataclass(frozen=True)
class Placed:
    """A label at its place. ``leader``: a line back to its thing, where it lies far from it."""

    key: str
    hung: Option
    boxes: tuple[Box, ...]
    leader: tuple[Point, Point] | None = None
    crosses: bool = False
    """Whether it lies over a line of the drawing, for want of free room."""


class _Cells:
    """Boxes with their owners, found again by where they lie."""

    def __init__(self) -> None:
        self._cells: dict[Point, list[tuple[Box, str]]] = defaultdict(list)

    def add(self, box: Box, owner: str = "") -> None:
        for cell in _cells(box):
            self._cells[cell].append((box, owner))

    def hit(self, box: Box, but: str = "") -> bool:
        return any(
            other.overlaps(box) and (not but or owner != but)
            for cell in _cells(box)
            for other, owner in self._cells.get(cell, ())
        )


def _cells(box: Box) -> Iterator[Point]:
    for column in range(box.left // _CELL, box.right // _CELL + 1):
        for row in range(box.top // _CELL, box.bottom // _CELL + 1):
            yield column, row


@dataclass
class Room:
    """What is taken on a sheet. ``frame``: nothing may leave it."""

    frame: Box
    solid: _Cells = field(default_factory=_Cells)
    lines: _Cells = field(default_factory=_Cells)

    def take(self, boxes: Iterable[Box], aside: int = _GAP) -> None:
        """Symbols, labels and flags: nothing else may lie there, nor nearer beside than this."""
        for box in boxes:
            wide = Box(box.left - aside, box.top - _GAP, box.right + aside, box.bottom + _GAP)
            self.solid.add(wide)

    def draw_through(self, boxes: Iterable[Box], owner: str = "") -> None:
        """Runs: writing keeps off them while it can. ``owner``: id of the run."""
        for box in boxes:
            self.lines.add(box, owner)

    def is_free(self, boxes: Sequence[Box]) -> bool:
        """Whether boxes lie inside the frame and on no symbol, label or flag."""
        return all(self.frame.contains(box) and not self.solid.hit(box) for box in boxes)

    def is_clear(self, boxes: Sequence[Box], keep_off: int = 0, own: str = "") -> bool:
        """Whether boxes are free, on no line, and ``keep_off`` from lines of another owner."""
        return self.is_free(boxes) and not any(
            self.lines.hit(box) or self.lines.hit(box.grown(max(keep_off, _OFF_LINES)), own)
            for box in boxes
        )

    def is_open(self, a: Point, b: Point) -> bool:
        """Whether a straight line from a thing to its label meets no symbol, label or flag."""
        steps = max(abs(a[0] - b[0]), abs(a[1] - b[1])) // _STEP
        return not any(
            self.solid.hit(Box(*at, *at).grown(1))
            for step in range(1, steps)
            for at in [(a[0] + (b[0] - a[0]) * step // steps, a[1] + (b[1] - a[1]) * step // steps)]
        )


def place(wanted: Iterable[Wanted], room: Room) -> tuple[tuple[Placed, ...], tuple[str, ...]]:
    """Every label at its place, and the keys of those for which the sheet has no room left.

    Places taken are taken in ``room``, too.
    """
    found: list[Placed] = []
    lost: list[str] = []
    for label in sorted(wanted, key=lambda item: (item.rank, item.key)):
        placed = _placed(label, room)
        if placed is None:
            lost.append(label.key)
            continue
        found.append(placed)
        room.take(placed.boxes, _ASIDE)
    return tuple(found), tuple(lost)


def _placed(label: Wanted, room: Room) -> Placed | None:
    body = label.body or (label.near,)
    for option in chain(label.options, _around(label, _FAR)):
        boxes = tuple(hung.box() for hung in option)
        if room.is_clear(boxes, label.keep_off, label.key):
            leader = _leader(body, boxes)
            if leader is None or room.is_open(*leader):
                return Placed(label.key, option, boxes, leader)
    for option in _around(label, _NEAR):
        boxes = tuple(hung.box() for hung in option)
        if room.is_clear(boxes, label.keep_off, label.key):
            return Placed(label.key, option, boxes, _leader(body, boxes))
    return _anywhere(label, room, body)


def _anywhere(label: Wanted, room: Room, body: Sequence[Box]) -> Placed | None:
    """Over lines, then wherever the sheet has room."""
    for option in chain(label.options, _around(label, _FAR), _everywhere(label, room.frame)):
        boxes = tuple(hung.box() for hung in option)
        if room.is_free(boxes):
            crosses = any(room.lines.hit(box) for box in boxes)
            return Placed(label.key, option, boxes, _leader(body, boxes), crosses)
    return None


def _around(label: Wanted, rings: int) -> Iterator[Option]:
    """Places around a thing, ring by ring: right, left, above and below, at three heights each."""
    near = label.near
    for ring in range(1, rings + 1):
        wide = near.grown(ring * MODULE)
        x, y = near.center
        for block in label.shapes:
            for at in (y, near.top, near.bottom):
                yield (Hung(block, wide.right, at, "start", "middle"),)
                yield (Hung(block, wide.left, at, "end", "middle"),)
            for at in (x, near.left, near.right):
                yield (Hung(block, at, wide.top, "middle", "base"),)
                yield (Hung(block, at, wide.bottom, "middle", "top"),)


def _everywhere(label: Wanted, frame: Box) -> Iterator[Option]:
    """Any free room of the sheet, from the top."""
    block = label.shapes[-1]
    for y in range(frame.top + MODULE, frame.bottom, 2 * MODULE):
        for x in range(frame.left + MODULE, frame.right, 2 * MODULE):
            yield (Hung(block, x, y),)


def _leader(body: Sequence[Box], boxes: Sequence[Box]) -> tuple[Point, Point] | None:
    """From the nearest point of the thing to the nearest point of a label that lies far off."""
    whole = joined_boxes(boxes)
    if whole is None or any(whole.overlaps(box.grown(_LEADER_FROM)) for box in body):
        return None
    near = min(body, key=lambda box: _distance(box, whole))
    ax, bx = _nearest(near.left, near.right, whole.left, whole.right)
    ay, by = _nearest(near.top, near.bottom, whole.top, whole.bottom)
    return (ax, ay), (bx, by)


def _distance(one: Box, other: Box) -> int:
    ax, bx = _nearest(one.left, one.right, other.left, other.right)
    ay, by = _nearest(one.top, one.bottom, other.top, other.bottom)
    return abs(ax - bx) + abs(ay - by)


def _nearest(low: int, high: int, other_low: int, other_high: int) -> tuple[int, int]:
    """The nearest figures of two spans."""
    if high < other_low:
        return high, other_low
    if other_high < low:
        return low, other_high
    middle = (max(low, other_low) + min(high, other_high)) // 2
    return middle, middle
