"""What lies on one sheet before anything is written: parts, the ways of runs, ties, references."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

from linework.design import Design, Part, Run
from linework.picture.geometry import Box, box_around
from linework.picture.measure import boxes
from linework.sheet.energised import Marks, source_marks
from linework.sheet.frame import Frame, frame_of
from linework.sheet.lettering import Room
from linework.sheet.parts import PartDrawing, draw_parts
from linework.sheet.routing import (
    BOW,
    Crossing,
    body_end,
    crossings,
    frame_sign,
    joints,
    routes,
    run_end,
    way_boxes,
)
from linework.sheet.routing import Polyline as Way
from linework.sheet.signs import Reference, Tie, interlock_ties, plug_ties, reference
from linework.words import say

if TYPE_CHECKING:
    from linework.study.report import StateReport

INSET = 20
"""Free inside the frame line."""


@dataclass(frozen=True)
class Options:
    """What a sheet shows besides the drawing.

    ``paper``: "" takes the design's. ``sheet``: which parts' sheet; ``number`` and ``sheets``:
    what the title block says (0: the sheet's own number, and as many as there are).
    ``more``: lines of writing to be added at parts, by id (e.g. fault level at a board).
    ``links``: names for links to parts and flags, and links from flags to "finding-<number>".
    """

    paper: str = ""
    sheet: int = 1
    number: int = 0
    sheets: int = 0
    title: str = ""
    date: str = ""
    flags: bool = True
    frame: bool = True
    links: bool = False
    more: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass
class Laid:
    """The drawings of one sheet, each made when it is first asked for."""

    design: Design
    options: Options
    state: StateReport | None
    kept: Mapping[str, Way]

    @cached_property
    def frame(self) -> Frame:
        """The frame of the paper."""
        return frame_of(self.options.paper or self.design.settings.sheet)

    @cached_property
    def marks(self) -> Marks:
        """The letters of the sources that are on in the shown state."""
        return source_marks(self.design) if self.state is not None else {}

    @cached_property
    def every(self) -> dict[str, PartDrawing]:
        """The drawings of all parts of the design, also of other sheets."""
        return draw_parts(self.design, state=self.state, at_origin=False)

    @cached_property
    def drawings(self) -> dict[str, PartDrawing]:
        """Those of this sheet."""
        return {key: d for key, d in self.every.items() if d.sheet == self.options.sheet}

    @cached_property
    def ways(self) -> dict[str, Way]:
        """The way of each run that lies wholly on this sheet."""
        return routes(self.design, self.drawings, self.kept)

    @cached_property
    def crossed(self) -> tuple[Crossing, ...]:
        """Where lines cross."""
        ways = {**self.ways, **{tie.id: tie.way for tie in self.ties}}
        return crossings(ways)

    @cached_property
    def plugs(self) -> tuple[Tie, ...]:
        """Ties from plugs to where they may be put."""
        return plug_ties(self.design, self.drawings, self.ways, self.state, self.marks)

    @cached_property
    def locks(self) -> tuple[tuple[Tie, str], ...]:
        """Ties between what is interlocked, with their writing."""
        return interlock_ties(self.design, self.drawings, self.ways)

    @cached_property
    def ties(self) -> tuple[Tie, ...]:
        """Both."""
        return (*self.plugs, *(tie for tie, _ in self.locks))

    @cached_property
    def references(self) -> tuple[Reference, ...]:
        """Ends of runs that go on on other sheets."""
        taken = [drawing.box for drawing in self.drawings.values()]
        area = self.frame.area.grown(-INSET)
        if self.options.frame:
            taken.append(self.frame.block)
        taken += [box for way in self.ways.values() for box in way_boxes(way)]
        found: list[Reference] = []
        for run in self.design.runs:
            if body_end(self.design, run) is not None:
                continue
            for here, there in ((run.a, run.b), (run.b, run.a)):
                if here.part in self.drawings and there.part not in self.drawings:
                    text, drawings = self._where(there.part), self.drawings
                    end = run_end(self.design, drawings, run, here)
                    found.append(reference(run, here.part, end, text, drawings, area, taken))
                    taken += [found[-1].box, *way_boxes(found[-1].way)]
        return tuple(found)

    def _where(self, part_id: str) -> str:
        part, drawing = self.design.part(part_id), self.every[part_id]
        zone = self.frame.zone_at(drawing.x, drawing.y)
        place = say("sheet {number} {zone}", number=drawing.sheet, zone=zone).strip()
        return say("{place}: {part}", place=place, part=part.designation)

    @cached_property
    def here(self) -> tuple[Part, ...]:
        """The parts of this sheet."""
        return tuple(part for part in self.design.parts if part.id in self.drawings)

    @property
    def inside(self) -> tuple[Part, ...]:
        """Those that lie in the frame: only they are written at."""
        area = self.frame.area
        return tuple(p for p in self.here if area.contains(self.drawings[p.id].box))

    @cached_property
    def runs(self) -> tuple[tuple[Run, Way], ...]:
        """The runs of this sheet, those that go on elsewhere by the way to their reference."""
        whole = [(run, self.ways[run.id]) for run in self.design.runs if run.id in self.ways]
        split = [(self._run(ref.run), ref.way) for ref in self.references]
        return (*whole, *split)

    def _run(self, run_id: str) -> Run:
        found = self.design.get(run_id)
        assert isinstance(found, Run)
        return found

    # what is taken

    def room(self) -> Room:
        """The area with everything that does not move."""
        room = Room(self.frame.area.grown(-INSET))
        if self.options.frame:
            room.take([self.frame.block])
        for drawing in self.drawings.values():
            room.take(drawing.solid)
        for tie in self.ties:
            room.draw_through(way_boxes(tie.way, 3), tie.id)
        for run, way in self.runs:
            room.draw_through(way_boxes(way, 3), run.id)
            if (folded := body_end(self.design, run)) is not None:
                sign = frame_sign(way if folded == run.b else way[::-1])
                room.draw_through((boxed.box for boxed in boxes(sign)), run.id)
        for cross in self.crossed:
            room.draw_through([Box(cross.x, cross.y, cross.x, cross.y).grown(BOW)], cross.over)
        for x, y in joints(self.design, self.ways):
            room.draw_through([Box(x, y, x, y).grown(9)])
        for ref in self.references:
            room.take([ref.box])
        return room

    def edges(self) -> dict[str, tuple[Box, ...]]:
        """What flags stand on: the strokes of each part, the straight pieces of each run."""
        found = {key: drawing.solid or (drawing.box,) for key, drawing in self.drawings.items()}
        for run, way in self.runs:
            pieces = (box_around(piece) for piece in pairwise(way))
            found[run.id] = tuple(sorted(pieces, key=lambda box: -box.width - box.height))
        return found
