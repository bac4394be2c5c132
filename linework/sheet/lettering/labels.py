"""Where writing goes: near what it belongs to, on no line, symbol or other label, in the frame.

Each label brings its wanted places in order, then forms in which it may be put anywhere within
reach of its thing. No line ever leads to a label: one that finds no place is written shorter,
and its last form, the name alone, farther off. The same input gives the same places.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Protocol

from linework.picture.geometry import Box, Point
from linework.picture.model import Item
from linework.sheet.lettering.tags import Tag
from linework.sheet.lettering.texts import Block, Hung

ASIDE, GAP = 12, 7
"""Free between two labels side by side, where they would else read as one line, and over one
another; in tenths of a millimetre."""
OFF = 6
"""The least between writing and a line or symbol."""
REACH = 30
"""So near to its thing all writing stands; only a name that finds no place there, farther off."""
_STEPS = (8, 14, 20, REACH)
_FAR_STEPS = tuple(range(40, 240, 20))
_CELL = 200


class Mark(Protocol):
    """Something that is written or drawn at a place: a block, a tag, a sign."""

    @property
    def items(self) -> tuple[Item, ...]:
        """What is drawn."""
        ...

    def box(self) -> Box:
        """Around all ink."""
        ...


Option = tuple[Mark, ...]
"""One way of writing a label: one or several blocks and tags, each at its place."""


@dataclass(frozen=True)
class Wanted:
    """A label that looks for a place.

    ``options``: wanted places, best first. ``shapes``: the forms in which it may be put around
    ``near`` where none of them is free, the fullest first. ``rank``: lower ones are placed first.
    ``keep_off``: how far it stays from lines that are not its own, so that nobody takes it for
    theirs. ``complete``: so many of the options say everything; the rest, and the shapes, less.
    -1: all options and the first shape do.
    """

    key: str
    options: tuple[Option, ...]
    near: Box
    shapes: tuple[Block, ...]
    rank: int = 0
    keep_off: int = 0
    complete: int = -1


@dataclass(frozen=True)
class Placed:
    """A label at its place. ``whole``: whether it says all that it should."""

    key: str
    hung: Option
    boxes: tuple[Box, ...]
    whole: bool = True


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

    def take(
        self, boxes: Iterable[Box], aside: int = OFF, over: int = OFF, owner: str = ""
    ) -> None:
        """Symbols, labels and flags: nothing else may lie there, nor nearer than this."""
        for box in boxes:
            left, top = box.left - aside, box.top - over
            self.solid.add(Box(left, top, box.right + aside, box.bottom + over), owner)

    def draw_through(self, boxes: Iterable[Box], owner: str = "") -> None:
        """Runs: writing keeps off them. ``owner``: id of the run."""
        for box in boxes:
            self.lines.add(box, owner)

    def is_free(self, boxes: Sequence[Box]) -> bool:
        """Whether boxes lie inside the frame and on no symbol, label or flag."""
        return all(self.frame.contains(box) and not self.solid.hit(box) for box in boxes)

    def is_clear(self, boxes: Sequence[Box], keep_off: int = 0, own: str = "") -> bool:
        """Whether boxes are free, on no line, and ``keep_off`` from lines of another owner."""
        return self.is_free(boxes) and not any(
            self.lines.hit(box.grown(OFF)) or self.lines.hit(box.grown(max(keep_off, OFF)), own)
            for box in boxes
        )

    def is_off_others(self, box: Box, own: str) -> bool:
        """Whether a box lies on nothing but what is drawn and written of its owner."""
        return self.frame.contains(box) and not any(
            cells.hit(box, own) for cells in (self.solid, self.lines)
        )

    def suits(self, option: Option, label: Wanted) -> bool:
        """Whether a label may be written so: a tag lies on its own line, all else on none."""
        for mark in option:
            box = mark.box()
            if isinstance(mark, Tag):
                if not self.is_free([box]) or self.lines.hit(box.grown(OFF), label.key):
                    return False
            elif not self.is_clear([box], label.keep_off, label.key):
                return False
        return True


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
        room.take(placed.boxes, ASIDE, GAP, label.key)
    return tuple(found), tuple(lost)


def _placed(label: Wanted, room: Room) -> Placed | None:
    for option, whole in _forms(label):
        if room.suits(option, label):
            return Placed(label.key, option, tuple(mark.box() for mark in option), whole)
    return None


def _forms(label: Wanted) -> Iterator[tuple[Option, bool]]:
    """Every way of writing a label, and whether it says everything."""
    all_say = label.complete < 0
    for number, option in enumerate(label.options):
        yield option, all_say or number < label.complete
    for number, option in _near(label):
        yield option, all_say and number == 0
    for option in _farther(label):
        yield option, False


def _near(label: Wanted) -> Iterator[tuple[int, Option]]:
    """All forms around a thing, the fullest first, each with its number."""
    for number, block in enumerate(label.shapes):
        for step in _STEPS:
            for hung in _ring(label.near.grown(step), block):
                yield number, (hung,)


def _farther(label: Wanted) -> Iterator[Option]:
    """The shortest form, farther off."""
    for step in _FAR_STEPS if label.shapes else ():
        for hung in _ring(label.near.grown(step), label.shapes[-1]):
            yield (hung,)


def _ring(wide: Box, block: Block) -> Iterator[Hung]:
    """At the four sides of a box: above and below at the left edge first, then along it."""
    x, y = wide.center
    for at, level in ((wide.top, "base"), (wide.bottom, "top")):
        yield Hung(block, wide.left, at, "start", level)  # type: ignore[arg-type]
        yield Hung(block, x, at, "middle", level)  # type: ignore[arg-type]
        yield Hung(block, wide.right, at, "end", level)  # type: ignore[arg-type]
        yield Hung(block, wide.right, at, "start", level)  # type: ignore[arg-type]
        yield Hung(block, wide.left, at, "end", level)  # type: ignore[arg-type]
    for at in (y, (wide.top + y) // 2, (wide.bottom + y) // 2):
        yield Hung(block, wide.right, at, "start", "middle")
        yield Hung(block, wide.left, at, "end", "middle")
