"""A whole sheet: parts, runs, writing, flags, frame and title block as one picture."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING

from linework.codes import family_of
from linework.design import Design, Part, Run
from linework.picture.geometry import Box
from linework.picture.inks import Ink
from linework.picture.marks import junction
from linework.picture.measure import boxes
from linework.picture.model import Group, Item, Picture, Target, Text, flatten
from linework.sheet.energised import (
    Marks,
    ink_of_part,
    look_of_run,
    source_marks,
    state_named,
)
from linework.sheet.frame import Frame, TitleBlock, frame_of, title_block
from linework.sheet.lettering import Block, Hung, Placed, Room, Span, Wanted, place, wrapped
from linework.sheet.parts import PartDrawing, draw_parts, sheet_of, wanted_for_part
from linework.sheet.routing import (
    Crossing,
    crossings,
    draw_run,
    joints,
    mark_boxes,
    routes,
    wanted_for_run,
    way_boxes,
)
from linework.sheet.routing import Polyline as Way
from linework.sheet.signs import (
    FlagDrawing,
    Reference,
    Tie,
    elsewhere,
    interlock_ties,
    label_group,
    legend_block,
    note_block,
    place_flags,
    plug_ties,
    reference,
    wanted_for_lock,
)
from linework.sheet.targets import part_targets
from linework.words import say

if TYPE_CHECKING:
    from linework.analysis import Analysis
    from linework.study.report import StateReport

_INSET = 20
"""Free inside the frame line."""
_MORE_WIDTH = 600


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


@dataclass(frozen=True)
class Composition:
    """A sheet laid out.

    ``items``: boxes on the paper by element id, for pointing and links (a flag's under
    "flag-<number>"). ``texts``: all writing. ``lost``: ids whose writing, and "flag-<number>" of
    flags, for which there was no room: to be told elsewhere, never to be passed over.
    ``outside``: parts that lie outside the frame. ``placed``: the labels. ``ways``: of runs.
    """

    picture: Picture
    items: Mapping[str, tuple[Box, ...]]
    texts: tuple[Text, ...]
    frame: Frame
    placed: tuple[Placed, ...]
    ways: Mapping[str, Way]
    drawings: Mapping[str, PartDrawing]
    lost: tuple[str, ...]
    outside: tuple[str, ...]


def compose(
    design: Design,
    analysis: Analysis | None = None,
    state_key: str = "",
    options: Options | None = None,
    kept: Mapping[str, Way] | None = None,
) -> Composition:
    """One sheet of a design.

    ``analysis``: findings become flags; with ``state_key`` that state is shown: what is live, by
    which source. ``kept``: ways that are not to be laid anew. PaperError for an unknown paper.
    """
    options = options or Options()
    reports = analysis.reports if analysis is not None else ()
    state = state_named(reports, state_key)
    sheet = _Sheet(design, options, state, kept or {})
    return sheet.composed(analysis)


def sheet_numbers(design: Design) -> tuple[int, ...]:
    """The sheets on which parts or notes lie; at least sheet 1."""
    found = {sheet_of(design, part) for part in design.parts}
    return tuple(sorted(found | {note.sheet for note in design.notes} | {1}))


def compose_all(
    design: Design,
    analysis: Analysis | None = None,
    state_key: str = "",
    options: Options | None = None,
) -> tuple[Composition, ...]:
    """Every sheet of a design, in order."""
    options = options or Options()
    return tuple(
        compose(design, analysis, state_key, replace(options, sheet=number))
        for number in sheet_numbers(design)
    )


@dataclass
class _Sheet:
    """The work on one sheet, step by step."""

    design: Design
    options: Options
    state: StateReport | None
    kept: Mapping[str, Way]

    @cached_property
    def frame(self) -> Frame:
        return frame_of(self.options.paper or self.design.settings.sheet)

    @cached_property
    def marks(self) -> Marks:
        return source_marks(self.design) if self.state is not None else {}

    @cached_property
    def every(self) -> dict[str, PartDrawing]:
        return draw_parts(self.design, state=self.state, at_origin=False)

    @cached_property
    def drawings(self) -> dict[str, PartDrawing]:
        return {key: d for key, d in self.every.items() if d.sheet == self.options.sheet}

    @cached_property
    def ways(self) -> dict[str, Way]:
        return routes(self.design, self.drawings, self.kept)

    @cached_property
    def crossed(self) -> tuple[Crossing, ...]:
        ways = {**self.ways, **{tie.id: tie.way for tie in self.ties}}
        return crossings(ways)

    @cached_property
    def plugs(self) -> tuple[Tie, ...]:
        return plug_ties(self.design, self.drawings, self.ways, self.state, self.marks)

    @cached_property
    def locks(self) -> tuple[tuple[Tie, str], ...]:
        return interlock_ties(self.design, self.drawings, self.ways)

    @cached_property
    def ties(self) -> tuple[Tie, ...]:
        return (*self.plugs, *(tie for tie, _ in self.locks))

    @cached_property
    def references(self) -> tuple[Reference, ...]:
        """Ends of runs that go on on other sheets."""
        taken = [drawing.box for drawing in self.drawings.values()]
        area = self.frame.area.grown(-_INSET)
        if self.options.frame:
            taken.append(self.frame.block)
        found: list[Reference] = []
        for run in self.design.runs:
            for here, there in ((run.a.part, run.b.part), (run.b.part, run.a.part)):
                if here in self.drawings and there not in self.drawings:
                    text = self._where(there)
                    found.append(reference(run, here, text, self.drawings, area, taken))
                    taken.append(found[-1].box)
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
        room = Room(self.frame.area.grown(-_INSET))
        if self.options.frame:
            room.take([self.frame.block])
        for drawing in self.drawings.values():
            room.take(drawing.solid)
        for tie in self.ties:
            room.draw_through(way_boxes(tie.way, 3), tie.id)
        for run, way in self.runs:
            room.draw_through(way_boxes(way, 3), run.id)
            room.draw_through(mark_boxes(run.id, way, self.crossed), run.id)
        for ref in self.references:
            room.take([ref.box])
        return room

    # writing

    def part_labels(self) -> list[Wanted]:
        """The writing of the parts; first of those that sit in others: they have least room."""
        found = []
        for part in self.inside:
            drawing = self.drawings[part.id]
            lines = (*elsewhere(self.design, part), *self.options.more.get(part.id, ()))
            more = tuple((Span(line),) for text in lines for line in wrapped(text, _MORE_WIDTH))
            found.append(wanted_for_part(drawing, int(not drawing.host), more))
        return [label for label in found if label.shapes[0]]

    def other_labels(self) -> list[Wanted]:
        """The writing of runs and interlocks, then what belongs to the state."""
        crossed = self.crossed
        area = self.frame.area
        found = [
            wanted_for_run(self.design, run, way, crossed, 2)
            for run, way in self.runs
            if any(area.holds(x, y) for x, y in way)
        ]
        found += [wanted_for_lock(tie, title) for tie, title in self.locks]
        return [*found, *self._bond_labels(), *self.legend()]

    def _bond_labels(self) -> list[Wanted]:
        """Where neutral and ground are joined in the state that is shown."""
        if self.state is None:
            return []
        owners = {owner for bond in self.state.bonds for owner in bond.places}
        text = say("{Neutral_ground_link} here", family=self.design.settings.family)
        block: Block = ((Span(text, bold=True),),)
        return [
            Wanted(f"bond-{key}", (), box, (block,), 4)
            for key, box in self.near().items()
            if key in owners
        ]

    def notes(self) -> dict[str, Hung]:
        """The user's notes, where the user put them."""
        return {
            note.id: Hung(note_block(note.text), note.x, note.y)
            for note in self.design.notes
            if note.sheet == self.options.sheet and note.text.strip()
        }

    def legend(self) -> list[Wanted]:
        """The state that is shown, and the letter of each source that is on in it."""
        if self.state is None:
            return []
        area = self.frame.area.grown(-2 * _INSET)
        block = legend_block(self.design, self.state, self.marks)
        corners = (
            Hung(block, area.left, area.bottom, "start", "base"),
            Hung(block, area.left, area.top, "start", "top"),
            Hung(block, area.right, area.top, "end", "top"),
        )
        near = Box(area.left, area.bottom, area.left, area.bottom)
        options = tuple((hung,) for hung in corners)
        # It belongs to the whole sheet, so that no line leads from it to its first corner.
        return [Wanted("legend", options, near, (block,), 5, body=(self.frame.area,))]

    def near(self) -> dict[str, Box]:
        """What flags and marks stand at: the box of each part, the middle of each run."""
        found = {key: drawing.whole for key, drawing in self.drawings.items()}
        for run, way in self.runs:
            (ax, ay), (bx, by) = way[len(way) // 2 - 1], way[len(way) // 2]
            x, y = (ax + bx) // 2, (ay + by) // 2
            found[run.id] = Box(x, y, x, y)
        return found

    # the whole

    def composed(self, analysis: Analysis | None) -> Composition:
        room = self.room()
        notes = self.notes()
        room.take(hung.box() for hung in notes.values())
        at_parts, lost = place(self.part_labels(), room)
        flags, no_flag = self._flags(analysis, room, notes=False)
        others, also_lost = place(self.other_labels(), room)
        of_notes, no_note = self._flags(analysis, room, notes=True)
        flags, no_flag = (*flags, *of_notes), (*no_flag, *no_note)
        placed, lost = (*at_parts, *others), (*lost, *also_lost)
        items = self._items(placed, notes, flags)
        picture = Picture(self.frame.width, self.frame.height, tuple(items))
        return Composition(
            picture,
            self._boxes(placed, notes, flags),
            tuple(flat.item for flat in flatten(items) if isinstance(flat.item, Text)),
            self.frame,
            placed,
            self.ways,
            self.drawings,
            (*lost, *(f"flag-{number}" for number in no_flag)),
            tuple(d.id for d in self.drawings.values() if not self.frame.area.contains(d.box)),
        )

    def _flags(
        self, analysis: Analysis | None, room: Room, notes: bool
    ) -> tuple[tuple[FlagDrawing, ...], tuple[int, ...]]:
        if analysis is None or not self.options.flags:
            return (), ()
        findings = [f for f in analysis.findings if (f.level.word == "note") is notes]
        return place_flags(findings, self.near(), room)

    def _items(
        self,
        placed: tuple[Placed, ...],
        notes: Mapping[str, Hung],
        flags: tuple[FlagDrawing, ...],
    ) -> list[Item]:
        """In drawing order: boards, lines, symbols, writing, flags, frame."""
        hosts = {drawing.host for drawing in self.drawings.values()}
        below = [part for part in self.here if part.id in hosts and not self.drawings[part.id].host]
        above = [part for part in self.here if part not in below]
        items: list[Item] = [self._symbol(part) for part in below]
        items += [tie.group for tie in self.ties]
        crossed = self.crossed
        for run, way in self.runs:
            look = look_of_run(self.design, run, self.state, self.marks)
            items.append(draw_run(self.design, run, way, crossed, look))
        items += [ref.group for ref in self.references]
        items += [item for x, y in joints(self.design, self.ways) for item in junction(x, y)]
        items += [self._symbol(part) for part in above]
        items += [label_group(label) for label in placed]
        items += [Group(hung.texts(), tag=key) for key, hung in notes.items()]
        items += [self._unlinked(flag.group) for flag in flags]
        if self.options.links:
            names = part_targets(self.design)
            drawn = self.drawings.values()
            items += [Target(names[d.id], d.box.left, d.box.top) for d in drawn]
        if self.options.frame:
            items += [*self.frame.items, *title_block(self.frame, self._title())]
        return items

    def _symbol(self, part: Part) -> Group:
        group = self.drawings[part.id].group
        ink = ink_of_part(self.design, part, self.state, self.marks)
        return group if ink is Ink.INK else replace(group, inks=((Ink.INK, ink),))

    def _unlinked(self, group: Group) -> Group:
        if self.options.links:
            return group
        return replace(group, items=without_links(group.items))

    def _boxes(
        self,
        placed: tuple[Placed, ...],
        notes: Mapping[str, Hung],
        flags: tuple[FlagDrawing, ...],
    ) -> dict[str, tuple[Box, ...]]:
        found: dict[str, tuple[Box, ...]] = {}
        for drawing in self.drawings.values():
            found[drawing.id] = (drawing.box,)
        for run, way in self.runs:
            found[run.id] = (*found.get(run.id, ()), *way_boxes(way))
        for tie in self.ties:
            found[tie.id] = (*found.get(tie.id, ()), *way_boxes(tie.way))
        for label in placed:
            found[label.key] = (*found.get(label.key, ()), *label.boxes)
        for key, hung in notes.items():
            found[key] = (hung.box(),)
        for flag in flags:
            found[f"flag-{flag.number}"] = (flag.box,)
        return found

    def _title(self) -> TitleBlock:
        options, settings = self.options, self.design.settings
        return TitleBlock(
            options.title or say("Single-line diagram"),
            settings.job,
            settings.site,
            options.number or options.sheet,
            options.sheets or len(sheet_numbers(self.design)),
            settings.revision,
            options.date,
            settings.drawn_by,
            settings.checked_by,
            family_of(settings.family, settings.edition).title,
        )


def without_links(items: tuple[Item, ...]) -> tuple[Item, ...]:
    """The items that leave ink."""
    return tuple(item for item in items if boxes([item]))
