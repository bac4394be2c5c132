"""Nothing that was drawn is lost on paper: what lies off it is moved onto it.

A design from a file or from a program may have parts without a place, or beyond the edge of the
paper. Before it is printed a copy is made in which all lie inside the frame: the whole sheet is
shifted where it fits so; else what is off goes to the nearest free place, and where there is none
to another sheet.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import combinations

from linework.design import Design, Part, changed
from linework.design.change import Pair
from linework.design.names import natural
from linework.picture.geometry import MODULE, Box, joined_boxes
from linework.sheet.arranging import needs_arranging, place_new
from linework.sheet.frame import Frame, frame_of
from linework.sheet.laid import INSET
from linework.sheet.parts import draw_parts, seat_of

_APART = 50
"""So much is left free around what is put elsewhere: room for a name."""
_STEP = 2 * MODULE


@dataclass(frozen=True)
class _Unit:
    """A part with all that sits in it, as it lies on its sheet."""

    part: Part
    box: Box

    def moved(self, dx: int, dy: int) -> _Unit:
        part = replace(self.part, x=self.part.x + dx, y=self.part.y + dy)
        return _Unit(part, self.box.moved(dx, dy))


def on_paper(design: Design, paper: str = "") -> Design:
    """The design with every part inside the frame of its sheet; itself where all are.

    A design that was never drawn is laid out first, parts without a place are put beside what
    they are joined to. What is larger than the paper stays beyond its edge. PaperError for an
    unknown paper.
    """
    if needs_arranging(design):
        design = place_new(design)
    frame = frame_of(paper or design.settings.sheet)
    units = _units(design)
    numbers = sorted({unit.part.sheet for unit in units})
    if all(not _off([u for u in units if u.part.sheet == number], frame) for number in numbers):
        return design
    copy = design.snapshot()
    for number in numbers:
        here = [unit for unit in units if unit.part.sheet == number]
        if shift := _shift(here, frame):
            copy.apply(changed("", list(shifted(design, number, *shift))))
        elif _off(here, frame):
            copy.apply(changed("", list(_replaced(copy, here, frame))))
    return copy


def _units(design: Design) -> list[_Unit]:
    """Every part that does not sit in another, with the box around all that sits in it."""
    drawings = draw_parts(design, at_origin=False)
    boxes: dict[str, list[Box]] = {}
    for part in design.parts:
        host = part
        while (seat := seat_of(design, host)) is not None:
            host = design.part(seat.host)
        boxes.setdefault(host.id, []).append(drawings[part.id].whole)
    roots = sorted((design.part(key) for key in boxes), key=lambda p: natural(p.designation))
    return [_Unit(part, joined_boxes(boxes[part.id]) or Box(0, 0, 0, 0)) for part in roots]


def _off(units: list[_Unit], frame: Frame) -> list[_Unit]:
    """What lies off the paper or under the title block, and what lies right on something else."""
    off = [unit for unit in units if not _lies_in(unit.box, frame)]
    for one, other in combinations([unit for unit in units if unit not in off], 2):
        if (one.part.x, one.part.y) == (other.part.x, other.part.y):
            off.append(other)
    return off


def _lies_in(box: Box, frame: Frame) -> bool:
    return frame.area.contains(box) and not box.overlaps(frame.block)


def _shift(units: list[_Unit], frame: Frame) -> tuple[int, int] | None:
    """By how much a sheet is moved so that all lies inside; None where it need not or cannot be."""
    off = _off(units, frame)
    whole = joined_boxes(unit.box for unit in units)
    if not off or whole is None or all(_lies_in(unit.box, frame) for unit in units):
        return None
    area = frame.area.grown(-INSET - _APART)
    dx, dy = (
        _inward(whole.left, whole.right, area.left, area.right),
        _inward(whole.top, whole.bottom, area.top, area.bottom),
    )
    moved = [unit.moved(dx, dy) for unit in units]
    return None if _off(moved, frame) else (dx, dy)


def _inward(low: int, high: int, first: int, last: int) -> int:
    """How far a span is moved to lie in another, on the grid; toward the first end if too long."""
    if low < first:
        return _up(first - low)
    return (last - high) // MODULE * MODULE if high > last else 0


def shifted(design: Design, number: int, dx: int, dy: int) -> Iterator[Pair]:
    """All parts of a sheet, its notes and the bends of its runs, moved alike."""
    units = [unit for unit in _units(design) if unit.part.sheet == number]
    here = {unit.part.id for unit in units}
    for unit in units:
        yield unit.part, unit.moved(dx, dy).part
    for note in design.notes:
        if note.sheet == number:
            yield note, replace(note, x=note.x + dx, y=note.y + dy)
    for run in design.runs:
        if run.route and _root(design, run.a.part) in here and _root(design, run.b.part) in here:
            yield run, replace(run, route=tuple((x + dx, y + dy) for x, y in run.route))


def _root(design: Design, part_id: str) -> str:
    part = design.part(part_id)
    while (seat := seat_of(design, part)) is not None:
        part = design.part(seat.host)
    return part.id


def _replaced(design: Design, units: list[_Unit], frame: Frame) -> Iterator[Pair]:
    """What is off goes to the nearest free place of this or the first sheet that has one."""
    off = _off(units, frame)
    taken: dict[int, list[Box]] = {}
    for unit in _units(design):
        if all(unit.part.id != other.part.id for other in off):
            taken.setdefault(unit.part.sheet, []).append(unit.box)
    gone: set[str] = set()
    for unit in off:
        placed = _placed(unit, taken, frame)
        taken.setdefault(placed.part.sheet, []).append(placed.box)
        gone.add(unit.part.id)
        yield unit.part, placed.part
    for run in design.runs:
        ends = {_root(design, run.a.part), _root(design, run.b.part)}
        if run.route and ends & gone:
            yield run, replace(run, route=())


def _placed(unit: _Unit, taken: Mapping[int, list[Box]], frame: Frame) -> _Unit:
    """The unit where it finds room: on its sheet, another, or a new one."""
    own = unit.part.sheet
    last = max([own, *taken])
    for number in (own, *(n for n in sorted(taken) if n != own), last + 1):
        spots = sorted(_spots(unit.box, frame), key=lambda s: (abs(s[0]) + abs(s[1]), s))
        for dx, dy in spots:
            wide = unit.box.moved(dx, dy).grown(_APART)
            if not any(wide.overlaps(box) for box in taken.get(number, ())):
                moved = unit.moved(dx, dy)
                return replace(moved, part=replace(moved.part, sheet=number))
    area = frame.area
    moved = unit.moved(area.left + INSET - unit.box.left, area.top + INSET - unit.box.top)
    return replace(moved, part=replace(moved.part, sheet=last + 1))


def _spots(box: Box, frame: Frame) -> Iterator[tuple[int, int]]:
    """Every move on a coarse raster after which a box lies inside the frame."""
    area = frame.area.grown(-INSET - _APART)
    dx = _up(area.left - box.left)
    while box.right + dx <= area.right:
        dy = _up(area.top - box.top)
        while box.bottom + dy <= area.bottom:
            if _lies_in(box.moved(dx, dy).grown(_APART), frame):
                yield dx, dy
            dy += _STEP
        dx += _STEP


def _up(value: int) -> int:
    return -(-value // MODULE) * MODULE
