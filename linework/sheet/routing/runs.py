"""One run as it is drawn: its line with bows over what it crosses, ticks, letters, its writing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from linework.circuit.conductors import pole_size
from linework.design import Design, Run, pole_map
from linework.kinds import Values
from linework.picture import marks
from linework.picture.geometry import Box, Point, box_around
from linework.picture.inks import THIN, Ink, Pen
from linework.picture.measure import text_width
from linework.picture.model import Group, Item, Line, Polyline, Rect, Text
from linework.sheet.energised import RunLook, is_tie
from linework.sheet.lettering import SMALL, Block, Hung, Option, Span, Wanted
from linework.sheet.routing.lanes import Polyline as Way
from linework.words import say

_BOW = 12
_BESIDE = 16
"""Between a line and the writing beside it."""
_KEEP_OFF = 24
"""A run's writing stays so far from other runs."""
_MARK, _LETTER = 33, 20
"""Half of what a tick and a letter fill."""
_SLOT = 40
"""What a tick or letter needs of the line, and keeps off crossings."""
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


def joints(design: Design, ways: Mapping[str, Way]) -> tuple[Point, ...]:
    """Where runs that end at one terminal part from each other: a dot belongs there."""
    at: dict[tuple[str, str], list[Way]] = {}
    for run in sorted((run for run in design.runs if run.id in ways), key=lambda run: run.id):
        way = ways[run.id]
        at.setdefault((run.a.part, run.a.terminal), []).append(way)
        at.setdefault((run.b.part, run.b.terminal), []).append(way[::-1])
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
    design: Design, run: Run, way: Way, crossed: Sequence[Crossing], look: RunLook
) -> Group:
    """The run as a tagged group, in paper coordinates. ``crossed``: all crossings of the sheet."""
    items: list[Item] = list(_line(run.id, way, crossed, look.pen))
    tick, others = slots(run.id, way, crossed)
    if tick is not None:
        items.append(_tick(design, run, tick))
    items.extend(
        item
        for number, slot in enumerate(others if look.letters else ())
        for item in _letter(slot, look.letters[number % len(look.letters)].letter, look.pen.ink)
    )
    if design.run_values(run).pick("broken") not in ("", "none"):
        items.extend(_cut(way))
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
            items.append(Polyline((*piece, (x - step * _BOW, a[1])), pen=pen))
            items.extend(marks.jump(x, a[1], _BOW, pen))
            piece = [(x + step * _BOW, a[1])]
        piece.append(b)
    items.append(Polyline(tuple(piece), pen=pen))
    return items


def slots(
    run_id: str, way: Way, crossed: Sequence[Crossing]
) -> tuple[Slot | None, tuple[Slot, ...]]:
    """Where the tick goes, and where letters go: on the longest pieces, off crossings."""
    own = [(c.x, c.y) for c in crossed if run_id in (c.over, c.under)]
    pieces = sorted(pairwise(way), key=_worth, reverse=True)
    first, rest = pieces[0], pieces[1:]
    length = _length(first)
    tick = _slot(first, 0.35 if length < 400 else 140 / length, own)
    letters = [slot for share in _shares(length) if (slot := _slot(first, share, own))]
    for piece in rest:
        if _length(piece) >= _EVERY:
            letters += [slot for share in (0.5,) if (slot := _slot(piece, share, own))]
    return tick, tuple(slot for slot in letters if tick is None or _apart(slot, tick))


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


def _slot(piece: tuple[Point, Point], share: float, taken: Sequence[Point]) -> Slot | None:
    """The free place nearest to a share of the piece's length; None where there is none."""
    (ax, ay), (bx, by) = piece
    length = _length(piece)
    if length < 2 * _SLOT:
        return None
    wanted = share * length
    places = sorted(range(_SLOT - 8, length - _SLOT + 9, 5), key=lambda at: abs(at - wanted))
    for at in places:
        x, y = ax + (bx - ax) * at // length, ay + (by - ay) * at // length
        if all(abs(x - cx) + abs(y - cy) >= _SLOT for cx, cy in taken):
            return Slot(x, y, ay == by)
    return None


def _apart(one: Slot, other: Slot) -> bool:
    return abs(one.x - other.x) + abs(one.y - other.y) >= 60


def _tick(design: Design, run: Run, slot: Slot) -> Item:
    count = max(len(pole_map(design, run)), 1)
    sign = marks.ground_mark() if is_tie(design, run) and count == 1 else marks.ticks(count)
    return Group(sign, slot.x, slot.y, 0 if slot.level else 1)


