"""A picture of what feeds what in one state: boxes of the sources that are on, before what hangs on
them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from linework.circuit.model import Circuit
from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.drawn import Drawn
from linework.picture.inks import BROAD, FINE, HEAVY, Ink, Pen
from linework.picture.marks import arrow
from linework.picture.measure import text_width
from linework.picture.model import Item, Line, Rect, Text
from linework.study.report import StateReport
from linework.study.walks import Walk, walk, way_to
from linework.wiring import Pole, is_ungrounded

_HIGH, _PITCH, _GAP, _PAD = 60, 95, 45, 14
_TALL = 25
_IN = 40
"""Where a further line begins that continues one without room."""
_STEM = 14
"""From the left edge of a box to the line that leads down to its further branches."""
_LIVE = Pen(Ink.INK, HEAVY)
_FED = Pen(Ink.INK, FINE)


@dataclass(frozen=True)
class Tree:
    """Sources that feed together, and what they feed: the ids of boards and devices under the id
    of that through which they are fed, under "" what is nearest to the sources."""

    sources: tuple[str, ...]
    fed: Mapping[str, Sequence[str]]


def feeding(content: Content, r: StateReport, width: int) -> Drawn:
    """Each source that is on, thick, before what it feeds; a bar under what holds the link that
    counts. ``width`` in tenths of a millimetre; as high as its rows."""
    drawing = _Drawing(content, width)
    for tree in trees(content, r):
        bonds = (bond for bond in r.bonds if bond.is_ac and {*bond.sources} & {*tree.sources})
        drawing.links = {place for bond in bonds for place in bond.places}
        drawing.add(tree)
    return Drawn(drawing.items, width, drawing.top)


def trees(content: Content, r: StateReport) -> Iterator[Tree]:
    """For the sources that feed together, what they feed."""
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
            yield Tree(tuple(names), _branches(content, r, names, behind))


def _stored(content: Content, parts: Iterable[str]) -> bool:
    """Whether a store is among them: batteries of a string, and what charges them."""
    return any(content.design.kind(content.design.part(p)).source.stores for p in parts)


def _branches(
    content: Content, r: StateReport, sources: Sequence[str], fed: set[str]
) -> dict[str, list[str]]:
    """What hangs on each of these parts, "" the sources, as the live conductors lead in this
    state: on the last of them that they pass before."""
    circuit = content.circuit
    beside: dict[int, list[int]] = {}
    for branch in circuit.branches:
        closed = all(r.positions.get(key) in among for key, among in branch.when)
        if closed and _live(circuit, branch.a) and _live(circuit, branch.b):
            beside.setdefault(branch.a, []).append(branch.b)
            beside.setdefault(branch.b, []).append(branch.a)
    starts = [n for s in circuit.sources if s.owner in sources for n in (s.plus, s.minus)]
    starts = [node for node in starts if _live(circuit, node)]
    reached = walk(starts, lambda node: ((node, other) for other in beside.get(node, ())))
    found: dict[str, list[str]] = {}
    done: set[str] = set()
    for node in reached:
        for part in sorted({spot.part for spot in circuit.spots[node]} & (fed - done)):
            done.add(part)
            found.setdefault(_before(circuit, reached, node, part, fed), []).append(part)
    found.setdefault("", []).extend(sorted(fed - done, key=lambda p: natural(content.name(p))))
    return found


def _before(circuit: Circuit, reached: Walk[int, int], node: int, part: str, fed: set[str]) -> str:
    """The last of the parts that are fed on the way to a node, but for its own."""
    for passed in reversed(way_to(node, reached) or []):
        here = sorted({spot.part for spot in circuit.spots[passed]} & fed - {part})
        if here:
            return here[0]
    return ""


def _live(circuit: Circuit, node: int) -> bool:
    """Whether it lies on a conductor that feeds: hot, or plus."""
    poles = [Pole(spot.pole) for spot in circuit.spots[node] if spot.pole in {*Pole}]
    return any(map(is_ungrounded, poles))


@dataclass
class _Drawing:
    """What is drawn so far, and where the next row begins; ``links``: the parts that hold a link
    that counts for what is drawn."""

    content: Content
    width: int
    items: list[Item] = field(default_factory=list)
    top: int = 10
    links: set[str] = field(default_factory=set)

    def add(self, tree: Tree) -> None:
        """The sources of a tree in a row, and what they feed."""
        row, x = self.top, 4
        self.top += _PITCH
        stem = x
        for number, part in enumerate(tree.sources):
            if number and x + _GAP + self._wide(part) > self.width:
                row, x = self._row(), _IN
            if number:
                middle = row + _HIGH // 2
                self.items.append(Line(x, middle, x + _GAP, middle, Pen(Ink.INK, BROAD)))
                x += _GAP
            stem, x = x, self._box(part, x, row, source=True)
        self._feed(tree, "", stem, x, row)

    def _feed(self, tree: Tree, part: str, stem: int, x: int, row: int) -> None:
        """What is fed through a part, whose box ends at ``x``: behind it what comes first, further
        branches under it; what feeds nothing itself stands side by side."""
        fed = tree.fed.get(part, ())
        ends = [each for each in fed if each not in tree.fed]
        blocks = [[each] for each in fed if each in tree.fed] + ([ends] if ends else [])
        for number, block in enumerate(blocks):
            at, here = (x, row) if not number else (stem + _STEM, self._row())
            if number:
                down = row + _HIGH
                self.items.append(Line(at, down, at, here + _HIGH // 2, _LIVE))
            begun, right, lower = self._block(block, at, here)
            if block[0] in tree.fed:
                self._feed(tree, block[0], begun, right, lower)

    def _block(self, block: Sequence[str], x: int, row: int) -> tuple[int, int, int]:
        """Boxes side by side behind an arrow; where the last begins and ends, and its row."""
        begun = x
        for number, part in enumerate(block):
            lead = 0 if number else _GAP
            if x + lead + self._wide(part) > self.width and x > _IN:
                row, x, lead = self._row(), _IN, _GAP
            if lead:
                middle = row + _HIGH // 2
                self.items += arrow(x, middle, x + lead, middle, pen=_LIVE)
            begun, x = x + lead, self._box(part, x + lead, row, source=False)
        return begun, x, row

    def _row(self) -> int:
        self.top += _PITCH
        return self.top - _PITCH

    def _wide(self, part: str) -> int:
        return text_width(self.content.name(part), _TALL, bold=True) + 2 * _PAD

    def _box(self, part: str, x: int, top: int, source: bool) -> int:
        """The box of a part, and where it ends."""
        wide = self._wide(part)
        middle = x + wide // 2, top + _HIGH // 2
        self.items.append(Rect(x, top, wide, _HIGH, pen=_LIVE if source else _FED, fill=Ink.PAPER))
        if source:
            self.items.append(Rect(x + 8, top + 8, wide - 16, _HIGH - 16, pen=_FED))
        name = self.content.name(part)
        self.items.append(Text(*middle, name, _TALL, "middle", "middle", True))
        if part in self.links:
            bar = Rect(middle[0] - 22, top + _HIGH + 8, 44, 14, pen=None, fill=Ink.INK)
            self.items.append(bar)
        return x + wide
