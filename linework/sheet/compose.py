"""A whole sheet: parts, runs, writing, flags, frame and title block as one picture."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from linework.design import Design, Part
from linework.picture.geometry import Box
from linework.picture.inks import Ink
from linework.picture.marks import junction
from linework.picture.measure import boxes
from linework.picture.model import Group, Item, Picture, Target, Text, flatten
from linework.sheet.energised import ink_of_part, look_of_run, state_named
from linework.sheet.frame import Frame
from linework.sheet.laid import INSET, Laid, Options
from linework.sheet.lettering import Block, Hung, Placed, Room, Span, Tag, Wanted, place, wrapped
from linework.sheet.parts import PartDrawing, sheet_numbers, wanted_for_part
from linework.sheet.routing import (
    CutSign,
    cut_sign,
    draw_run,
    is_body,
    is_cut,
    jumpers_block,
    wanted_for_run,
    way_boxes,
)
from linework.sheet.routing import Polyline as Way
from linework.sheet.signs import (
    FlagDrawing,
    label_group,
    legend_block,
    note_block,
    place_flags,
    told_elsewhere,
    wanted_for_lock,
    wanted_for_neutral,
    wanted_symbols,
)
from linework.sheet.targets import part_targets
from linework.sheet.titleblock import TitleBlock, revision_table, title_block, titled
from linework.words import N_, say

if TYPE_CHECKING:
    from linework.analysis import Analysis

_MORE_WIDTH = 600


@dataclass(frozen=True)
class Composition:
    """A sheet laid out.

    ``items``: boxes on the paper by element id, for pointing and links (a flag's under
    "flag-<number>"). ``texts``: all writing. ``lost``: ids whose writing, and "flag-<number>" of
    flags, for which there was no room: to be told elsewhere, never to be passed over.
    ``outside``: parts that lie outside the frame. ``placed``: the labels. ``ways``: of runs.
    ``body``: what is drawn but frame and title block.
    """

    picture: Picture
    body: tuple[Item, ...]
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
    return _Written(Laid(design, options, state, kept or {})).composed(analysis)


def retitled(design: Design, sheet: Composition, options: Options) -> Composition:
    """The sheet with what ``options`` says in its title block; nothing else is laid anew."""
    items = (*sheet.body, *_around(design, sheet.frame, options))
    picture = replace(sheet.picture, items=items)
    return replace(sheet, picture=picture, texts=_texts(items))


def _texts(items: tuple[Item, ...]) -> tuple[Text, ...]:
    return tuple(flat.item for flat in flatten(items) if isinstance(flat.item, Text))


def _around(design: Design, frame: Frame, options: Options) -> tuple[Item, ...]:
    """Frame, title block and revision table."""
    if not options.frame:
        return ()
    what = TitleBlock(
        options.title or say("One-line diagram"),
        document=say("one-line diagram"),
        sheet=options.number or options.sheet,
        sheets=options.sheets or len(sheet_numbers(design)),
        date=options.date,
    )
    title = titled(design.settings, what)
    table = revision_table(frame, title.revisions)
    return (*frame.items, *title_block(frame, title), *table)


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
class _Written:
    """A sheet with its writing, flags, frame and title block."""

    laid: Laid

    # writing

    def part_labels(self) -> list[Wanted]:
        """The writing of the parts; first of those that sit in others: they have least room."""
        found = [line.wanted for line in self.laid.matches]
        for part in self.laid.inside:
            drawing = self.laid.drawings[part.id]
            lines = (*self.laid.elsewhere(part), *self.laid.options.more.get(part.id, ()))
            more: Block = tuple(
                (Span(line),) for text in lines for line in wrapped(text, _MORE_WIDTH)
            )
            if is_body(self.laid.design, part.id):
                more = (*more, *jumpers_block(self.laid.design, part.id))
            found.append(wanted_for_part(drawing, int(not drawing.host), more))
            if mark := wanted_for_neutral(self.laid.design, part, drawing):
                found.append(mark)
        return [label for label in found if label.options or label.shapes[0]]

    def other_labels(self) -> list[Wanted]:
        """The writing of runs and interlocks, then what belongs to the state."""
        area = self.laid.frame.area
        found = [
            wanted_for_run(self.laid.design, run, way, 2)
            for run, way in self.laid.runs
            if any(area.holds(x, y) for x, y in way)
        ]
        found += [wanted_for_lock(tie, title) for tie, title in self.laid.locks]
        return [*found, *self._bond_labels(), *self.legend()]

    def _bond_labels(self) -> list[Wanted]:
        """Where neutral and ground, or minus and ground, are joined in the state that is shown."""
        if self.laid.state is None:
            return []
        family, bonds = self.laid.design.settings.family, self.laid.state.bonds
        told: dict[str, str] = {}
        for bond in sorted(bonds, key=lambda bond: bond.is_ac):
            word = N_("{Neutral_ground_link} here") if bond.is_ac else N_("Minus {grounded} here")
            told |= dict.fromkeys(bond.places, say(word, family=family))
        return [
            Wanted(f"bond-{key}", (), drawing.whole, (((Span(told[key], bold=True),),),), 4)
            for key, drawing in self.laid.drawings.items()
            if key in told
        ]

    def notes(self) -> dict[str, Hung]:
        """The user's notes, where the user put them."""
        return {
            note.id: Hung(note_block(note.text), note.x, note.y)
            for note in self.laid.design.notes
            if note.sheet == self.laid.options.sheet and note.text.strip()
        }

    def legend(self) -> list[Wanted]:
        """The state that is shown, and the letter of each source that is on in it."""
        if self.laid.state is None:
            return []
        area = self.laid.frame.area.grown(-2 * INSET)
        block = legend_block(self.laid.design, self.laid.state, self.laid.marks)
        corners = (
            Hung(block, area.left, area.bottom, "start", "base"),
            Hung(block, area.left, area.top, "start", "top"),
            Hung(block, area.right, area.top, "end", "top"),
        )
        near = Box(area.left, area.bottom, area.left, area.bottom)
        options = tuple((hung,) for hung in corners)
        return [Wanted("legend", options, near, (block,), 5)]

    def _symbols(self) -> list[Wanted]:
        """What the signs on this sheet mean, where it has a frame and room for it."""
        laid = self.laid
        if not laid.options.frame:
            return []
        runs = [run for run, _ in laid.runs]
        area = laid.frame.area.grown(-INSET)
        return wanted_symbols(laid.design, laid.drawings, runs, area, laid.frame.block)

    def cut_signs(self, room: Room) -> dict[str, CutSign]:
        """By run; their places are taken in ``room``."""
        found: dict[str, CutSign] = {}
        for run, way in self.laid.runs:
            if is_cut(self.laid.design, run):
                found[run.id] = cut_sign(run, way, room)
                room.take([found[run.id].box()], owner=run.id)
        return found

    # the whole

    def composed(self, analysis: Analysis | None) -> Composition:
        """The whole sheet, with a flag for each finding."""
        laid = self.laid
        room = laid.room()
        notes = self.notes()
        room.take(hung.box() for hung in notes.values())
        cuts = self.cut_signs(room)
        at_parts, lost = place(self.part_labels(), room)
        flags, no_flag = self._flags(analysis, room, False, at_parts)
        others, also_lost = place(self.other_labels(), room)
        of_notes, no_note = self._flags(analysis, room, True, others)
        flags, no_flag = (*flags, *of_notes), (*no_flag, *no_note)
        placed, lost = (*at_parts, *others), (*lost, *also_lost)
        told, _ = place(told_elsewhere(laid.design, lost, no_flag, room.frame), room)
        legend, _ = place(self._symbols(), room)
        placed = (*placed, *told, *legend)
        body = tuple(self._items(placed, notes, flags, cuts))
        items = (*body, *_around(laid.design, laid.frame, laid.options))
        return Composition(
            Picture(laid.frame.width, laid.frame.height, items),
            body,
            self._boxes(placed, notes, flags),
            _texts(items),
            laid.frame,
            placed,
            laid.ways,
            laid.drawings,
            (*lost, *(f"flag-{number}" for number in no_flag)),
            tuple(d.id for d in laid.drawings.values() if not laid.frame.area.contains(d.box)),
        )

    def _flags(
        self, analysis: Analysis | None, room: Room, notes: bool, written: tuple[Placed, ...]
    ) -> tuple[tuple[FlagDrawing, ...], tuple[int, ...]]:
        if analysis is None or not self.laid.options.flags:
            return (), ()
        findings = [
            finding
            for finding in analysis.findings
            # a value that nobody gave stands in brackets at its part
            if (finding.level.word == "note") is notes and not finding.of_inputs
        ]
        hosts = {key: drawing.host for key, drawing in self.laid.drawings.items()}
        edges = self.laid.edges()
        for label in written:
            tags = tuple(mark.box() for mark in label.hung if isinstance(mark, Tag))
            if label.key in edges:
                edges[label.key] = (*edges[label.key], *tags)
        return place_flags(findings, edges, room, hosts)

    def _items(
        self,
        placed: tuple[Placed, ...],
        notes: Mapping[str, Hung],
        flags: tuple[FlagDrawing, ...],
        cuts: Mapping[str, CutSign],
    ) -> list[Item]:
        """In drawing order: boards, lines, symbols, writing, flags."""
        laid = self.laid
        hosts = {drawing.host for drawing in laid.drawings.values()}
        below = [part for part in laid.here if part.id in hosts and not laid.drawings[part.id].host]
        above = [part for part in laid.here if part not in below]
        items: list[Item] = [self._symbol(part) for part in below]
        items += [tie.group for tie in laid.ties]
        crossed = laid.crossed
        written = {label.key: label.boxes for label in placed}
        for run, way in laid.runs:
            look = look_of_run(laid.design, run, laid.state, laid.marks)
            own = written.get(run.id, ())
            items.append(draw_run(laid.design, run, way, crossed, look, own, cuts.get(run.id)))
        items += [line.group for line in laid.matches]
        items += [ref.group for ref in laid.references]
        items += [item for x, y in laid.joints for item in junction(x, y)]
        items += [self._symbol(part) for part in above]
        items += [label_group(label) for label in placed]
        items += [Group(hung.texts(), tag=key) for key, hung in notes.items()]
        items += [self._unlinked(flag.group) for flag in flags]
        if laid.options.links:
            names = part_targets(laid.design)
            drawn = laid.drawings.values()
            items += [Target(names[d.id], d.box.left, d.box.top) for d in drawn]
        return items

    def _symbol(self, part: Part) -> Group:
        group = self.laid.drawings[part.id].group
        ink = ink_of_part(self.laid.design, part, self.laid.state, self.laid.marks)
        return group if ink is Ink.INK else replace(group, inks=((Ink.INK, ink),))

    def _unlinked(self, group: Group) -> Group:
        if self.laid.options.links:
            return group
        return replace(group, items=without_links(group.items))

    def _boxes(
        self,
        placed: tuple[Placed, ...],
        notes: Mapping[str, Hung],
        flags: tuple[FlagDrawing, ...],
    ) -> dict[str, tuple[Box, ...]]:
        found: dict[str, tuple[Box, ...]] = {}
        for drawing in self.laid.drawings.values():
            found[drawing.id] = (drawing.box,)
        for run, way in self.laid.runs:
            found[run.id] = (*found.get(run.id, ()), *way_boxes(way))
        for tie in self.laid.ties:
            found[tie.id] = (*found.get(tie.id, ()), *way_boxes(tie.way))
        for label in placed:
            found[label.key] = (*found.get(label.key, ()), *label.boxes)
        for key, hung in notes.items():
            found[key] = (hung.box(),)
        for flag in flags:
            found[f"flag-{flag.number}"] = (flag.box,)
        return found


def without_links(items: tuple[Item, ...]) -> tuple[Item, ...]:
    """The items that leave ink."""
    return tuple(item for item in items if boxes([item]))
