"""The sheet of neutral and ground: the drawing, which link counts when, ground wires, loops."""

from __future__ import annotations

import math
from collections.abc import Iterable

from reportlab.platypus import CondPageBreak, Flowable, Spacer

from linework.design import Part, Run
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.content import Content
from linework.handover.drawn import Drawn
from linework.handover.grounding.bars import Grounds, Tie, Way, grounds
from linework.handover.grounding.drawing import Words, rows
from linework.handover.grounding.naming import ground_size, run_name, strap_name, strap_state
from linework.handover.locking import circuits_of
from linework.handover.positions import Position, link_words, positions
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import BETWEEN, WIDE, Cell, beside, table, text, with_room
from linework.picture.inks import BAR, MEDIUM, Dash, Ink, Pen
from linework.picture.model import Item, Line, Text
from linework.picture.pdf import POINTS_PER_TENTH
from linework.study.report import FaultReport, StateReport
from linework.words import N_


def grounding_pages(content: Content, room: Room) -> list[Flowable]:
    """Nothing where no conductor is a neutral, a ground or a bond."""
    found = grounds(content.design, circuits_of(content.design, content.design.revision))
    if not found.boxes:
        return []
    say = content.say
    width = int(room.width / POINTS_PER_TENTH)
    most = int((room.height - 60) / POINTS_PER_TENTH)
    out: list[Flowable] = [
        text(say("Neutral and ground"), "title", anchor="grounding"),
        text(say("Over the boxes {neutral}, under them {ground}; the bars of each part between.")),
    ]
    out += [
        Drawn(items, width, high)
        for items, high in rows(found, _words(content, found), width, most)
    ]
    return [*out, *_tables(content, room)]


def _tables(content: Content, room: Room) -> list[Flowable]:
    """What the drawing does not say; on wide paper side by side, unless that fills a page."""
    half = (room.width - BETWEEN) / 2
    left = [*_links(content, half), *_loops(content, half)]
    right = _wires(content, half)
    if room.width >= WIDE and max(_height(left, half), _height(right, half)) < room.height / 2:
        cells = [[e for e in side if not isinstance(e, CondPageBreak)] for side in (left, right)]
        return [beside(cells, [half + BETWEEN, half], BETWEEN)]
    wide = room.width
    return [*_links(content, wide), *_wires(content, wide), *_loops(content, wide)]


def _height(column: list[Flowable], width: float) -> float:
    tall = (each for each in column if not isinstance(each, CondPageBreak))
    return sum(float(each.wrap(width, 1e5)[1] + each.getSpaceBefore()) for each in tall)


# what is written in the drawing


def _words(content: Content, found: Grounds) -> Words:
    def box(part: str) -> tuple[str, list[str]]:
        lines = [
            f"{strap_name(content, strap)}: {strap_state(content, strap)}"
            for strap in found.straps
            if strap.part == part
        ]
        lanes = {bar.pole for bar in found.of(part)}
        if (
            not lines
            and {"N", "PE"} <= lanes
            and content.design.kind(content.design.part(part)).board
        ):
            lines = [content.say("no link here, bars apart")]
        return content.full_name(part), lines

    def end(name: str) -> str:
        return content.say("earth") if name == "earth" else name

    def tie(each: Tie) -> str:
        return _sized(content, each.over)[0]

    return Words(box, lambda way: _way(content, way), tie, end, content.name)


def _way(content: Content, way: Way) -> list[str]:
    """ "W1 W3 10 AWG, by XP1": its runs, the size of their ground, what parts it; then without
    that, then the runs alone."""
    sized, told = _sized(content, way.over, way.start.pole != "N" or way.bond)
    opens = ", ".join(map(content.name, way.opens))
    full = content.say("{way}, by {parts}", way=sized, parts=opens) if opens else sized
    return list(dict.fromkeys((full, sized, told)))


def _sized(content: Content, over: Iterable[str], sizes: bool = True) -> tuple[str, str]:
    """What a way goes over, with the size of its ground, and without."""
    names, told = [], []
    for owner in over:
        element = content.design.get(owner)
        names.append(_over(content, owner))
        if isinstance(element, Run) and sizes:
            told.append(ground_size(content, element))
    words = " ".join(names)
    return " ".join((words, *dict.fromkeys(filter(None, told)))), words


def _over(content: Content, owner: str) -> str:
    """A run or electrode by its designation; that of a supply is not ours."""
    element = content.design.get(owner)
    site = isinstance(element, Part) and content.design.kind(element).source.off_site
    return content.say("site electrode") if site else content.name(owner)


# which link counts


def _links(content: Content, width: float) -> list[Flowable]:
    """For each position the link of each live source."""
    rows_: list[list[Cell]] = []
    for position in positions(content):
        for words in link_words(content, position):
            source, _, where = words.partition(": ")
            rows_.append([position.title, source, where])
    if not rows_:
        return []
    heads = [
        content.say("position"),
        content.say("live source"),
        content.say("its {neutral_ground_link}"),
    ]
    head = text(content.say("Which link counts"), "heading")
    return [with_room(), head, table(heads, rows_, width)]


