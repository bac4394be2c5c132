"""Which blocks stand on which page."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import networkx as nx

from linework.handover.threeline.columns import columns
from linework.handover.threeline.layout import Layout, Pointer, laid_out
from linework.handover.threeline.model import Block, Conductors, Port, Ribbon, Strip
from linework.handover.threeline.pieces import before_of
from linework.handover.threeline.shape import Words

_WORTH = 0.6
"""A strip may hold so much less than it could where fewer conductors are cut then."""
_ENOUGH = 0.5
"""A strip may be so much shorter where it then has room on the page that is begun."""
APART = 60
"""Between two strips of a page."""


@dataclass(frozen=True)
class Paper:
    """Width and height of what may be drawn on a page, in tenths of a millimetre; of the first
    page less."""

    width: int
    height: int
    first: int


@dataclass(frozen=True)
class Elsewhere:
    """How one is led from a strip to another: in words, and at a port whose ribbon is drawn there,
    with the run and the port at its other end."""

    where: Callable[[Strip, Strip], str]
    pointer: Callable[[str, Port, str], str]


def planned(
    found: Conductors, words: Words, paper: Paper, boards: frozenset[str], elsewhere: Elsewhere
) -> list[Strip]:
    """The strips into which the blocks go, each block into one."""
    return _Paging(found, words, boards, elsewhere).planned(paper)


def pages(
    found: Conductors,
    words: Words,
    strips: Sequence[Strip],
    width: int,
    boards: frozenset[str],
    elsewhere: Elsewhere,
) -> list[list[Layout]]:
    """The strips of each page laid out. A ribbon is drawn on the first of those of its blocks."""
    paging = _Paging(found, words, boards, elsewhere)
    paging.strip = {key: strip for strip in strips for key in strip.keys}
    made: list[list[Layout]] = [[] for _ in range(strips[-1].page if strips else 0)]
    for strip in strips:
        made[strip.page - 1].append(paging.best(strip, width))
    return made


class _Paging:
    def __init__(
        self, found: Conductors, words: Words, boards: frozenset[str], elsewhere: Elsewhere
    ) -> None:
        self.found, self.words, self.boards = found, words, boards
        self.elsewhere = elsewhere
        self.strip: dict[str, Strip] = {}

    def planned(self, paper: Paper) -> list[Strip]:
        """As many blocks in a strip as have room, as many strips on a page as it holds."""
        waiting = self._walk()
        strips: list[Strip] = []
        page, left = 1, paper.first
        while waiting:
            most = paper.height if strips else paper.first
            strip = self._most(waiting, len(strips) + 1, paper.width, most)
            if self._high(strip) > left and strips:
                less = self._most(waiting, len(strips) + 1, paper.width, left)
                if self._high(less) <= left and len(less.keys) >= _ENOUGH * len(strip.keys):
                    strip = less
                else:
                    page, left = page + 1, paper.height
            airy = replace(strip, airy=True)
            strip = replace(airy if self._high(airy) <= left else strip, page=page)
            left -= self._high(strip) + APART
            strips.append(strip)
            self.strip |= dict.fromkeys(strip.keys, strip)
            waiting = waiting[len(strip.keys) :]
        return strips

    def _high(self, strip: Strip) -> int:
        return self._laid(strip, sized=False).height

    def _walk(self) -> list[str]:
        """Blocks one behind the other as power comes to them, what hangs on one alone right
        behind it."""
        column = columns(list(self.found.blocks), self.found.ribbons)
        graph = nx.Graph()
        graph.add_nodes_from(self.found.blocks)
        graph.add_edges_from((r.a.block, r.b.block) for r in self.found.ribbons)
        pieces = [block for block in self.found.blocks.values() if block.piece > 1]
        graph.add_edges_from((block.key, before_of(block)) for block in pieces)
        place = {key: n for n, key in enumerate(self.found.blocks)}

        def rank(key: str) -> tuple[bool, int, int]:
            return graph.degree(key) > 1, column[key], place[key]

        order: dict[str, None] = {}
        for start in sorted(place, key=lambda key: (column[key], place[key])):
            stack = [start]
            while stack:
                key = stack.pop()
                if key not in order:
                    order[key] = None
                    stack += sorted(set(graph[key]) - order.keys(), key=rank, reverse=True)
        return list(order)

    def _most(self, waiting: Sequence[str], number: int, width: int, height: int) -> Strip:
        """As many of those that wait as have room beside each other."""

        def first(count: int) -> Strip:
            return Strip(number, 1, tuple(waiting[:count]))

        def fits(count: int) -> bool:
            layout = self._laid(first(count), sized=False)
            return layout.width <= width and layout.height <= height

        low, high = 1, len(waiting)
        if fits(high):
            return first(high)
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (middle, high) if fits(middle) else (low, middle)
        least = max(1, int(low * _WORTH))
        return first(min(range(low, least - 1, -1), key=lambda n: self._cut(waiting[:n])))

    def _cut(self, keys: Sequence[str]) -> int:
        """The conductors that lead away from some blocks and those of earlier pages."""
        inside = {*keys, *self.strip}
        return sum(
            len(r.a.pins)
            for r in self.found.ribbons
            if (r.a.block in inside) != (r.b.block in inside)
        )

    def best(self, strip: Strip, width: int) -> Layout:
        """With the sizes of conductors where they find room."""
        layout = self._laid(strip, sized=True)
        fits = layout.width <= width
        return layout if fits else self._laid(strip, sized=False)

    def _laid(self, strip: Strip, sized: bool) -> Layout:
        blocks = {key: self.found.blocks[key] for key in strip.keys}
        ribbons: list[Ribbon] = []
        pointers: list[Pointer] = []
        for ribbon in self.found.ribbons:
            here = [port for port in (ribbon.a, ribbon.b) if port.block in strip.keys]
            if len(here) == 2:
                ribbons.append(ribbon)
            elif here:
                far = ribbon.b if here[0] == ribbon.a else ribbon.a
                there = self.strip.get(far.block, _LATER)
                if there.number < strip.number:
                    pointers.append(self._pointer(ribbon, here[0], far, strip, there))
                else:
                    note = self.elsewhere.where(strip, there)
                    ghost, led = _ghost(ribbon, far, note)
                    blocks[ghost.key] = ghost
                    ribbons.append(led)
        return laid_out(
            blocks,
            ribbons,
            pointers,
            self.words,
            boards=self.boards,
            sized=sized,
            airy=strip.airy,
        )

    def _pointer(self, ribbon: Ribbon, near: Port, far: Port, here: Strip, there: Strip) -> Pointer:
        where = self.elsewhere.where(here, there)
        text = self.elsewhere.pointer(ribbon.owner, far, where)
        return Pointer(near, text, (near == ribbon.a) == ribbon.flows)


_LATER = Strip(10**6, 10**6, ())


def _ghost(ribbon: Ribbon, far: Port, note: str) -> tuple[Block, Ribbon]:
    """The port at which a ribbon ends on another strip, and the ribbon led there."""
    key = f"{ribbon.owner} {far.end}"
    ghost = replace(far, block=key, elsewhere=True)
    poles = {pin.net: pin.pole for pin in far.pins}
    a, b = (ghost, ribbon.b) if far == ribbon.a else (ribbon.a, ghost)
    block = Block(key, far.part, [ghost], poles=poles, elsewhere=note)
    return block, replace(ribbon, a=a, b=b)
