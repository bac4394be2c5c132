"""One run as it is drawn: its line with bows over what it crosses, letters of what feeds it."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from linework.design import Design, Run
from linework.picture import marks
from linework.picture.geometry import Box, Point, box_around
from linework.picture.inks import Ink, Pen
from linework.picture.measure import text_width
from linework.picture.model import Group, Item, Polyline, Rect, Text
from linework.sheet.energised import RunLook
from linework.sheet.lettering import SMALL
from linework.sheet.parts import fork_key
from linework.sheet.routing.cutting import CutSign
from linework.sheet.routing.folding import body_end, frame_sign
from linework.sheet.routing.lanes import Polyline as Way

BOW = 12
"""The radius of a bow over a line that is crossed."""
_LETTER = 20
"""Half of what a letter fills."""
_SLOT = 40
"""What a letter needs of the line, and keeps off crossings and its tag."""
_EVERY = 500
"""Letters are repeated along a line at about this distance."""


@dataclass(frozen=True, slots=True)
class Crossing:
    """Two runs cross without joining; ``over`` runs level and gets the bow."""

    x: int
    y: int
    over: str
    under: str


_Piece = tuple[str, Point, Point]
"""A straight piece with the id of its run."""


@dataclass(frozen=True, slots=True)
class Slot:
    """A place on a line for a mark."""

    x: int
    y: int
    level: bool


def crossings(ways: Mapping[str, Way]) -> tuple[Crossing, ...]:
    """Every point at which a level piece of one run crosses an upright piece of another."""
    level: list[_Piece] = []
    upright: list[_Piece] = []
    for key, way in ways.items():
        for a, b in pairwise(way):
            (level if a[1] == b[1] else upright).append((key, a, b))
    found = []
    for over, (ax, y), (bx, _) in level:
        for under, (x, ay), (_, by) in upright:
            if over != under and min(ax, bx) < x < max(ax, bx) and min(ay, by) < y < max(ay, by):
                found.append(Crossing(x, y, over, under))
    return tuple(sorted(found, key=lambda c: (c.over, c.y, c.x, c.under)))


def joints(
    design: Design, ways: Mapping[str, Way], here: Collection[str] | None = None
) -> tuple[Point, ...]:
    """Where runs that end at one terminal part from each other: a dot belongs there.

    ``here``: the parts that are drawn, where a run may go on on another sheet.
    """
    at: dict[tuple[str, str], list[Way]] = {}
    for run in sorted((run for run in design.runs if run.id in ways), key=lambda run: run.id):
        way, folded = ways[run.id], body_end(design, run)
        for end, from_there in ((run.a, way), (run.b, way[::-1])):
            if end != folded and (here is None or end.part in here):
                at.setdefault((end.part, fork_key(design, run, end)), []).append(from_there)
    found = {
        _parting(one, other) for together in at.values() for one, other in combinations(together, 2)
    }
    return tuple(sorted(found))


def _parting(one: Way, other: Way) -> Point:
    """The last point that two ways from one start have in common."""
    last = one[0]
    for (a, b), (_, d) in zip(pairwise(one), pairwise(other), strict=False):
        shared = _shared_end(a, b, d)
        if shared is None:
            return last
        last = shared
        if b != d:
            return last
    return last


def _shared_end(start: Point, b: Point, d: Point) -> Point | None:
    """How far two straight pieces from one point run together; None if they part at once."""
    for axis in (0, 1):
        other = 1 - axis
        if b[other] == d[other] == start[other]:
            one, two = b[axis] - start[axis], d[axis] - start[axis]
            if one * two > 0:
                return b if abs(one) <= abs(two) else d
    return None


def draw_run(
    design: Design,
    run: Run,
    way: Way,
    crossed: Sequence[Crossing],
    look: RunLook,
    taken: Sequence[Box] = (),
    cut: CutSign | None = None,
) -> Group:
    """The run as a tagged group, in paper coordinates.

    ``crossed``: all crossings of the sheet. ``taken``: its own writing, which letters keep off.
    ``cut``: the sign of a cut conductor at its place.
    """
    items: list[Item] = list(_line(run.id, way, crossed, look.pen))
    folded = body_end(design, run)
    if folded is not None:
        items.extend(frame_sign(way if folded == run.b else way[::-1]))
    kept_off = taken if cut is None else (*taken, cut.box())
    items.extend(
        item
        for number, slot in enumerate(slots(run.id, way, crossed, kept_off) if look.letters else ())
        for item in _letter(slot, look.letters[number % len(look.letters)].letter, look.pen.ink)
    )
    if cut is not None:
        items.extend(cut.items)
    return Group(tuple(items), tag=run.id)


def _line(run_id: str, way: Way, crossed: Sequence[Crossing], pen: Pen) -> list[Item]:
    """The polyline, opened and bowed where it runs level over another."""
    items: list[Item] = []
    piece: list[Point] = [way[0]]
    for a, b in pairwise(way):
        step = 1 if b[0] > a[0] else -1
        over = [
            c.x
            for c in crossed
            if c.over == run_id and a[1] == b[1] == c.y and min(a[0], b[0]) < c.x < max(a[0], b[0])
        ]
        for x in sorted(set(over), reverse=step < 0):
            items.append(Polyline((*piece, (x - step * BOW, a[1])), pen=pen))
            items.extend(marks.jump(x, a[1], BOW, pen))
            piece = [(x + step * BOW, a[1])]
        piece.append(b)
    items.append(Polyline(tuple(piece), pen=pen))
    return items


def slots(
    run_id: str, way: Way, crossed: Sequence[Crossing], taken: Sequence[Box] = ()
) -> tuple[Slot, ...]:
    """Where letters go: on the longest pieces, off crossings and off what is written there."""
    own = [(c.x, c.y) for c in crossed if run_id in (c.over, c.under)]
    first, *rest = sorted(pairwise(way), key=_worth, reverse=True)
    wanted = [(first, share) for share in _shares(_length(first))]
    wanted += [(piece, 0.5) for piece in rest if _length(piece) >= _EVERY]
    found = [slot for piece, share in wanted if (slot := _slot(piece, share, own, taken))]
    # one of them has to show, on whatever piece there is room
    spare = (slot for piece in rest if (slot := _slot(piece, 0.5, own, taken)))
    return tuple(dict.fromkeys(found)) or tuple(spare)[:1]


def _shares(length: int) -> list[float]:
    if length < 2 * _EVERY:
        return [0.72]
    count = length // _EVERY
    return [(number + 1) / (count + 1) for number in range(count)]


def _worth(piece: tuple[Point, Point]) -> tuple[float, Point]:
    level = piece[0][1] == piece[1][1]
    return _length(piece) * (1.6 if level else 1.0), piece[0]


def _length(piece: tuple[Point, Point]) -> int:
    (ax, ay), (bx, by) = piece
    return abs(ax - bx) + abs(ay - by)


def _slot(
    piece: tuple[Point, Point], share: float, own: Sequence[Point], taken: Sequence[Box]
) -> Slot | None:
    """The free place nearest to a share of the piece's length; None where there is none."""
    (ax, ay), (bx, by) = piece
    length = _length(piece)
    if length < 2 * _SLOT:
        return None
    places = sorted(
        range(_SLOT - 8, length - _SLOT + 9, 5), key=lambda at: abs(at - share * length)
    )
    for at in places:
        x, y = ax + (bx - ax) * at // length, ay + (by - ay) * at // length
        mine = Box(x, y, x, y).grown(_LETTER)
        if all(abs(x - cx) + abs(y - cy) >= _SLOT for cx, cy in own) and not any(
            mine.overlaps(box) for box in taken
        ):
            return Slot(x, y, ay == by)
    return None


def _letter(slot: Slot, letter: str, ink: Ink) -> tuple[Item, ...]:
    """The source's letter in a gap of the line."""
    width = text_width(letter, SMALL, bold=True) + 12
    height = SMALL + 10
    gap = Rect(slot.x - width // 2, slot.y - height // 2, width, height, pen=None, fill=Ink.PAPER)
    return gap, Text(slot.x, slot.y, letter, SMALL, "middle", "middle", bold=True, ink=ink)


def way_boxes(way: Way, by: int = 6) -> tuple[Box, ...]:
    """The straight pieces of a run as narrow boxes."""
    return tuple(box_around(piece).grown(by) for piece in pairwise(way))
