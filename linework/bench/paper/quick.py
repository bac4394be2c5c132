"""What a change alters at once: the parts it touches and their runs, nothing else.

Cheap, so that the hand never waits. Writing whose thing was changed is left out, runs cross
without bows; all that comes when the sheet is laid out from scratch, as soon as the hand rests.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from linework.bench.paper.pieces import Layer, Piece
from linework.design import Change, Design, Part, Run, Seat
from linework.picture.geometry import Box
from linework.picture.inks import Ink
from linework.picture.marks import junction
from linework.picture.model import Group
from linework.sheet.compose import Composition
from linework.sheet.energised import Marks, ink_of_part, look_of_run
from linework.sheet.parts import PartDrawing, draw_part
from linework.sheet.routing import Polyline, draw_run, is_drawn_here, joints, route, way_boxes

if TYPE_CHECKING:
    from linework.study.report import StateReport

Pieces = dict[str, Piece]
_Boxes = dict[str, tuple[Box, ...]]


@dataclass
class Patch:
    """A sheet as it was laid out last, brought up to a change.

    ``state`` and ``marks``: what is shown as live, None and empty for the bare drawing.
    """

    design: Design
    layout: Composition
    pieces: Pieces
    sheet: int
    state: StateReport | None = None
    marks: Marks = field(default_factory=dict)

    def patched(self, change: Change) -> tuple[Composition, Pieces]:
        """The sheet and its pieces after a change of parts, runs and seats."""
        touched = touched_parts(self.design, change)
        runs = _touched_runs(self.design, touched) | _changed_runs(change)
        drawings = self._drawings(touched)
        ways = self._ways(runs, drawings)
        gone = touched | runs | set(change.pairs) | self._lines_of(touched)
        pieces = {key: piece for key, piece in self.pieces.items() if piece.element not in gone}
        items = {key: boxes for key, boxes in self.layout.items.items() if key not in gone}
        for key in touched & drawings.keys():
            self._add_part(pieces, items, drawings[key])
        for key in runs & ways.keys():
            self._add_run(pieces, items, key, ways[key])
        _add_joints(pieces, joints(self.design, ways))
        placed = tuple(label for label in self.layout.placed if label.key in items)
        layout = replace(self.layout, drawings=drawings, ways=ways, items=items, placed=placed)
        return layout, pieces

    def _drawings(self, touched: Iterable[str]) -> dict[str, PartDrawing]:
        found = dict(self.layout.drawings)
        for key in touched:
            part = self.design.get(key)
            found.pop(key, None)
            if isinstance(part, Part):
                drawing = draw_part(self.design, part, state=self.state, at_origin=False)
                if drawing.sheet == self.sheet:
                    found[key] = drawing
        return found

    def _ways(self, runs: set[str], drawings: Mapping[str, PartDrawing]) -> dict[str, Polyline]:
        """The others as they lie, those that are touched anew, with their own bends first."""
        ways = {key: way for key, way in self.layout.ways.items() if key not in runs}
        found = [run for key in runs if isinstance(run := self.design.get(key), Run)]
        here = [run for run in found if is_drawn_here(self.design, run, drawings)]
        for run in sorted(here, key=lambda run: (not run.route, run.id)):
            ways[run.id] = route(self.design, run, drawings, ways)
        return ways

    def _lines_of(self, touched: set[str]) -> set[str]:
        """Dashed lines to places a plug may go to, and of interlocks, at touched parts."""
        seats = {s.id for s in self.design.seats if {s.part, s.host} & touched}
        locks = self.design.interlocks
        return seats | {lock.id for lock in locks if {e[0] for e in lock.excludes} & touched}

    def _add_part(self, pieces: Pieces, items: _Boxes, drawing: PartDrawing) -> None:
        part = self.design.part(drawing.id)
        ink = ink_of_part(self.design, part, self.state, self.marks)
        inks = drawing.group.inks if ink is Ink.INK else ((Ink.INK, ink),)
        group = replace(drawing.group, x=0, y=0, inks=inks)
        layer = Layer.BOARD if self.design.seated_in(part.id) else Layer.SYMBOL
        piece = Piece(f"{part.id}#0", part.id, layer, drawing.x, drawing.y, group)
        pieces[piece.key] = piece
        items[part.id] = (drawing.box,)
        before = self.layout.drawings.get(part.id)
        if before is not None and _same_but_moved(before, drawing):
            self._carry_label(pieces, items, drawing, before)

    def _carry_label(
        self, pieces: Pieces, items: _Boxes, drawing: PartDrawing, before: PartDrawing
    ) -> None:
        """The writing of a part that only moved moves with it."""
        dx, dy = drawing.x - before.x, drawing.y - before.y
        for piece in self.pieces.values():
            if piece.element == drawing.id and piece.layer is Layer.LABEL:
                pieces[piece.key] = replace(piece, x=piece.x + dx, y=piece.y + dy)
        for label in self.layout.placed:
            if label.key == drawing.id:
                items[label.key] += tuple(box.moved(dx, dy) for box in label.boxes)

    def _add_run(self, pieces: Pieces, items: _Boxes, run_id: str, way: Polyline) -> None:
        run = self.design.get(run_id)
        assert isinstance(run, Run)
        look = look_of_run(self.design, run, self.state, self.marks)
        group = draw_run(self.design, run, way, (), look)
        pieces[f"{run_id}#0"] = Piece(f"{run_id}#0", run_id, Layer.RUN, 0, 0, group)
        items[run_id] = way_boxes(way)


def _same_but_moved(before: PartDrawing, after: PartDrawing) -> bool:
    """Whether a part looks and is written as before, and only its place differs."""
    return (
        before.group.items == after.group.items
        and (before.group.turn, before.group.mirror) == (after.group.turn, after.group.mirror)
        and before.labels == after.labels
        and before.busy == after.busy
    )


def _add_joints(pieces: Pieces, points: Iterable[tuple[int, int]]) -> None:
    pieces.pop("joints", None)
    dots = tuple(item for x, y in points for item in junction(x, y))
    if dots:
        pieces["joints"] = Piece("joints", "", Layer.JOINT, 0, 0, Group(dots))


def _changed_runs(change: Change) -> set[str]:
    return {key for key, pair in change.pairs.items() if any(isinstance(e, Run) for e in pair)}


def _touched_runs(design: Design, touched: Iterable[str]) -> set[str]:
    return {run.id for key in touched if key in design for run in design.runs_at(key)}


def touched_parts(design: Design, change: Change) -> set[str]:
    """Parts that a change may draw anew: those it names, what they sit in and what sits there."""
    ahead: list[str] = []
    for pair in change.pairs.values():
        for element in pair:
            if isinstance(element, Part):
                ahead.append(element.id)
            elif isinstance(element, Seat):
                ahead += [element.part, element.host]
            elif isinstance(element, Run):
                ahead += [element.a.part, element.b.part]
    found: set[str] = set()
    while ahead:
        part_id = ahead.pop()
        if part_id not in found:
            found.add(part_id)
            ahead += [seat.host for seat in design.seats_of(part_id)]
            ahead += [seat.part for seat in design.seated_in(part_id)]
    return found
