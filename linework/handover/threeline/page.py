"""The sheet of all conductors: its pages, and what its lines mean."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from reportlab.platypus import Flowable, Spacer

from linework.design import Design, End, Run, pole_map
from linework.design.names import natural
from linework.handover.conductors import conductors_text, pole_size_text
from linework.handover.content import Content
from linework.handover.drawn import Drawn
from linework.handover.ends import end_text
from linework.handover.locking import circuits_of
from linework.handover.rating_words import captions_text
from linework.handover.sheets import Band, Room, Sheet
from linework.handover.styles import text
from linework.handover.threeline.blocks import conductors
from linework.handover.threeline.layout import Layout
from linework.handover.threeline.model import (
    Block,
    Conductors,
    Contact,
    Device,
    Inner,
    Means,
    Port,
    Strip,
)
from linework.handover.threeline.paging import APART, Elsewhere, Paper, pages, planned
from linework.handover.threeline.painting import painted
from linework.handover.threeline.pieces import divided
from linework.handover.threeline.shape import TALL, Words
from linework.handover.threeline.signs import bond_sign, contact_sign, device_sign, pen_of
from linework.picture.model import Group, Item, Line, Text
from linework.picture.pdf import POINTS_PER_TENTH
from linework.sheet.parts import captions_in_words
from linework.sheet.titleblock import fitted
from linework.study.once import once
from linework.words import N_

_UNDER = 10.0
"""Free under the note, in points."""
_CLEAR = 15
"""Of the centring marks of the frame, in tenths of a millimetre."""
_TITLE = 520
"""A device is named over its terminal in no more room than this, in tenths of a millimetre."""


def conductor_pages(content: Content, room: Room) -> list[Band]:
    """A band for each page; nothing where there is no circuit to draw. Where a block is wider than
    the paper all are made as much smaller."""
    words, boards = _words(content), _boards(content)
    out: list[Band] = []
    found = laid_pages(content, room)
    width = int(room.width / POINTS_PER_TENTH)
    widest = max((each.width for page in found for each in page), default=0) + 2 * _CLEAR
    scale = min(1.0, width / widest)
    for layouts in found:
        head = [] if out else _head(content, room)
        items: list[Item] = []
        y = _CLEAR
        for layout in layouts:
            items.append(Group(tuple(painted(layout, words, boards)), _CLEAR, y))
            y += layout.height + APART
        drawn = Drawn(items, int(width / scale), y - APART, scale)
        out.append(Band(1, [*head, drawn], fresh=True))
    return out


def laid_pages(content: Content, room: Room) -> list[list[Layout]]:
    """The strips of each page."""
    found = conductors_of(content.design, content.design.revision)
    if found is None or not found.blocks:
        return []
    paper = _paper(room, _head(content, room))
    parted, strips = _planned(content, found, paper)
    words, boards = _words(content), _boards(content)
    return pages(parted, words, strips, paper.width, boards, _elsewhere(content))


def _head(content: Content, room: Room) -> list[Flowable]:
    found = conductors_of(content.design, content.design.revision)
    assert found is not None
    width = int(room.width / POINTS_PER_TENTH)
    return [
        text(content.say("All conductors"), "title", anchor="conductors"),
        text(_note(content, found), "small"),
        Drawn([Group(tuple(_legend(content, width)), _CLEAR, 0)], width, _LEGEND),
        Spacer(1, _UNDER),
    ]


@once
def conductors_of(design: Design, _: int) -> Conductors | None:
    """The conductors of a design; ``_``: its revision."""
    circuits = circuits_of(design, design.revision)
    return conductors(design, circuits) if circuits else None


def _paper(room: Room, head: Sequence[Flowable]) -> Paper:
    taken = sum(
        float(each.wrap(room.width, 1e5)[1] + each.getSpaceBefore() + each.getSpaceAfter())
        for each in head
    )
    width, height = (int(side / POINTS_PER_TENTH) for side in (room.width, room.height - 2))
    first = height - int(taken / POINTS_PER_TENTH)
    return Paper(width - 2 * _CLEAR, height - _CLEAR, first - _CLEAR)


def _planned(
    content: Content, found: Conductors, paper: Paper
) -> tuple[Conductors, Sequence[Strip]]:
    """The same in every pass: which pages there are must not hang on their own numbers."""
    key = paper.width, paper.height, paper.first
    if key not in found.plans:
        away = content.say("sheet {number}", number="000")
        elsewhere = Elsewhere(lambda here, there: away, _elsewhere(content).pointer)
        parted = divided(found, paper.first)
        strips = planned(parted, _words(content), paper, _boards(content), elsewhere)
        found.plans[key] = parted, strips
    return found.plans[key]


def _elsewhere(content: Content) -> Elsewhere:
    def where(here: Strip, there: Strip) -> str:
        if here.page == there.page:
            down = there.number > here.number
            return content.say("below") if down else content.say("above")
        return content.say("sheet {number}", number=_sheet(content, there.page))

    def pointer(owner: str, far: Port, told: str) -> str:
        return f"{_run(content, owner)[-1]}: {content.name(far.part)}, {told}"

    return Elsewhere(where, pointer)


def _sheet(content: Content, page: int) -> str:
    """The number of one of the pages, "…" while pages are counted."""
    first = content.pages.get(CONDUCTORS.key)
    return "…" if first is None else str(first + page - 1)


def _boards(content: Content) -> frozenset[str]:
    return frozenset(p.id for p in content.design.parts if content.design.kind(p).board)


def _note(content: Content, found: Conductors) -> str:
    say = content.say
    told = [
        say(
            "Every conductor of every run, from the circuit that was judged; switches as they rest."
            " Sizes and lengths: conductor schedule."
        )
    ]
    if found.cases > 1:
        told.append(
            say(
                "Drawn is the first of {count} cases of what is not known; links dashed: only in"
                " some of them.",
                count=found.cases,
            )
        )
    if found.doubtful:
        names = ", ".join(sorted(map(content.name, found.doubtful), key=natural))
        told.append(say("Not the same inside in all cases: {parts}.", parts=names))
    if found.missing:
        names = ", ".join(map(content.name, found.missing))
        told.append(say("No conductor is joined by: {runs}.", runs=names))
    return " ".join(told)


# words


def _words(content: Content) -> Words:
    design = content.design

    def block(each: Block) -> tuple[str, Sequence[str]]:
        part = design.part(each.part)
        if each.elsewhere:
            port = each.ports[0]
            return end_text(content, End(port.part, port.terminal)), [each.elsewhere]
        kind = design.kind(part)
        name = f"{part.designation} {part.title or content.say(kind.name)}".strip()
        if each.pieces > 1:
            name += content.say(" ({piece} of {pieces})", piece=each.piece, pieces=each.pieces)
        return name, [captions_in_words(design, part)]

    def port(each: Port, others: Sequence[str]) -> str:
        part = design.part(each.part)
        if each.elsewhere:  # its name says which it is
            return ""
        if each.root == each.part:
            own = end_text(content, End(each.part, each.terminal))
            own = own.removeprefix(part.designation).strip()
        else:
            own = _device(content, each.part)
        return ", ".join(filter(None, [*(_device(content, other) for other in others), own]))

    def soil(part: str) -> bool:
        return design.kind(design.part(part)).electrode

    def run(owner: str) -> list[str]:
        return _run(content, owner)

    return Words(block, port, run, content.name, content.full_name, soil)


def _device(content: Content, part_id: str) -> str:
    """ "QF3 20 A": a part that sits in another."""
    part = content.design.part(part_id)
    kind = content.design.kind(part)
    told = captions_text(kind, content.design.values(part), content.family)
    return fitted(f"{part.designation} {told}".strip(), 0, 0, _TITLE, TALL, least=TALL).text


def _run(content: Content, owner: str) -> list[str]:
    """ "W14 14 AWG", then "W14"; of what a hand puts in, a word."""
    element = content.design.get(owner)
    if not isinstance(element, Run):
        return [content.say("plug")]
    values = content.design.run_values(element)
    pairs = pole_map(content.design, element)
    sizes = dict.fromkeys(pole_size_text(values, p, q) for p, q in pairs)
    told = conductors_text(content, element, values) if len(sizes) > 1 else next(iter(sizes), "")
    name = content.name(owner)
    return [f"{name} {told}".strip(), name]


_LEGEND = 220
"""Height of the legend, in tenths of a millimetre."""


def _legend(content: Content, width: int) -> Iterable[Item]:
    """The lines and signs of this sheet."""
    lines = (("L", N_("{hot}, plus")), ("N", N_("{neutral}, minus")), ("PE", N_("{ground_wire}")))
    for n, (pole, words) in enumerate(lines):
        yield Line(0, 40 + 48 * n, 150, 40 + 48 * n, pen_of(pole))
        yield Text(170, 52 + 48 * n, content.say(words), 25)
    yield from bond_sign(_sign(Means.BOND), 0, 150, 0, 184)
    yield Text(170, 196, content.say("{neutral_ground_link}"), 25)
    signs = (
        (Means.SWITCH, N_("contact of a switch")),
        (Means.BREAKER, N_("pole of a breaker")),
        (Means.FUSE, N_("fuse")),
        (Means.PLUG, N_("plug and socket")),
    )
    devices = (
        (Device.SOURCE, N_("gives power")),
        (Device.DRAW, N_("takes power")),
        (Device.CELLS, N_("cells")),
        (Device.WINDING, N_("winding")),
    )
    for n, ((means, words), (device, told)) in enumerate(zip(signs, devices, strict=True)):
        y = 40 + 48 * n
        if width > _TWO:
            yield from contact_sign(_sign(means), _TWO - 350, y)
            yield Text(_TWO - 300, y + 12, content.say(words), 25)
        if width > _THREE:
            yield from device_sign(Inner("", "", device, ()), _THREE - 350, y - 20, y + 20)
            yield Text(_THREE - 300, y + 12, content.say(told), 25)


_TWO, _THREE = 860, 1330
"""From which width of its room on two, three columns of signs stand in the legend."""


def _sign(means: Means) -> Contact:
    return Contact("", "", 0, 0, means)


CONDUCTORS = Sheet(
    "conductors",
    N_("Conductor drawing"),
    N_("conductor drawing"),
    conductor_pages,
    annex=True,
)
