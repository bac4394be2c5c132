"""How plain a sheet is: bends, crossings, length and clearance of its lines, in figures."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import combinations, pairwise

from linework.design import Change, Design, Run, changed
from linework.picture.geometry import Box, box_around
from linework.sheet.frame import frame_of
from linework.sheet.parts import PartDrawing, draw_parts, sheet_numbers
from linework.sheet.routing import Polyline, crossings, joints, routes

Drawings = Mapping[str, PartDrawing]


@dataclass(frozen=True)
class Plainness:
    """Of all sheets of a design together; ground jumpers do not count as lines.

    ``bends``: corners but those at which lines of one terminal part. ``length``: of all lines, in
    millimetres. ``clearance``: the least between a line and a part at which it does not end, in
    millimetres. ``outside``: parts beyond the frame or on the title block. ``overlaps``: pairs of
    symbols on each other.
    """

    lines: int
    bends: int
    crossings: int
    length: int
    clearance: float
    sheets: int
    outside: int
    overlaps: int


def bare(design: Design) -> Design:
    """The design with the positions of all its parts and the bends of its runs taken away."""
    copy = design.snapshot()
    parts = [(p, replace(p, x=0, y=0, turn=0, mirror=False, sheet=1)) for p in design.parts]
    copy.apply(changed("", [*parts, *((run, replace(run, route=())) for run in design.runs)]))
    return copy


def without_jumpers(design: Design) -> Design:
    """The design without the runs that join to a body, an electrode or a ground terminal."""
    copy = design.snapshot()
    gone = {run.id: (run, None) for run in design.runs if _is_jumper(design, run)}
    copy.apply(Change("", gone))
    return copy


def _run(design: Design, key: str) -> Run:
    found = design.get(key)
    assert isinstance(found, Run)
    return found


def _is_jumper(design: Design, run: Run) -> bool:
    for end in (run.a, run.b):
        part = design.part(end.part)
        kind = design.kind(part)
        roles = {t.name: t.role for t in kind.terminals(design.values(part))}
        if kind.strip == "grounding" or roles.get(end.terminal) == "tie":
            return True
    return False


def plainness(design: Design) -> Plainness:
    """The figures of a design as it is laid."""
    every = draw_parts(design, at_origin=False)
    sheets = sheet_numbers(design)
    found = [_of_sheet(design, {k: d for k, d in every.items() if d.sheet == n}) for n in sheets]
    frame = frame_of(design.settings.sheet)
    return Plainness(
        lines=sum(one.lines for one in found),
        bends=sum(one.bends for one in found),
        crossings=sum(one.crossings for one in found),
        length=sum(one.length for one in found),
        clearance=min(one.clearance for one in found),
        sheets=len(sheets),
        outside=sum(
            not frame.area.contains(d.box) or d.box.overlaps(frame.block) for d in every.values()
        ),
        overlaps=sum(one.overlaps for one in found),
    )


def _of_sheet(design: Design, drawings: Drawings) -> Plainness:
    laid = routes(design, drawings)
    ways = {key: way for key, way in laid.items() if not _is_jumper(design, _run(design, key))}
    dots = set(joints(design, ways))
    return Plainness(
        lines=len(ways),
        bends=sum(len(set(way[1:-1]) - dots) for way in ways.values()),
        crossings=len(crossings(ways)),
        length=sum(_length(way) for way in ways.values()) // 10,
        clearance=min(_clearances(drawings, ways), default=1000.0) / 10,
        sheets=1,
        outside=0,
        overlaps=len(overlaps(drawings)),
    )


def overlaps(drawings: Drawings) -> list[tuple[str, str]]:
    """Symbols of one sheet that lie on each other, those that sit in one another aside."""
    return [
        (one.id, other.id)
        for one, other in combinations(drawings.values(), 2)
        if one.sheet == other.sheet
        and one.box.grown(-3).overlaps(other.box.grown(-3))
        and not _hosts(one.id, drawings) & _hosts(other.id, drawings)
    ]


def _hosts(key: str, drawings: Drawings) -> set[str]:
    found = set()
    while key in drawings and key not in found:
        found.add(key)
        key = drawings[key].host
    return found


def _length(way: Polyline) -> int:
    return sum(abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in pairwise(way))


def _clearances(drawings: Drawings, ways: Mapping[str, Polyline]) -> Iterable[float]:
    """Between each line and the parts at which it does not end."""
    tops = [drawing.box for drawing in drawings.values() if not drawing.host]
    for way in ways.values():
        for box in tops:
            if not any(box.grown(2).holds(*end) for end in (way[0], way[-1])):
                yield from (_apart(box_around(piece), box) for piece in pairwise(way))


def _apart(one: Box, other: Box) -> float:
    dx = max(one.left - other.right, other.left - one.right, 0)
    dy = max(one.top - other.bottom, other.top - one.bottom, 0)
    return float((dx * dx + dy * dy) ** 0.5)
