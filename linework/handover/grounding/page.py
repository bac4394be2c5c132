"""The sheet of neutral and ground: the drawing, which link counts when, the ground wires."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from reportlab.platypus import CondPageBreak, Flowable, Spacer

from linework.design import Part, Run
from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.drawn import Drawn
from linework.handover.grounding.bars import Grounds, Strap, Tie, Way, grounds
from linework.handover.grounding.counting import Counting, countings, shown_by_tester, sign_of
from linework.handover.grounding.drawing import Words, rows
from linework.handover.grounding.naming import (
    ground_size,
    run_name,
    strap_name,
    strap_state,
    wire_letters,
)
from linework.handover.grounding.signs import position_sign
from linework.handover.locking import circuits_of
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import BETWEEN, WIDE, Cell, beside, table, text, with_room
from linework.picture.inks import BAR, MEDIUM, Dash, Ink, Pen
from linework.picture.model import Item, Line, Text
from linework.picture.pdf import POINTS_PER_TENTH
from linework.wiring import is_protective
from linework.words import N_


def grounding_pages(content: Content, room: Room) -> list[Flowable]:
    """Nothing where no conductor is a neutral, a ground or a bond."""
    found = grounds(content.design, circuits_of(content.design, content.design.revision))
    if not found.boxes:
        return []
    say = content.say
    width = int(room.width / POINTS_PER_TENTH)
    most = int((room.height - 60) / POINTS_PER_TENTH)
    told = countings(content)
    out: list[Flowable] = [
        text(say("Neutral and ground"), "title", anchor="grounding"),
        text(" ".join(_notes(content, found, told))),
        Spacer(1, 4),
    ]
    drawn = rows(found, _words(content, found, told), width, most)
    out += [Drawn(items, width, high) for items, high in drawn]
    return [*out, *_tables(content, told, room)]


def _notes(content: Content, found: Grounds, told: Sequence[Counting]) -> Iterator[str]:
    """How the drawing is to be read."""
    say = content.say
    if has_neutral(found):
        yield say("Over the boxes {neutral}, under them {ground}; the bars of each part between.")
    else:
        yield say("The bars of each part, and the rails to which they are joined.")
    if told:
        yield say("Numbers at a link: the positions in which it counts.")
    if any("?" in sign_of(told, strap.part, strap.when) for strap in found.straps):
        yield say("With a question mark: perhaps, it hangs on what is not known.")
    if any(wire_letters(content).values()):
        yield say("Letters at a wire: what it is, below.")


def has_neutral(found: Grounds) -> bool:
    """Whether a bar of neutral is drawn."""
    return any(bar.pole == "N" for bar in found.bars)


def _tables(content: Content, told: Sequence[Counting], room: Room) -> list[Flowable]:
    """What the drawing does not say; on wide paper side by side, unless that fills a page."""
    half = (room.width - BETWEEN) / 2
    left, right = _links(content, told, half), _wires(content, half)
    if room.width >= WIDE and max(_height(left, half), _height(right, half)) < room.height / 2:
        cells = [[e for e in side if not isinstance(e, CondPageBreak)] for side in (left, right)]
        if all(cells):
            return [Spacer(1, 8), beside(cells, [half + BETWEEN, half], BETWEEN)]
    return [*_links(content, told, room.width), *_wires(content, room.width)]


def _height(column: list[Flowable], width: float) -> float:
    tall = (each for each in column if not isinstance(each, CondPageBreak))
    return sum(float(each.wrap(width, 1e5)[1] + each.getSpaceBefore()) for each in tall)


# what is written in the drawing


def _words(content: Content, found: Grounds, told: Sequence[Counting] = ()) -> Words:
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

    def sign(strap: Strap) -> str:
        return sign_of(told, strap.part, strap.when)

    return Words(box, lambda way: _way(content, way, told), tie, end, content.name, sign)


def _way(content: Content, way: Way, told: Sequence[Counting]) -> list[str]:
    """ "W1 W3 10 AWG, by XP1": its runs, the size of their ground, what parts it; then without
    that, then the runs alone; at last of a way that an isolator is in that isolator alone."""
    sized, names = _sized(content, way.over, way.start.pole != "N" or way.bond)
    counts = ", ".join(filter(None, (sign_of(told, owner) for owner in way.over if way.bond)))
    sized = content.say("{way}, link in {numbers}", way=sized, numbers=counts) if counts else sized
    opens = ", ".join(map(content.name, way.opens))
    full = content.say("{way}, by {parts}", way=sized, parts=opens) if opens else sized
    passed = (content.design.get(owner) for owner in way.over)
    found = (p for p in passed if isinstance(p, Part) and _isolates(p, content))
    isolators = ", ".join(part.designation for part in found)
    last = [content.say("by {parts}", parts=isolators)] if isolators else []
    return list(dict.fromkeys((full, sized, names, *last)))


def _isolates(part: Part, content: Content) -> bool:
    """Whether a part keeps the two sides of a ground wire apart, and joins nothing else."""
    kind, values = content.design.kind(part), content.design.values(part)
    poles = {pole for t in kind.terminals(values) for pole in t.poles}
    return bool(kind.keeps_apart(values)) and all(map(is_protective, poles))


def _sized(content: Content, over: Iterable[str], sizes: bool = True) -> tuple[str, str]:
    """What a way goes over, with the size of its ground, and without."""
    names, told = [], []
    letters = wire_letters(content)
    marks: dict[str, None] = {}
    for owner in over:
        element = content.design.get(owner)
        names.append(_over(content, owner))
        if isinstance(element, Run) and sizes:
            told.append(ground_size(content, element))
            letter = letters.get(run_name(content, element), "")
            marks |= {f"({letter})": None} if letter else {}
    words = " ".join(names)
    return " ".join((words, *dict.fromkeys(filter(None, told)), *marks)), words


def _over(content: Content, owner: str) -> str:
    """A run or electrode by its designation; that of a supply is not ours."""
    element = content.design.get(owner)
    site = isinstance(element, Part) and content.design.kind(element).source.off_site
    return content.say("site electrode") if site else content.name(owner)


# which link counts


def _links(content: Content, told: Sequence[Counting], width: float) -> list[Flowable]:
    """The key to the signs in the drawing: positions, the link of each live source, the tester."""
    say = content.say
    rows_: list[list[Cell]] = [
        [
            Drawn(*_key(str(each.number))),
            each.titles,
            [text(line, "cell") for line in each.links],
            [text(line, "cell") for line in shown_by_tester(content, each.reports)],
        ]
        for each in told
    ]
    if not rows_:
        return []
    heads = [say("no."), say("position"), say("its {neutral_ground_link}"), say("outlet tester")]
    head = text(say("Which link counts"), "heading")
    return [with_room(), head, table(heads, rows_, width)]


def _key(number: str) -> tuple[list[Item], int, int]:
    items, wide = position_sign(number, 0, 0)
    return items, wide, 40


# ground wires


def _wires(content: Content, width: float) -> list[Flowable]:
    """Every run that carries ground or a bond, by what the code calls it and its size; the letter
    that stands at it in the drawing."""
    say = content.say
    alike: dict[tuple[str, str], list[str]] = {}
    runs = sorted(content.design.runs, key=lambda r: natural(content.name(r.id)))
    letters = wire_letters(content)
    for run in runs:
        if name := run_name(content, run):
            key = (name, ground_size(content, run))
            alike.setdefault(key, []).append(content.name(run.id))
    order = [*letters]
    told: list[list[Cell]] = [
        [letters[name], name, size, " ".join(alike[name, size])]
        for name, size in sorted(alike, key=lambda key: order.index(key[0]))
    ]
    told += _isolators(content)
    if not told:
        return []
    heads = ["", say("what it is"), say("size"), say("runs")]
    head = text(say("{Ground_wires} and bonds"), "heading")
    return [with_room(), head, table(heads, told, width)]


def _isolators(content: Content) -> Iterator[list[Cell]]:
    """What sits in a ground wire and keeps its two sides apart, with the runs at it."""
    design = content.design
    for part in sorted(design.parts, key=lambda p: natural(p.designation)):
        if _isolates(part, content):
            kind = design.kind(part)
            runs = sorted((content.name(r.id) for r in design.runs_at(part.id)), key=natural)
            yield ["", f"{content.say(kind.name)} {part.designation}", "", " ".join(runs)]


def foot(content: Content, width: int, height: int) -> Iterable[Item]:
    """The lines of this sheet, those that are drawn."""
    found = grounds(content.design, circuits_of(content.design, content.design.revision))
    lines = (
        (
            Pen(width=MEDIUM, dash=Dash.DASHED),
            N_("{neutral}"),
            any(way.start.pole == "N" for way in found.ways),
        ),
        (Pen(width=MEDIUM), N_("{ground_wire}, jumper"), True),
        (Pen(width=BAR), N_("bar, link"), True),
        (
            Pen(width=BAR, dash=Dash.DASHED),
            N_("link that is perhaps there"),
            not all(strap.certain for strap in found.straps),
        ),
    )
    for n, (pen, words) in enumerate((pen, words) for pen, words, drawn in lines if drawn):
        y = 40 + 48 * n
        yield Line(0, y, 120, y, pen)
        yield Text(140, y + 12, content.say(words), 25, ink=Ink.INK)


GROUNDING = Sheet(
    "grounding", N_("Grounding and bonding"), N_("grounding diagram"), grounding_pages, foot=foot
)
