"""How runs lie on the paper: orthogonal, out of the way of parts, set apart from each other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from linework.design import Design, Run
from linework.design import End as Joined
from linework.picture.geometry import MODULE, Box, Point, box_around
from linework.sheet.parts import End, PartDrawing, fork_key
from linework.sheet.routing.cutting import is_cut
from linework.sheet.routing.folding import (
    CUT_STUB,
    STUB,
    body_end,
    sign_box,
    stub,
    stub_box,
    stubs_aside,
)
from linework.sheet.routing.lanes import (
    VECTORS,
    Ground,
    Polyline,
    Track,
    Way,
    simplified,
    tracks_of,
)
from linework.sheet.routing.ways import cost_of, find_way

_CLEAR = 8
"""Between the ink of a part and a run that passes it; then outward to the grid."""
_TURNED = 3
"""A stub that turns aside has so many points."""
_LONGEST_EXIT = 40
"""So many grid steps a run may need to get out of the boxes its terminal lies in."""

Drawings = Mapping[str, PartDrawing]


def route(
    design: Design, run: Run, drawings: Drawings, others: Mapping[str, Polyline] | None = None
) -> Polyline:
    """The way of one run, from anchor to anchor.

    Leaves both terminals in their direction and keeps out of the boxes of parts
    of the same sheet. Bends that the user keeps (``Run.route``) are gone through
    as they are. ``others``: the ways of runs that lie already (by id); they are
    neither shared nor touched where that can be helped. Runs to another sheet
    are no matter of this function. KeyError if an end's part is not in ``drawings``.
    """
    folded = body_end(design, run)
    if folded is not None:
        return stub_of(design, drawings, run, folded, others)
    a, b = (
        run_end(design, drawings, run, run.a),
        run_end(design, drawings, run, run.b),
    )
    start, goal = exit_of(drawings, run.a.part, a), exit_of(drawings, run.b.part, b)
    if run.route:
        return _through(run.route, a, start, b, goal)
    ground = _ground(design, run, drawings, others or {})
    way = find_way(Way(start, a[2], goal, b[2]), ground)
    return simplified((a[:2], *way, b[:2]))


def routes(
    design: Design, drawings: Drawings, kept: Mapping[str, Polyline] | None = None
) -> dict[str, Polyline]:
    """The ways of all runs by id; short ones are laid first, ``kept`` ones stay as they are.

    Only runs of which both ends lie on one sheet, and in ``drawings``, are in the result.
    """
    bodies = {run.id for run in design.runs if body_end(design, run) is not None}
    found = {key: way for key, way in (kept or {}).items() if key not in bodies}
    here = [
        run for run in design.runs if is_drawn_here(design, run, drawings) and run.id not in found
    ]
    found = {key: way for key, way in found.items() if key in design}
    for run in sorted(here, key=lambda run: _order(design, run, drawings)):
        found[run.id] = route(design, run, drawings, found)
    return found


def stub_of(
    design: Design,
    drawings: Drawings,
    run: Run,
    body: Joined,
    others: Mapping[str, Polyline] | None = None,
) -> Polyline:
    """The way of a run to a body: a stub at its other end, from an arm of a fork outward.

    Aside where another run comes out of the same terminal, clear of parts and of ``others``.
    """
    end = run.a if body == run.b else run.b
    x, y, direction = run_end(design, drawings, run, end)
    main = end_of(drawings, end.part, end.terminal)
    if (x, y) != main[:2]:
        if VECTORS[direction][0]:
            direction = "down" if y >= main[1] else "up"
        else:
            direction = "right" if x >= main[0] else "left"
    at, long = (x, y, direction), CUT_STUB if is_cut(design, run) else STUB
    way = stub(at, long)
    if _goes_first(design, run, end):
        return way if end == run.a else way[::-1]
    aside = stubs_aside(at, exit_of(drawings, end.part, at), long)
    way = next((free for free in aside if _is_bare(free, end, drawings, others or {})), way)
    return way if end == run.a else way[::-1]


def _goes_first(design: Design, run: Run, end: Joined) -> bool:
    """Whether a stub has its terminal to itself: of stubs alone the first goes straight on."""
    arm = fork_key(design, run, end)
    return not any(
        other.id < run.id or body_end(design, other) is None
        for other in design.runs_at(end.part, end.terminal)
        if other.id != run.id and arm in _arms(design, other, end.part)
    )


def _is_bare(
    way: Polyline, end: Joined, drawings: Drawings, others: Mapping[str, Polyline]
) -> bool:
    """Whether nothing lies where the last piece of a stub would."""
    box, sheet = stub_box(way), drawings[end.part].sheet
    parts = (drawing.box for drawing in drawings.values() if drawing.sheet == sheet)
    laid = (box_around(piece).grown(1) for other in others.values() for piece in pairwise(other))
    return not any(box.overlaps(other) for other in (*parts, *laid))


def is_drawn_here(design: Design, run: Run, drawings: Drawings) -> bool:
    """Whether a run has a way on this sheet: between two parts of it, or a stub at one."""
    folded = body_end(design, run)
    if folded is None:
        return on_one_sheet(run, drawings)
    return (run.a if folded == run.b else run.b).part in drawings


def on_one_sheet(run: Run, drawings: Drawings) -> bool:
    """Whether both ends of a run are drawn, and on the same sheet."""
    a, b = drawings.get(run.a.part), drawings.get(run.b.part)
    return a is not None and b is not None and a.sheet == b.sheet


def connect(
    a: tuple[str, End],
    b: tuple[str, End],
    drawings: Drawings,
    others: Mapping[str, Polyline] | None = None,
) -> Polyline:
    """A way between two ends that no run joins, e.g. from a plug to an outlet it may go to.

    Each end: id of the part, and the point on the paper with its direction.
    """
    start, goal = exit_of(drawings, a[0], a[1]), exit_of(drawings, b[0], b[1])
    sheet = drawings[a[0]].sheet
    boxes = _keep_out(drawings, sheet, (start, goal))
    tracks = tuple(t for way in (others or {}).values() for t in tracks_of(way))
    way = find_way(Way(start, a[1][2], goal, b[1][2]), Ground(boxes, tracks))
    return simplified((a[1][:2], *way, b[1][:2]))


def way_to(
    design: Design,
    run: Run,
    here: Joined,
    goal: End,
    drawings: Drawings,
    others: Mapping[str, Polyline],
    taken: Sequence[Box] = (),
) -> tuple[Polyline, int]:
    """The way of a run from its end ``here`` to a point of the sheet, and what it costs.

    ``goal``: the point and where it faces; ``taken``: boxes to keep out of besides those of parts.
    """
    at = run_end(design, drawings, run, here)
    start = exit_of(drawings, here.part, at)
    ends = (start, goal[:2])
    parts = _keep_out(drawings, drawings[here.part].sheet, ends)
    boxes = (*parts, *_turned_stubs(design, others, ends), *taken)
    ahead = Way(start, at[2], goal[:2], goal[2])
    ground = Ground(boxes, _tracks(design, run, drawings, others))
    way = find_way(ahead, ground)
    return simplified((at[:2], *way)), cost_of(ahead, way, ground)


def end_of(drawings: Drawings, part_id: str, terminal: str) -> End:
    """Where a terminal lies; the middle of the right side where the symbol does not show it."""
    drawing = drawings[part_id]
    box = drawing.box
    return drawing.anchors.get(terminal, (box.right, box.center[1], "right"))


def run_end(design: Design, drawings: Drawings, run: Run, end: Joined) -> End:
    """Where a run ends at one of its parts: at its own arm where the terminal is forked."""
    key = fork_key(design, run, end)
    if key in drawings[end.part].anchors:
        return drawings[end.part].anchors[key]
    return end_of(drawings, end.part, end.terminal)


def exit_of(drawings: Drawings, part_id: str, end: End) -> Point:
    """The first grid point outside the part, and outside what it sits in, straight ahead."""
    boxes = [_kept_clear(box) for box in _own_boxes(drawings, part_id)]
    x, y, direction = end
    dx, dy = VECTORS[direction]
    x, y = x + dx * MODULE, y + dy * MODULE
    for _ in range(_LONGEST_EXIT):
        if not any(_inside(box, x, y) for box in boxes):
            break
        x, y = x + dx * MODULE, y + dy * MODULE
    return x, y


def _own_boxes(drawings: Drawings, part_id: str) -> Iterable[Box]:
    seen: set[str] = set()
    while part_id in drawings and part_id not in seen:
        seen.add(part_id)
        yield drawings[part_id].box
        part_id = drawings[part_id].host


def _inside(box: Box, x: int, y: int) -> bool:
    return box.left < x < box.right and box.top < y < box.bottom


def _kept_clear(box: Box) -> Box:
    """The box with its clearance, outward to the grid."""
    wide = box.grown(_CLEAR)
    return Box(
        wide.left // MODULE * MODULE,
        wide.top // MODULE * MODULE,
        -(-wide.right // MODULE) * MODULE,
        -(-wide.bottom // MODULE) * MODULE,
    )


def _keep_out(drawings: Drawings, sheet: int, ends: Sequence[Point]) -> tuple[Box, ...]:
    """The boxes of all parts of a sheet, but those in which an end of the run lies."""
    boxes = (_kept_clear(d.box) for d in drawings.values() if d.sheet == sheet)
    return tuple(box for box in boxes if not any(_inside(box, *end) for end in ends))


def _turned_stubs(
    design: Design, others: Mapping[str, Polyline], ends: Sequence[Point]
) -> list[Box]:
    """The signs at the ends of stubs that turn aside: a run from the same terminal may go along
    with a stub, but not over its sign."""
    found = []
    for run in design.runs:
        folded, way = body_end(design, run), others.get(run.id, ())
        if folded is not None and len(way) == _TURNED:
            box = _kept_clear(sign_box(way if folded == run.b else way[::-1]))
            if not any(_inside(box, *end) for end in ends):
                found.append(box)
    return found


def _ground(design: Design, run: Run, drawings: Drawings, others: Mapping[str, Polyline]) -> Ground:
    a, b = (
        run_end(design, drawings, run, run.a),
        run_end(design, drawings, run, run.b),
    )
    ends = exit_of(drawings, run.a.part, a), exit_of(drawings, run.b.part, b)
    sheet = drawings[run.a.part].sheet
    boxes = (*_keep_out(drawings, sheet, ends), *_turned_stubs(design, others, ends))
    return Ground(boxes, _tracks(design, run, drawings, others))


def _tracks(
    design: Design, run: Run, drawings: Drawings, others: Mapping[str, Polyline]
) -> tuple[Track, ...]:
    """What is laid already, and where what is not laid yet will come out."""
    kin = _kin(design, run)
    tracks = [
        track
        for key, way in others.items()
        if key != run.id
        for track in tracks_of(way, key in kin, key in kin and _is_either_cut(design, run, key))
    ]
    return (*tracks, *_exits_to_come(design, run, drawings, others))


def _is_either_cut(design: Design, run: Run, other_id: str) -> bool:
    other = design.get(other_id)
    return is_cut(design, run) or (isinstance(other, Run) and is_cut(design, other))


def _kin(design: Design, run: Run) -> set[str]:
    """The runs that end at a terminal of this one, at the same arm where it is forked."""
    found: set[str] = set()
    for end in (run.a, run.b):
        arm = fork_key(design, run, end)
        for other in design.runs_at(end.part, end.terminal):
            if arm in _arms(design, other, end.part):
                found.add(other.id)
    return found


def _arms(design: Design, run: Run, part_id: str) -> set[str]:
    """Where a run ends at a part."""
    return {fork_key(design, run, end) for end in (run.a, run.b) if end.part == part_id}


def _exits_to_come(
    design: Design, run: Run, drawings: Drawings, others: Mapping[str, Polyline]
) -> list[Track]:
    """The first pieces of runs that are not laid yet: nobody should turn where they come out."""
    mine = {(end.part, fork_key(design, run, end)) for end in (run.a, run.b)}
    found: list[Track] = []
    for other in design.runs:
        if other.id in others or other.id == run.id:
            continue
        for end in (other.a, other.b):
            if end == body_end(design, other):
                continue
            if end.part in drawings and (end.part, fork_key(design, other, end)) not in mine:
                at = run_end(design, drawings, other, end)
                found += tracks_of((at[:2], exit_of(drawings, end.part, at)))
    return found


def _order(design: Design, run: Run, drawings: Drawings) -> tuple[bool, int, str]:
    """Runs with bends of their own first, then the short ones, then by id."""
    if body_end(design, run) is not None:
        return False, 0, run.id
    a, b = (
        run_end(design, drawings, run, run.a),
        run_end(design, drawings, run, run.b),
    )
    return not run.route, abs(a[0] - b[0]) + abs(a[1] - b[1]), run.id


def _through(bends: Sequence[Point], a: End, start: Point, b: End, goal: Point) -> Polyline:
    """Through the user's bends, with a turn at each of them.

    Where the next point is not in line, a corner is put in: from the terminal straight on and
    then across, from a bend across first.
    """
    points: list[Point] = [a[:2]]
    level = VECTORS[a[2]][0] != 0
    if not _ahead(a, bends[0]):
        points.append(start)
    for number, point in enumerate(bends):
        points += [_corner(points[-1], point, level if number == 0 else not level), point]
        level = _is_level(points, level)
    if not _ahead(b, bends[-1]):
        points += [_corner(points[-1], goal, not level), goal]
    points.append(b[:2])
    return simplified(points)


def _ahead(end: End, point: Point) -> bool:
    """Whether a point lies straight ahead of a terminal."""
    dx, dy = VECTORS[end[2]]
    x, y = point[0] - end[0], point[1] - end[1]
    return x * dx + y * dy > 0 and x * dy == y * dx


def _is_level(points: Sequence[Point], before: bool) -> bool:
    """Whether the way runs level where it has come to; as before where it stands still."""
    for a, b in zip(reversed(points[:-1]), reversed(points), strict=False):
        if a != b:
            return a[1] == b[1]
    return before


def _corner(at: Point, to: Point, level: bool) -> Point:
    """The point between two others: level first and then upright, or the other way."""
    return (to[0], at[1]) if level else (at[0], to[1])
