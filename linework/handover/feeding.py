"""A picture of what feeds what in one state: a row of boxes for the sources that are on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.drawn import Drawn
from linework.picture.inks import BROAD, FINE, HEAVY, Ink, Pen
from linework.picture.marks import arrow
from linework.picture.measure import text_width
from linework.picture.model import Item, Line, Rect, Text
from linework.study.report import StateReport
from linework.study.walks import walk

_HIGH, _PITCH, _GAP, _PAD = 60, 105, 45, 14
_TALL = 25
_LIVE = Pen(Ink.INK, HEAVY)
_FED = Pen(Ink.INK, FINE)


def feeding(content: Content, r: StateReport, width: int) -> Drawn:
    """Each source that is on, thick, before what it feeds; a bar under what holds the link that
    counts. ``width`` in tenths of a millimetre; as high as its rows."""
    items: list[Item] = []
    top = 10
    for sources, fed in _rows(content, r):
        bonds = (bond for bond in r.bonds if bond.is_ac and {*bond.sources} & {*sources})
        links = {place for bond in bonds for place in bond.places}
        boxes = [(part, True) for part in sources] + [(part, False) for part in fed]
        placed, top = _row(content, boxes, links, top, width)
        items += placed
    return Drawn(items, width, top)


def _rows(content: Content, r: StateReport) -> Iterator[tuple[list[str], list[str]]]:
    """The sources that feed together, and the boards and devices that they feed, nearest first."""
    design = content.design
    fed: dict[frozenset[str], set[str]] = {}
    for (part, _), owners in r.live.items():
        kind = design.kind(design.part(part))
        mine = {part} if kind.board or kind.source else set()
        near = [group for group in fed if _stored(content, group & {*owners})]
        joined = frozenset(owners).union(*near)
        fed[joined] = mine.union(*(fed.pop(group) for group in near), fed.get(joined, ()))
    for group in sorted(fed, key=lambda g: min(natural(content.name(p)) for p in g)):
        behind = fed[group] - group
        if behind or not any(group < more for more in fed):
            names = sorted(group, key=lambda p: natural(content.name(p)))
            yield names, _nearest(content, names[0], behind)


def _stored(content: Content, parts: Iterable[str]) -> bool:
    """Whether a store is among them: batteries of a string, and what charges them."""
    return any(content.design.kind(content.design.part(p)).source.stores for p in parts)


def _nearest(content: Content, start: str, parts: set[str]) -> list[str]:
    """Parts in the order in which wires, seats and cords lead to them."""
    design = content.design

    def beside(part: str) -> Iterator[tuple[str, str]]:
        for run in design.runs_at(part):
            yield part, run.b.part if run.a.part == part else run.a.part
        yield from ((part, seat.host) for seat in design.seats_of(part))
        yield from ((part, seat.part) for seat in design.seated_in(part))

    reached = list(walk([start], beside))
    return sorted(parts, key=lambda p: reached.index(p) if p in reached else len(reached))


def _row(
    content: Content, boxes: list[tuple[str, bool]], links: set[str], top: int, width: int
) -> tuple[list[Item], int]:
    """The boxes of one row, those without room on further lines; and where the next row begins."""
    items: list[Item] = []
    x = 4
    for number, (part, source) in enumerate(boxes):
        name = content.name(part)
        wide = text_width(name, _TALL, bold=True) + 2 * _PAD
        lead = _GAP if number else 0
        if number and x + lead + wide > width:
            x, top = 40, top + _PITCH
        if number:
            items += _lead(x, top, boxes[number - 1][1] and source)
            x += lead
        items.append(Rect(x, top, wide, _HIGH, pen=_LIVE if source else _FED, fill=Ink.PAPER))
        if source:
            items.append(Rect(x + 8, top + 8, wide - 16, _HIGH - 16, pen=_FED))
        items.append(Text(x + wide // 2, top + _HIGH // 2, name, _TALL, "middle", "middle", True))
        if part in links:
            items.append(Rect(x + wide // 2 - 22, top + _HIGH + 8, 44, 14, pen=None, fill=Ink.INK))
        x += wide
    return items, top + _PITCH


def _lead(x: int, top: int, plain: bool) -> tuple[Item, ...]:
    """A line between sources that feed together, an arrow to what is fed."""
    middle = top + _HIGH // 2
    if plain:
        return (Line(x, middle, x + _GAP, middle, Pen(Ink.INK, BROAD)),)
    return arrow(x, middle, x + _GAP, middle, pen=_LIVE)
