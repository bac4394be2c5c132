"""What lies at a point of the sheet, told from its layout, not from items."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from linework.bench.paper.pieces import FLAG
from linework.design import Design, End, Note, Part, Run
from linework.picture.geometry import Box, Point, box_around, joined_boxes
from linework.sheet.compose import Composition
from linework.sheet.parts import PartDrawing, seat_of

Sort = Literal["flag", "terminal", "part", "run", "note", "tie", "paper", "desk"]


@dataclass(frozen=True, slots=True)
class Hit:
    """What lies at a point.

    ``element``: id of the part, run, note, seat or interlock; "" on bare paper and beside it.
    ``terminal``: its name where a free terminal was met. ``number``: of a finding's flag.
    ``x``, ``y``: the point, in tenths of a paper millimetre.
    """

    sort: Sort
    x: int
    y: int
    element: str = ""
    terminal: str = ""
    number: int = 0

    @property
    def at(self) -> Point:
        """The point."""
        return self.x, self.y


def hit(design: Design, layout: Composition, at: Point, slop: int) -> Hit:
    """The topmost thing at a point; thin things are met within ``slop`` tenths of a millimetre."""
    x, y = at
    for key, boxes in layout.items.items():
        if key.startswith(FLAG) and any(box.holds(x, y) for box in boxes):
            return Hit("flag", x, y, number=int(key.removeprefix(FLAG)))
    end = terminal_near(design, layout, at, slop)
    if end is not None:
        return Hit("terminal", x, y, end.part, end.terminal)
    part = part_at(layout, at)
    run = run_near(layout, at, slop)
    if run and (not part or _is_field(layout, part)):
        return Hit("run", x, y, run)
    if part:
        return Hit("part", x, y, part)
    return _lesser(design, layout, at, slop)


def _lesser(design: Design, layout: Composition, at: Point, slop: int) -> Hit:
    """Writing, notes, lines that are no runs; then bare paper."""
    x, y = at
    for key, boxes in layout.items.items():
        element = design.get(key)
        reach = 0 if isinstance(element, Part | Note) else slop
        if element is not None and any(box.grown(reach).holds(x, y) for box in boxes):
            if isinstance(element, Part):
                return Hit("part", x, y, key)
            if isinstance(element, Run):
                return Hit("run", x, y, key)
            return Hit("note" if isinstance(element, Note) else "tie", x, y, key)
    on_paper = Box(0, 0, layout.frame.width, layout.frame.height).holds(x, y)
    return Hit("paper" if on_paper else "desk", x, y)


def _is_field(layout: Composition, part_id: str) -> bool:
    """Whether other parts sit inside this one's outline, so that runs may cross it."""
    return any(drawing.host == part_id for drawing in layout.drawings.values())


def part_at(layout: Composition, at: Point, reach: int = 0) -> str:
    """The smallest part whose symbol holds the point, "" for none."""
    found = [
        (drawing.box.width * drawing.box.height, drawing.id)
        for drawing in layout.drawings.values()
        if drawing.box.grown(reach).holds(*at)
    ]
    return min(found, default=(0, ""))[1]


def run_near(layout: Composition, at: Point, slop: int) -> str:
    """The nearest run within ``slop``, "" for none."""
    x, y = at
    found = [
        (_distance(way, at), key)
        for key, way in layout.ways.items()
        if any(box.grown(slop).holds(x, y) for box in layout.items.get(key, ()))
    ]
    distance, key = min(found, default=(slop + 1, ""))
    return key if distance <= slop else ""


def _distance(way: tuple[Point, ...], at: Point) -> int:
    x, y = at
    nearest = 10**9
    for a, b in pairwise(way):
        box = box_around((a, b))
        dx = max(box.left - x, 0, x - box.right)
        dy = max(box.top - y, 0, y - box.bottom)
        nearest = min(nearest, max(dx, dy))
    return nearest


def terminals(design: Design, drawings: Iterable[PartDrawing]) -> Iterator[tuple[End, Point]]:
    """Every terminal of some parts to which a run may be drawn, and where it lies.

    That by which a part sits in another is taken by its seat.
    """
    for drawing in drawings:
        part = design.get(drawing.id)
        if not isinstance(part, Part):
            continue
        hidden = design.kind(part).seat if seat_of(design, part) is not None else ""
        names = {terminal.name for terminal in design.kind(part).terminals(design.values(part))}
        for name, (x, y, _) in drawing.anchors.items():
            if name in names and name != hidden:
                yield End(part.id, name), (x, y)


def terminal_near(design: Design, layout: Composition, at: Point, slop: int) -> End | None:
    """The nearest terminal within ``slop``, None for none."""
    x, y = at
    near = [
        d
        for d in layout.drawings.values()
        if any(max(abs(x - ax), abs(y - ay)) <= slop for ax, ay, _ in d.anchors.values())
    ]
    found = [
        (max(abs(x - tx), abs(y - ty)), end.part, end.terminal)
        for end, (tx, ty) in terminals(design, near)
        if max(abs(x - tx), abs(y - ty)) <= slop
    ]
    if not found:
        return None
    _, part, terminal = min(found)
    return End(part, terminal)


def inside(design: Design, layout: Composition, band: Box) -> tuple[str, ...]:
    """The parts, runs and notes that lie wholly inside a box."""
    found = [d.id for d in layout.drawings.values() if band.contains(d.box)]
    found += [key for key, way in layout.ways.items() if band.contains(box_around(way))]
    for note in design.notes:
        boxes = layout.items.get(note.id, ())
        if boxes and all(band.contains(box) for box in boxes):
            found.append(note.id)
    return tuple(found)


def box_of(layout: Composition, element_id: str) -> Box | None:
    """The box around everything on the sheet that belongs to an element; None if it is not here."""
    return joined_boxes(layout.items.get(element_id, ()))