# ground wires


def _wires(content: Content, width: float) -> list[Flowable]:
    """Every run that carries ground or a bond: from, to, size, what the code calls it."""
    say = content.say
    told: list[list[Cell]] = []
    runs = sorted(content.design.runs, key=lambda r: natural(content.name(r.id)))
    for run in runs:
        name = run_name(content, run)
        if name:
            ends = (content.full_name(end.part) for end in (run.a, run.b))
            told.append([content.name(run.id), *ends, ground_size(content, run), name])
    if not told:
        return []
    heads = [say("run"), say("from"), say("to"), say("size"), say("what it is")]
    return [
        with_room(),
        text(say("{Ground_wires} and bonds"), "heading"),
        table(heads, told, width),
    ]


# fault loops


def _loops(content: Content, width: float) -> list[Flowable]:
    """A dead short from hot to metal at one load of each board, in each position."""
    say = content.say
    told = [
        row
        for board, load in _typical(content)
        for position in positions(content)
        for row in _loop(content, position, board, load)
    ]
    if not told:
        return []
    heads = [
        say("board"),
        say("load"),
        say("position"),
        say("least to most current"),
        say("volts on the metal"),
        say("ended by"),
        say("at the latest after"),
    ]
    note = say(
        "A dead short from {hot} to the metal of one load of each board. A source that gives up is"
        " no isolation: it may come back."
    )
    return [
        with_room(),
        text(say("A fault to metal, and what ends it"), "heading"),
        text(note),
        Spacer(1, 3),
        table(heads, told, width),
    ]


def _typical(content: Content) -> list[tuple[str, str]]:
    """For each board the load behind it that draws most and whose metal a fault reaches."""
    metal = {f.part for r in content.reports for f in r.faults if _counts(f)}
    amps: dict[str, float] = {}
    for r in content.reports:
        for load in r.loads:
            amps[load.part] = max(amps.get(load.part, 0.0), load.amps)
    found = []
    boards = [p for p in content.design.parts if content.design.kind(p).board]
    for board in sorted(boards, key=lambda p: natural(p.designation)):
        behind = [p for p in _behind(content, board.id) if p in metal]
        if behind:
            most = max(behind, key=lambda p: (amps.get(p, 0.0), natural(content.name(p))))
            found.append((board.id, most))
    return found


def _counts(fault: FaultReport) -> bool:
    return fault.kind == "metal" and fault.weak_a > 1e-3 and fault.pole.startswith("L")


def _behind(content: Content, board: str) -> Iterable[str]:
    """The loads and outlets on the circuits of a board."""
    design = content.design
    for seat in design.seated_in(board):
        for run in design.runs_at(seat.part):
            for end in (run.a, run.b):
                kind = design.kind(design.part(end.part))
                if kind.consumes or kind.receptacle:
                    yield end.part


def _loop(content: Content, position: Position, board: str, load: str) -> list[list[Cell]]:
    """The worst of its faults in a position, over all cases."""
    found = [f for r in position.reports for f in _faults(r, load)]
    if not found:
        return []
    worst = max(found, key=lambda f: f.latest_s)
    volts = [f.metal_v for f in found if f.metal_v is not None and not math.isnan(f.metal_v)]
    by = content.say("the source gives up") if worst.by == "source" else content.name(worst.by)
    least, most = min(f.weak_a for f in found), max(f.strong_a for f in found)
    return [
        [
            content.full_name(board),
            content.full_name(load),
            position.title,
            f"{value_text(least, 'current')} – {value_text(most, 'current')}",
            value_text(max(volts), "voltage") if volts else "-",
            by or content.say("nothing"),
            value_text(worst.latest_s, "time"),
        ]
    ]


def _faults(r: StateReport, load: str) -> list[FaultReport]:
    return [f for f in r.faults if f.part == load and _counts(f)]


def foot(content: Content, width: int, height: int) -> Iterable[Item]:
    """The lines of this sheet."""
    told = (
        (Pen(width=MEDIUM, dash=Dash.DASHED), N_("{neutral}")),
        (Pen(width=MEDIUM), N_("{ground_wire}, jumper")),
        (Pen(width=BAR), N_("bar, link")),
        (Pen(width=BAR, dash=Dash.DASHED), N_("link that is perhaps there")),
    )
    for n, (pen, words) in enumerate(told):
        y = 40 + 48 * n
        yield Line(0, y, 120, y, pen)
        yield Text(140, y + 12, content.say(words), 25, ink=Ink.INK)


GROUNDING = Sheet(
    "grounding", N_("Grounding and bonding"), N_("grounding diagram"), grounding_pages, foot=foot
)
