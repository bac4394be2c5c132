"""How good a composition is, in figures: what lies on what, how long and how bent the runs are.

All of it is measured on the flattened picture, so that it holds for whatever drew it.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from itertools import combinations, pairwise

from linework.design import Design
from linework.picture.geometry import Box, Point
from linework.picture.inks import Ink
from linework.picture.measure import arc_points, box_of, text_box
from linework.picture.model import (
    Arc,
    Bezier,
    Circle,
    Flat,
    Group,
    Line,
    Polyline,
    Rect,
    Shape,
    Text,
    flatten,
)
from linework.sheet.compose import Composition
from linework.sheet.routing import crossings

TEXT_TO_LINE, TEXT_TO_TEXT = 6, 7
"""The least clearances, in tenths of a millimetre."""
IN_OUTLINE = 1
"""The least between writing and the outline of the tag or sign that it stands in."""
FAR = 30
"""Writing stands at most so far from what it belongs to."""

Stroke = tuple[float, float, float, float]


@dataclass
class Measures:
    """What was counted. Lengths in tenths of a millimetre."""

    overlaps: list[str] = field(default_factory=list)
    outside: list[str] = field(default_factory=list)
    erased: list[str] = field(default_factory=list)
    touching: list[str] = field(default_factory=list)
    through: list[str] = field(default_factory=list)
    far: list[str] = field(default_factory=list)
    short: int = 0
    """Labels that say less than they should for want of room."""
    lost: int = 0
    bends: int = 0
    crossings: int = 0
    length: int = 0
    clearance: float = math.inf
    """The least from any writing to a line."""


@dataclass(frozen=True)
class _Written:
    text: Text
    tag: str
    box: Box
    symbol: int
    """Number of the symbol in which it stands, -1 for none."""


@dataclass(frozen=True)
class _Drawn:
    strokes: tuple[Stroke, ...]
    half: float
    tag: str
    at: int
    """Its number in drawing order."""
    symbol: int
    field: Box | None
    """What it covers, where it is filled with paper or tint."""
    ink: Ink | None


def measured(design: Design, sheet: Composition) -> Measures:
    """All figures of one sheet."""
    found = Measures(short=sum(not label.whole for label in sheet.placed), lost=len(sheet.lost))
    body = [item for item in sheet.picture.items if isinstance(item, Group) and item.tag]
    flats: list[Flat] = []
    texts: list[_Written] = []
    drawn: list[_Drawn] = []
    for number, group in enumerate(body):
        symbol = number if _is_symbol(sheet, group) else -1
        for flat in flatten([group]):
            flats.append(flat)
            if isinstance(flat.item, Text):
                texts.append(_Written(flat.item, flat.tag, text_box(flat.item), symbol))
            elif made := _drawn(flat, len(flats), symbol):
                drawn.append(made)
    _overlaps(texts, _showing(drawn), found)
    _outside(sheet, flats, found)
    _erased(drawn, found)
    _runs(design, sheet, found)
    _far(sheet, found)
    return found


# writing


def _overlaps(texts: list[_Written], drawn: list[_Drawn], found: Measures) -> None:
    for one, other in combinations(texts, 2):
        if one.symbol >= 0 and other.symbol >= 0:
            continue
        if one.box.grown(TEXT_TO_TEXT - 1).overlaps(other.box) and not _one_line(one, other):
            found.overlaps.append(f"'{one.text.text}' on '{other.text.text}'")
    for text in texts:
        for shape in drawn:
            gap = _gap(text, shape)
            if text.symbol >= 0:
                # letters of a symbol: what lies over it is counted with it
                continue
            need = TEXT_TO_LINE
            if shape.ink is Ink.PAPER and shape.field and _holds(shape.field, text.box):
                need = IN_OUTLINE
            else:
                found.clearance = min(found.clearance, gap)
            if gap < need - 0.5:
                found.overlaps.append(f"'{text.text.text}' of {text.tag} on {shape.tag}: {gap:.1f}")


def _is_symbol(sheet: Composition, group: Group) -> bool:
    drawing = sheet.drawings.get(group.tag)
    return drawing is not None and group.items == drawing.group.items


def _one_line(one: _Written, other: _Written) -> bool:
    """Spans of one line are a word space apart, lines of one block a line."""
    return one.tag == other.tag and not one.box.overlaps(other.box)


def _gap(text: _Written, shape: _Drawn) -> float:
    """From writing to what shows of the strokes: not of what a field drawn later covers."""
    return min((_distance(text.box, stroke) - shape.half for stroke in shape.strokes), default=1e9)


def _distance(box: Box, stroke: Stroke) -> float:
    """From a box to a straight stroke; 0 where they meet."""
    x1, y1, x2, y2 = stroke
    best = math.inf
    steps = max(1, int(max(abs(x2 - x1), abs(y2 - y1)) // 3))
    if x1 == x2 or y1 == y2:
        steps = 0
        dx = max(box.left - max(x1, x2), min(x1, x2) - box.right, 0)
        dy = max(box.top - max(y1, y2), min(y1, y2) - box.bottom, 0)
        return math.hypot(dx, dy)
    for step in range(steps + 1):
        x, y = x1 + (x2 - x1) * step / steps, y1 + (y2 - y1) * step / steps
        dx, dy = max(box.left - x, x - box.right, 0), max(box.top - y, y - box.bottom, 0)
        best = min(best, math.hypot(dx, dy))
    return best


# strokes


def _drawn(flat: Flat, at: int, symbol: int) -> _Drawn | None:
    item = flat.item
    if not isinstance(item, Shape):
        return None
    pen = item.pen
    fill = None if isinstance(item, Line) else item.fill
    strokes = tuple(_strokes(item)) if pen is not None or fill not in (None, Ink.PAPER) else ()
    covers = box_of(item) if fill is not None else None
    half = pen.width / 20 if pen is not None else 0.0
    return _Drawn(strokes, half, flat.tag, at, symbol, covers, fill)


def _showing(drawn: list[_Drawn]) -> list[_Drawn]:
    """Level and upright strokes without what fields of paper that are drawn later cover."""
    fields = [shape for shape in drawn if shape.ink is Ink.PAPER and shape.field]
    found = []
    for shape in drawn:
        strokes = list(shape.strokes)
        for cover in fields:
            if cover.at > shape.at and cover.field is not None:
                strokes = [piece for stroke in strokes for piece in _cut(stroke, cover.field)]
        found.append(replace(shape, strokes=tuple(strokes)))
    return found


def _cut(stroke: Stroke, cover: Box) -> list[Stroke]:
    """What shows of a stroke on both sides of a field."""
    x1, y1, x2, y2 = stroke
    if y1 == y2 and cover.top < y1 < cover.bottom:
        low, high = min(x1, x2), max(x1, x2)
        spans = ((low, min(high, cover.left)), (max(low, cover.right), high))
        return [(a, y1, b, y2) for a, b in spans if a < b]
    if x1 == x2 and cover.left < x1 < cover.right:
        low, high = min(y1, y2), max(y1, y2)
        spans = ((low, min(high, cover.top)), (max(low, cover.bottom), high))
        return [(x1, a, x2, b) for a, b in spans if a < b]
    return [stroke]


def _strokes(item: Shape) -> Iterator[Stroke]:
    match item:
        case Line():
            yield (item.x1, item.y1, item.x2, item.y2)
        case Polyline():
            points = item.points + (item.points[:1] if item.closed else ())
            yield from ((*a, *b) for a, b in pairwise(points))
        case Rect():
            box = box_of(item)
            yield (box.left, box.top, box.right, box.top)
            yield (box.left, box.bottom, box.right, box.bottom)
            yield (box.left, box.top, box.left, box.bottom)
            yield (box.right, box.top, box.right, box.bottom)
        case Circle():
            yield from _pieces(Arc(item.x, item.y, item.r, item.r, 0, 360))
        case Arc():
            yield from _pieces(item)
        case Bezier():
            box = box_of(item)
            yield (box.left, box.top, box.right, box.bottom)


def _pieces(arc: Arc) -> Iterator[Stroke]:
    angles = [arc.start + arc.sweep * step / 24 for step in range(25)]
    yield from ((*a, *b) for a, b in pairwise(arc_points(arc, angles)))


def _holds(box: Box, inner: Box) -> bool:
    return box.grown(2).contains(inner)


# what is covered, what is outside


def _erased(drawn: list[_Drawn], found: Measures) -> None:
    """A field of paper over a stroke of something else, drawn before it; of symbols, ``through``
    tells."""
    fields = [
        shape for shape in drawn if shape.ink is Ink.PAPER and shape.field and shape.symbol < 0
    ]
    for shape in fields:
        assert shape.field is not None
        inner = shape.field.grown(-3)
        for other in drawn:
            under = other.at < shape.at and other.tag != shape.tag and other.field is None
            if under and any(_distance(inner, stroke) == 0 for stroke in other.strokes):
                found.erased.append(f"{shape.tag} covers {other.tag}")


def _outside(sheet: Composition, flats: Iterable[Flat], found: Measures) -> None:
    area, block = sheet.frame.area, sheet.frame.block
    for flat in flats:
        if not isinstance(flat.item, Text | Shape):
            continue
        box = box_of(flat.item)
        if not area.contains(box) or box.overlaps(block):
            found.outside.append(flat.tag)


# runs


def _runs(design: Design, sheet: Composition, found: Measures) -> None:
    ways = sheet.ways
    found.bends = sum(len(way) - 2 for way in ways.values())
    found.crossings = len(crossings(ways))
    found.length = sum(
        abs(ax - bx) + abs(ay - by) for way in ways.values() for (ax, ay), (bx, by) in pairwise(way)
    )
    ends = _ends(design)
    for one, other in combinations(sorted(ways), 2):
        if not ends[one] & ends[other] and _touch(ways[one], ways[other]):
            found.touching.append(f"{one} {other}")
    _through(design, sheet, found)


def _ends(design: Design) -> Mapping[str, set[tuple[str, str]]]:
    found: dict[str, set[tuple[str, str]]] = defaultdict(set)
    for run in design.runs:
        found[run.id] = {(run.a.part, run.a.terminal), (run.b.part, run.b.terminal)}
    return found


def _touch(one: tuple[Point, ...], other: tuple[Point, ...]) -> bool:
    """Whether two ways meet other than by a straight crossing."""
    for a, b in pairwise(one):
        for c, d in pairwise(other):
            if _meet(a, b, c, d):
                return True
    return False


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    left, right = max(min(a[0], b[0]), min(c[0], d[0])), min(max(a[0], b[0]), max(c[0], d[0]))
    top, bottom = max(min(a[1], b[1]), min(c[1], d[1])), min(max(a[1], b[1]), max(c[1], d[1]))
    if left > right or top > bottom:
        return False
    if (left, top) != (right, bottom):
        return True
    # one point: a crossing where it is the end of neither
    return (left, top) in (a, b, c, d)


def _through(design: Design, sheet: Composition, found: Measures) -> None:
    for run in design.runs:
        way = sheet.ways.get(run.id, ())
        own = _around(sheet, {run.a.part, run.b.part})
        for drawing in sheet.drawings.values():
            if drawing.id in own:
                continue
            inner = (drawing.box.grown(-1),)
            if any(inner[0].holds(*end) for end in (*way[:1], *way[-1:])):
                # a stub may end in the empty corner beside a fork, on none of its strokes
                inner = tuple(box.grown(-1) for box in drawing.solid)
            pieces = [(*a, *b) for a, b in pairwise(way)]
            if any(_distance(box, piece) == 0 for box in inner for piece in pieces):
                found.through.append(f"{run.id} through {drawing.id}")


def _around(sheet: Composition, parts: set[str]) -> set[str]:
    """Parts with all in which they sit."""
    found: set[str] = set()
    for part in parts:
        while part and part not in found:
            found.add(part)
            part = sheet.drawings[part].host if part in sheet.drawings else ""
    return found


def _far(sheet: Composition, found: Measures) -> None:
    for label in sheet.placed:
        boxes = sheet.items.get(label.key, ())
        own = [box for box in boxes if box not in label.boxes]
        if own and not any(box.grown(FAR + 1).overlaps(b) for box in own for b in label.boxes):
            found.far.append(label.key)
