"""Draws a page: blocks with what is inside them, ribbons, names."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from linework.handover.threeline.inside import inside
from linework.handover.threeline.layout import Layout, Route
from linework.handover.threeline.model import Contact, Means
from linework.handover.threeline.shape import PIN, TALL, Shape, Words
from linework.handover.threeline.signs import REACH, contact_sign, pen_of
from linework.picture.inks import MEDIUM, THIN, Ink, Pen
from linework.picture.model import Circle, Group, Item, Line, Text

_RING = Pen(width=THIN)
_SIGN_AT = 36
_PUT_IN = Contact("", "", 0, 0, Means.PLUG)


def painted(layout: Layout, words: Words, boards: frozenset[str]) -> list[Item]:
    """The items of a page; ``boards``: parts with wide bars."""
    items: list[Item] = []
    for shape, x, y in layout.shapes.values():
        wide = shape.block.part in boards
        items.append(Group(tuple(inside(shape, words, wide)), x, y))
    for route in layout.routes:
        items += _ribbon(route)
    for shape, x, y in layout.shapes.values():
        items += [Circle(x + px, y + py, PIN, _RING, Ink.PAPER) for px, py in _ends(shape)]
    for told in layout.written:
        items.append(Text(told.x, told.y, told.text, TALL, "end" if told.at_end else "start"))
    return items


def _ends(shape: Shape) -> Iterator[tuple[int, int]]:
    for port in shape.block.ports:
        yield from shape.pins(port)


def _ribbon(route: Route) -> Iterator[Item]:
    """Every conductor by its kind; at its start what parts it: a plug, or a break."""
    for i, way in enumerate(route.ways):
        pen = pen_of(route.start.pins[i].pole)
        (x, y), *_ = way
        if i in route.ribbon.cut or route.ribbon.plug:
            yield from _parted(x, y, i in route.ribbon.cut, pen)
            way = ((x + _SIGN_AT + REACH, y), *way[1:])
        yield from (Line(*one, *other, pen) for one, other in pairwise(way))


def _parted(x: int, y: int, cut: bool, pen: Pen) -> Iterator[Item]:
    middle = x + _SIGN_AT
    yield Line(x, y, middle - REACH, y, pen)
    if not cut:
        yield from contact_sign(_PUT_IN, middle, y)
        return
    for side in (-1, 1):
        at = middle + side * REACH
        yield Line(at - 4, y + 8, at + 4, y - 8, Pen(width=MEDIUM))
