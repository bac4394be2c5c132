"""Moves parts and notes: a ghost with its runs follows; one edit when it is let go."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from linework.bench.paper import edits
from linework.bench.paper.elbow import elbow
from linework.bench.paper.guides import guides
from linework.bench.paper.overlay import Figure
from linework.bench.paper.surface import Surface, snapped
from linework.bench.paper.targets import Target, onto_target, place_target, why_nowhere
from linework.bench.paper.tools.tool import Spot, Tool
from linework.design import Note, Part, Run
from linework.picture.geometry import Box, Point
from linework.picture.model import Group, Rect
from linework.sheet.parts import End as Drawn
from linework.sheet.parts import seat_of
from linework.sheet.routing import end_of
from linework.words import say

_SPOT = 30


class DragTool(Tool):
    """What was chosen when the drag began, on its way; ids are kept from the start."""

    def __init__(self, surface: Surface, start: Spot, element_ids: Iterable[str]) -> None:
        self._surface = surface
        self._start = start
        self._ids = tuple(element_ids)
        self._begun = False
        design = surface.design
        here = surface.layout.drawings
        parts = [p for key in self._ids if isinstance(p := design.get(key), Part) and key in here]
        self._alone = parts[0] if len(self._ids) == 1 and parts else None
        seated = self._alone is not None and seat_of(design, self._alone) is not None
        loose = self._ids if seated else edits.loose_parts(design, self._ids)
        self._seated = seated
        self._moved = frozenset(_with_guests(surface, (key for key in loose if key in here)))
        self._notes = [n for key in self._ids if isinstance(n := design.get(key), Note)]
        self._base = _origin(surface, loose, self._notes, start.at)

    # following

    def move(self, spot: Spot) -> None:
        """The ghost follows on the grid."""
        if not self._begun:
            self._begun = True
            self._surface.show_ghost(self._figures())
        dx, dy = self._shift(spot)
        self._surface.move_ghost(dx, dy)
        target = self._target(spot)
        self._show_target(target)
        moved = list(self._ends(dx, dy))
        drawings = self._surface.layout.drawings
        self._surface.show_lines(self._ways(dx, dy), guides(drawings, moved, self._moved))

    def _shift(self, spot: Spot) -> Point:
        """So far that what is dragged comes to lie on the grid."""
        x, y = self._base
        dx, dy = spot.x - self._start.x, spot.y - self._start.y
        return snapped(x + dx) - x, snapped(y + dy) - y

    def _figures(self) -> Iterator[Figure]:
        layout = self._surface.layout
        for key in sorted(self._moved):
            drawing = layout.drawings[key]
            yield Figure(drawing.group, drawing.x, drawing.y)
        for note in self._notes:
            for box in layout.items.get(note.id, ()):
                outline = Rect(box.left, box.top, box.width, box.height)
                yield Figure(Group((outline,)), 0, 0)

    def _ends(self, dx: int, dy: int) -> Iterator[Point]:
        for key in self._moved:
            for x, y, _ in self._surface.layout.drawings[key].anchors.values():
                yield x + dx, y + dy

    def _ways(self, dx: int, dy: int) -> list[tuple[Point, ...]]:
        """Plain elbows for the runs of what is moved."""
        surface = self._surface
        runs = {run.id: run for key in self._moved for run in surface.design.runs_at(key)}
        return [self._elbow(run, dx, dy) for run in runs.values() if run.id in surface.layout.ways]

    def _elbow(self, run: Run, dx: int, dy: int) -> tuple[Point, ...]:
        ends: list[Drawn] = []
        for end in (run.a, run.b):
            x, y, direction = end_of(self._surface.layout.drawings, end.part, end.terminal)
            off = (dx, dy) if end.part in self._moved else (0, 0)
            ends.append((x + off[0], y + off[1], direction))
        return elbow(ends[0], ends[1])

    # where to

    def _target(self, spot: Spot) -> Target | None:
        """A place for a single part that can sit in another."""
        part, design = self._alone, self._surface.design
        if part is None:
            return None
        kind = design.kind(part)
        if not kind.seat or (not self._seated and design.runs_at(part.id, kind.seat)):
            return None
        old = seat_of(design, part)

        def refuses(host: str, place: str) -> str:
            if old is not None and (old.host, old.place) == (host, place):
                return ""
            return edits.why_no_place(design, part.id, host, place)

        layout = self._surface.layout
        found = place_target(design, layout, spot.at, kind.roles, refuses, but=part.id)
        if found is None and not self._seated:
            found = onto_target(design, layout, part.id, spot.at)
        if found is None and (why := why_nowhere(design, layout, part.id, spot.at)):
            found = Target("place", *spot.at, refusal=why)
        return found

    def _show_target(self, target: Target | None) -> None:
        if target is None:
            self._surface.hint("")
            self._surface.show_field(None)
            return
        self._surface.hint(target.refusal or self._said(target))
        box = Box(target.x, target.y, target.x, target.y).grown(_SPOT)
        self._surface.show_field(None if target.refusal else box)

    def _said(self, target: Target) -> str:
        there = self._surface.design.part(target.element).designation
        if target.sort == "onto":
            return say("its free end into {host}", host=there)
        return say("into {host}, place {place}", host=there, place=target.place)

    # letting go

    def release(self, spot: Spot) -> None:
        """One edit, or none where it was only a click."""
        self._surface.clear()
        if not self._begun:
            return
        target, part = self._target(spot), self._alone
        if part is not None and target is not None:
            self._into_place(part, target)
        elif part is not None and self._seated:
            shift = self._shift(spot)
            at = self._base[0] + shift[0], self._base[1] + shift[1]
            self._surface.make(lambda: edits.take_out(self._surface.design, part.id, at))
        else:
            dx, dy = self._shift(spot)
            self._surface.make(lambda: edits.move(self._surface.design, self._ids, dx, dy))

    def _into_place(self, part: Part, target: Target) -> None:
        design = self._surface.design
        seats = {(seat.host, seat.place) for seat in design.seats_of(part.id)}
        if target.refusal:
            self._surface.refuse(target.refusal)
        elif target.sort == "onto":
            x, y, _ = self._surface.layout.drawings[part.id].places[target.place]
            by = snapped(target.x - x), snapped(target.y - y)
            self._surface.make(
                lambda: edits.put_onto(design, part.id, target.element, target.place, by)
            )
        elif (target.element, target.place) not in seats:
            self._surface.make(
                lambda: edits.move_to_place(design, part.id, target.element, target.place)
            )

    def cancel(self) -> None:
        """The ghost goes."""
        self._surface.clear()


def _with_guests(surface: Surface, part_ids: Iterable[str]) -> Iterator[str]:
    """Parts and everything on the sheet that sits in them."""
    ahead = list(part_ids)
    seen: set[str] = set()
    while ahead:
        part_id = ahead.pop()
        if part_id in seen:
            continue
        seen.add(part_id)
        yield part_id
        ahead += [d.id for d in surface.layout.drawings.values() if d.host == part_id]


def _origin(
    surface: Surface, part_ids: Iterable[str], notes: Iterable[Note], start: Point
) -> Point:
    """The origin of the first thing that is dragged: it is what comes to lie on the grid."""
    for key in part_ids:
        drawing = surface.layout.drawings.get(key)
        if drawing is not None:
            return drawing.x, drawing.y
    return next(((note.x, note.y) for note in notes), start)
