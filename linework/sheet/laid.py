"""What lies on one sheet before anything is written: parts, the ways of runs, ties, references."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

from linework.design import Design, Part, Run
from linework.picture.geometry import Box, Point, box_around
from linework.picture.measure import boxes
from linework.sheet.energised import Marks, source_marks
from linework.sheet.frame import Frame, frame_of
from linework.sheet.lettering import Room
from linework.sheet.parts import PartDrawing, draw_parts, sheet_numbers
from linework.sheet.routing import (
    BOW,
    Crossing,
    body_end,
    crossings,
    frame_sign,
    joints,
    routes,
    way_boxes,
)
from linework.sheet.routing import Polyline as Way
from linework.sheet.signs import (
    Cut,
    Matching,
    MatchLine,
    Reference,
    Tie,
    elsewhere,
    interlock_ties,
    letters,
    plug_ties,
)
from linework.words import say

if TYPE_CHECKING:
    from linework.study.report import StateReport

INSET = 20
"""Free inside the frame line."""
_OUTLINE = 2
"""Half of the outline of a sign, rounded up."""


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
        ways = {**self.ways, **{ref.run: ref.way for ref in self.references}}
        return crossings({**ways, **{tie.id: tie.way for tie in self.ties}})

    @cached_property
    def joints(self) -> tuple[Point, ...]:
        """Where runs from one terminal part from each other."""
        split = {ref.run: ref.way for ref in self.references}
        turned = {
            cut.run.id: split[cut.run.id] if cut.here == cut.run.a else split[cut.run.id][::-1]
            for cut in self.cuts
        }
        return joints(self.design, {**self.ways, **turned}, self.drawings)

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
    def cuts(self) -> tuple[Cut, ...]:
        """Runs of which the other end lies on another sheet."""
        found: list[Cut] = []
        named, own = letters(self.design, self._cut_anywhere), self.options.sheet
        for run in self._cut_anywhere:
            for here, there in ((run.a, run.b), (run.b, run.a)):
                if here.part in self.drawings and there.part not in self.drawings:
                    sheet = self.every[there.part].sheet
                    letter = named[min(own, sheet), max(own, sheet)]
                    found.append(Cut(run, here, sheet, self._where(there.part), letter))
        return tuple(found)

    @property
    def _cut_anywhere(self) -> list[Run]:
        number = {key: drawing.sheet for key, drawing in self.every.items()}
        return [
            run
            for run in self.design.runs
            if number[run.a.part] != number[run.b.part] and body_end(self.design, run) is None
        ]

    @cached_property
    def _matching(self) -> tuple[tuple[MatchLine, ...], tuple[Reference, ...]]:
        taken = [drawing.whole for drawing in self.drawings.values()]
        if self.options.frame:
            taken.append(self.frame.block)
        ways = {**self.ways, **{tie.id: tie.way for tie in self.ties}}
        area = self.frame.area.grown(-INSET)
        edges = Matching(
            self.design, self.drawings, area, taken, ways, self.options.sheet, self.number_of
        )
        lines = edges.lines(self.cuts)
        for cut in self.cuts:
            if cut.run.id not in edges.found:
                edges.near(cut)
        return tuple(lines), tuple(edges.found.values())

    @property
    def matches(self) -> tuple[MatchLine, ...]:
        """The match lines."""
        return self._matching[0]

    @property
    def references(self) -> tuple[Reference, ...]:
        """Ends of runs that go on on other sheets: at a match line, else near their terminals."""
        return self._matching[1]

    def number_of(self, sheet: int) -> int:
        """What the title block of another sheet says: in a set the diagram is not the first."""
        order = sheet_numbers(self.design)
        own = self.options.sheet
        if not self.options.number or sheet not in order or own not in order:
            return sheet
        return self.options.number + order.index(sheet) - order.index(own)

    def _where(self, part_id: str) -> str:
        part, drawing = self.design.part(part_id), self.every[part_id]
        zone = self.frame.zone_at(drawing.x, drawing.y)
        number = self.number_of(drawing.sheet)
        place = say("sheet {number} {zone}", number=number, zone=zone).strip()
        return say("{place}: {part}", place=place, part=part.designation)

    def elsewhere(self, part: Part) -> tuple[str, ...]:
        """What a tie would lead to if it were not on another sheet."""
        return tuple(
            say(words, part=other, number=self.number_of(sheet))
            for words, other, sheet in elsewhere(self.design, part)
        )

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
        for x, y in self.joints:
            room.draw_through([Box(x, y, x, y).grown(9)])
        for ref in self.references:
            room.take([ref.box.grown(_OUTLINE)])
        for line in self.matches:
            room.draw_through([line.box.grown(3)], line.key)
        return room

    def edges(self) -> dict[str, tuple[Box, ...]]:
        """What flags stand on: the strokes of each part, the straight pieces of each run."""
        found = {key: drawing.solid or (drawing.box,) for key, drawing in self.drawings.items()}
        for run, way in self.runs:
            pieces = (box_around(piece) for piece in pairwise(way))
            found[run.id] = tuple(sorted(pieces, key=lambda box: -box.width - box.height))
        return found