def _letter(slot: Slot, letter: str, ink: Ink) -> tuple[Item, ...]:
    """The source's letter in a gap of the line."""
    width = text_width(letter, SMALL, bold=True) + 12
    height = SMALL + 10
    gap = Rect(slot.x - width // 2, slot.y - height // 2, width, height, pen=None, fill=Ink.PAPER)
    return gap, Text(slot.x, slot.y, letter, SMALL, "middle", "middle", bold=True, ink=ink)


def _cut(way: Way) -> tuple[Item, ...]:
    """Two strokes across a gap: a conductor of this run is cut."""
    piece = max(pairwise(way), key=_worth)
    (ax, ay), (bx, by) = piece
    x, y = ax + (bx - ax) * 6 // 10, ay + (by - ay) * 6 // 10
    pen = Pen(Ink.DANGER, THIN * 2)
    gap = Rect(x - 8, y - 8, 16, 16, pen=None, fill=Ink.PAPER)
    return (
        gap,
        Line(x - 20, y + 18, x - 2, y - 18, pen),
        Line(x + 2, y + 18, x + 20, y - 18, pen),
    )


# writing


def run_text(design: Design, run: Run) -> str:
    """Conductors, size and length: "3 × 10 AWG, 25 ft"."""
    values = design.run_values(run)
    sizes: dict[str, int] = {}
    for pole, _ in pole_map(design, run):
        size = pole_size(values, pole)
        sizes[size] = sizes.get(size, 0) + 1
    parts = [_sized(count, size) for size, count in sizes.items()]
    text = " + ".join(parts) if parts else say("no conductor")
    return f"{text}, {_length_text(values)}"


def _sized(count: int, size: str) -> str:
    shown = size.replace("mm2", "mm²") or say("[size not given]")
    return shown if count == 1 else say("{count} × {size}", count=count, size=shown)


def _length_text(values: Values) -> str:
    return values.text("length") or say("[length not given]")


def run_blocks(design: Design, run: Run) -> tuple[Block, ...]:
    """The writing of a run in one line, in two or in three: name, conductors, length, cuts."""
    values = design.run_values(run)
    text = run_text(design, run)
    ink = Ink.ASSUMED if "[" in text else Ink.INK
    name = (Span(run.designation, bold=True),) if run.designation else ()
    broken = values.pick("broken")
    tail = (
        ((Span(say("{pole} cut", pole=broken), bold=True, ink=Ink.DANGER),),)
        if broken not in ("", "none")
        else ()
    )
    head, _, length = text.rpartition(", ")
    one: Block = ((*name, Span(text, ink=ink)), *tail)
    two: Block = ((*name, Span(head, ink=ink)), (Span(length, ink=ink),), *tail)
    if not name:
        return one, two
    return one, two, (name, (Span(head, ink=ink),), (Span(length, ink=ink),), *tail)


def wanted_for_run(
    design: Design, run: Run, way: Way, crossed: Sequence[Crossing], rank: int
) -> Wanted:
    """The label of a run and the places it wants: over its tick, then elsewhere along the line."""
    blocks = run_blocks(design, run)
    tick, others = slots(run.id, way, crossed)
    pieces = sorted(pairwise(way), key=_worth, reverse=True)
    marked = [slot for slot in (tick, *others) if slot is not None]
    spots = [marked, *(_along(piece) for piece in pieces)]
    pairs = [(block, slot) for along in spots for block in blocks for slot in along]
    found = [_beside(block, slot) for block, slot in pairs]
    # Over all lines where that can be, so that the eye knows to which line writing belongs.
    options = [o for beside in found for o in beside[:1]] + [o for b in found for o in b[1:]]
    spot = tick or Slot(*_middle(pieces[0]), True)
    near = Box(spot.x, spot.y, spot.x, spot.y).grown(10)
    return Wanted(run.id, tuple(options), near, blocks, rank, _KEEP_OFF, way_boxes(way))


def _middle(piece: tuple[Point, Point]) -> Point:
    (ax, ay), (bx, by) = piece
    return (ax + bx) // 2, (ay + by) // 2


def _along(piece: tuple[Point, Point]) -> list[Slot]:
    (ax, ay), (bx, by) = piece
    return [
        Slot(ax + (bx - ax) * part // 16, ay + (by - ay) * part // 16, ay == by)
        for part in (8, 6, 10, 4, 12, 5, 11, 7, 9, 3, 13, 2, 14, 1, 15)
    ]


def _beside(block: Block, slot: Slot) -> list[Option]:
    """Above or below a level piece, right or left of an upright one; off the tick's strokes."""
    off = _BESIDE + 14
    if slot.level:
        return [
            (Hung(block, slot.x, slot.y - off, "middle", "base"),),
            (Hung(block, slot.x, slot.y + off, "middle", "top"),),
        ]
    return [
        (Hung(block, slot.x + off, slot.y, "start", "middle"),),
        (Hung(block, slot.x - off, slot.y, "end", "middle"),),
        (Hung(block, slot.x - off, slot.y, "middle", "base", upward=True),),
        (Hung(block, slot.x + off, slot.y, "middle", "top", upward=True),),
    ]


def mark_boxes(run_id: str, way: Way, crossed: Sequence[Crossing]) -> tuple[Box, ...]:
    """What the tick and the letters of a run fill beyond its line."""
    tick, letters = slots(run_id, way, crossed)
    found = [Box(tick.x, tick.y, tick.x, tick.y).grown(_MARK)] if tick else []
    found += [Box(slot.x, slot.y, slot.x, slot.y).grown(_LETTER) for slot in letters]
    return tuple(found)


def way_boxes(way: Way, by: int = 6) -> tuple[Box, ...]:
    """The straight pieces of a run as narrow boxes."""
    return tuple(box_around(piece).grown(by) for piece in pairwise(way))
