"""Match lines: where the drawing is cut, what goes on on another sheet ends at one line.

A chain line at the edge to which most of what is cut comes out, with a letter that is the same on
both sheets; a run ends there at the sign of the sheet and zone where it goes on. A run that would
have to go far round to it has its sign near by.
"""

from __future__ import annotations

import string
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import chain, count, product

from linework.design import Design, End, Run
from linework.picture.geometry import MODULE, Box, Point
from linework.picture.inks import MEDIUM, Dash, Pen
from linework.picture.model import Group, Line
from linework.picture.symbolfile import Direction
from linework.sheet.lettering import Block, Hung, Span, Wanted
from linework.sheet.parts import sheet_of
from linework.sheet.routing import Drawings, exit_of, run_end, simplified, way_boxes, way_to
from linework.sheet.routing import Polyline as Way
from linework.sheet.signs.extras import Reference, reference, sign
from linework.words import say

_PEN = Pen(width=MEDIUM, dash=Dash.CHAIN)
_LETTERS = tuple(c for c in string.ascii_uppercase if c not in "IO")
_REACH = 14
"""So many grid steps up and down from its own height a sign is looked for."""
_TRIALS = 5
_DEAR = 1600
"""A way that costs more than this, in its length and what it meets, is not gone."""
_ROUND, _SPOTS = 40, 12
"""So many grid steps around a terminal the free places are looked for that are nearest, so many."""
_AGAINST: dict[Direction, Direction] = {
    "right": "left",
    "left": "right",
    "down": "up",
    "up": "down",
}
_APART, _OVER, _AIR = 10, 45, 8
"""Free between two signs; from the outer signs to the ends of the line; from it to its name."""
_JOINED = 200
"""Signs no farther apart than this stand at one line."""


@dataclass(frozen=True)
class Cut:
    """A run that goes on on another sheet: its end ``here``, the words of its sign, and the letter
    of the match line between both sheets, which its sign bears where it does not stand there."""

    run: Run
    here: End
    sheet: int
    text: str
    letter: str

    @property
    def apart(self) -> str:
        """The words of its sign where that stands apart from the match line."""
        return f"{self.letter}-{self.letter} {self.text}"


@dataclass(frozen=True)
class MatchLine:
    """A match line as it lies on a sheet. ``sheet``: the number that the other one bears;
    ``outward``: to which side it lies."""

    letter: str
    sheet: int
    x: int
    top: int
    bottom: int
    outward: Direction

    @property
    def key(self) -> str:
        """Its name on the sheet."""
        return f"match-{self.letter}-{self.top}"

    @property
    def box(self) -> Box:
        """Around the line."""
        return Box(self.x, self.top, self.x, self.bottom)

    @property
    def group(self) -> Group:
        """The line as a tagged group."""
        return Group((Line(self.x, self.top, self.x, self.bottom, _PEN),), tag=self.key)

    @property
    def wanted(self) -> Wanted:
        """Its name and the sheet that it leads to, at one of its ends."""
        block: Block = (
            (Span(say("match line {letter}-{letter}", letter=self.letter), bold=True),),
            (Span(say("see sheet {number}", number=self.sheet)),),
        )
        across = "start" if self.outward == "right" else "end"
        inward = "end" if across == "start" else "start"
        spots = [
            Hung(block, self.x, y, hung, level)  # type: ignore[arg-type]
            for hung in (across, inward, "middle")
            for y, level in ((self.top - _AIR, "base"), (self.bottom + _AIR, "top"))
        ]
        return Wanted(self.key, tuple((hung,) for hung in spots), self.box, (block,), -1)


def letters(design: Design, cut: Sequence[Run]) -> dict[tuple[int, int], str]:
    """The letter of the match line between each two sheets; after Z they are doubled."""
    number = {part.id: sheet_of(design, part) for part in design.parts}
    pairs = {tuple(sorted((number[run.a.part], number[run.b.part]))) for run in cut}
    return dict(zip(sorted(pairs), _names(), strict=False))  # type: ignore[arg-type]


def _names() -> Iterator[str]:
    return (letter * times for times in count(1) for letter in _LETTERS)


@dataclass
class Matching:
    """The edges of one sheet. ``taken``: boxes where nothing may stand; ``ways``: what is laid;
    ``own``: its number; ``number_of``: from that of a sheet to what its title block says.

    ``found``: the reference of each run that is cut, as far as it was put, by its id.
    """

    design: Design
    drawings: Drawings
    area: Box
    taken: list[Box]
    ways: dict[str, Way]
    own: int
    number_of: Callable[[int], int]
    found: dict[str, Reference] = field(default_factory=dict)

    def lines(self, cuts: Sequence[Cut]) -> list[MatchLine]:
        """The match lines to every other sheet; the signs at them are in ``found`` then."""
        groups: dict[int, list[Cut]] = {}
        for cut in cuts:
            groups.setdefault(cut.sheet, []).append(cut)
        sides = {sheet: self._side(sheet, group) for sheet, group in groups.items()}
        made: list[MatchLine] = []
        for sheet in sorted(groups, key=lambda sheet: (sides[sheet], self._height(groups[sheet]))):
            side = sides[sheet]
            same = chain.from_iterable(groups[n] for n in groups if sides[n] == side)
            x, letter = self._edge(side, list(same)), groups[sheet][0].letter
            for low, high in self._pieces(groups[sheet], x, side):
                told = self.number_of(sheet)
                made.append(MatchLine(letter, told, x, low, high, side))
                self.taken.append(made[-1].box.grown(_AIR))
        return made

    def near(self, cut: Cut) -> None:
        """Puts the sign of a run that ends at no line near its terminal, else where it has room."""
        end = run_end(self.design, self.drawings, cut.run, cut.here)
        laid = [box for way in self.ways.values() for box in way_boxes(way)]
        taken = [*self.taken, *laid]
        part, signs = cut.here.part, [ref.box for ref in self.found.values()]
        made = reference(cut.run, part, end, cut.apart, self.drawings, self.area, taken)
        if made is None or any(box.overlaps(s) for box in way_boxes(made.way, 3) for s in signs):
            made = self._somewhere(cut)
        self.found[cut.run.id] = made
        self.taken.append(made.box)
        self.ways[cut.run.id] = made.way

    def _somewhere(self, cut: Cut) -> Reference:
        """At the cheapest way to a free place all round; straight ahead where nothing is free."""
        at, ahead = self._end(cut)
        best = simplified((run_end(self.design, self.drawings, cut.run, cut.here)[:2], at))
        box, items = sign(at, ahead, cut.apart)
        least = None
        for x, y, side in self._free_spots(cut, at):
            goal = (x, y, _AGAINST[side])
            way, cost = way_to(
                self.design, cut.run, cut.here, goal, self.drawings, self.ways, self.taken
            )
            if least is None or cost < least:
                least, best = cost, way
                box, items = sign((x, y), side, cut.apart)
        return Reference(cut.run.id, best, Group(items, tag=cut.run.id), box)

    def _free_spots(self, cut: Cut, at: Point) -> list[tuple[int, int, Direction]]:
        """The nearest places at which a sign would lie on nothing."""
        offs = sorted(
            product(range(-_ROUND, _ROUND + 1, 2), repeat=2),
            key=lambda off: (abs(off[0]) + abs(off[1]), off),
        )
        laid = [box for way in self.ways.values() for box in way_boxes(way, 3)]
        taken = [*self.taken, *laid]
        found: list[tuple[int, int, Direction]] = []
        for (dx, dy), side in product(offs, _AGAINST):
            x, y = at[0] + dx * MODULE, at[1] + dy * MODULE
            box = sign((x, y), side, cut.apart)[0]
            if self.area.contains(box) and not any(box.grown(_APART).overlaps(b) for b in taken):
                found.append((x, y, side))
            if len(found) == _SPOTS:
                break
        return found

    def _side(self, sheet: int, group: Sequence[Cut]) -> Direction:
        """Where most come out; where that is all the same a later sheet lies at the right."""
        ways = Counter(self._end(cut)[1] for cut in group)
        if ways["left"] == ways["right"]:
            return "right" if sheet > self.own else "left"
        return "left" if ways["left"] > ways["right"] else "right"

    def _height(self, group: Sequence[Cut]) -> int:
        return min(self._end(cut)[0][1] for cut in group)

    def _end(self, cut: Cut) -> tuple[Point, Direction]:
        """Where a run comes out of its part, and in which direction."""
        end = run_end(self.design, self.drawings, cut.run, cut.here)
        return exit_of(self.drawings, cut.here.part, end), end[2]

    def _edge(self, side: Direction, cuts: Sequence[Cut]) -> int:
        """Where the line lies: so that the longest sign has room behind it, on the grid."""
        wide = max(sign((0, 0), side, cut.text)[0].width for cut in cuts)
        if side == "right":
            return (self.area.right - wide) // MODULE * MODULE
        return -(-(self.area.left + wide) // MODULE) * MODULE

    def _pieces(self, group: list[Cut], x: int, side: Direction) -> list[tuple[int, int]]:
        """Puts the signs of a group and tells from where to where a line can be drawn for them."""
        heights = []
        for cut in sorted(group, key=lambda cut: (self._end(cut)[0][1], cut.run.id)):
            y = self._put(cut, x, side)
            if y is not None:
                heights.append(y)
        heights.sort()
        spans: list[list[int]] = []
        for y in heights:
            if spans and y - spans[-1][-1] <= _JOINED and self._is_bare(x, spans[-1][-1], y):
                spans[-1].append(y)
            else:
                spans.append([y])
        return [(span[0] - _OVER, span[-1] + _OVER) for span in spans]

    def _is_bare(self, x: int, top: int, bottom: int) -> bool:
        """Whether no part, and no run that goes on beyond it, lies across a line."""
        line = Box(x - _AIR, top, x + _AIR, bottom)
        boxes = [drawing.whole for drawing in self.drawings.values()]
        others = (way for key, way in self.ways.items() if key not in self.found)
        passing = (box for way in others for box in way_boxes(way))
        return not any(line.overlaps(box) for box in (*boxes, *passing))

    def _put(self, cut: Cut, x: int, side: Direction) -> int | None:
        """The height of the sign of a run; None where none can be reached by a plain way."""
        best: tuple[int, int, Way] | None = None
        (_, own), _ = self._end(cut)
        free = [y for y in _around(own) if self._is_free(cut, x, y, side)]
        for y in free[:_TRIALS]:
            goal = (x, y, _AGAINST[side])
            way, cost = way_to(
                self.design, cut.run, cut.here, goal, self.drawings, self.ways, self.taken
            )
            cost += abs(y - own)
            if cost <= _DEAR and (best is None or cost < best[0]):
                best = cost, y, way
        if best is None:
            return None
        _, y, way = best
        box, items = sign((x, y), side, cut.text)
        self.found[cut.run.id] = Reference(cut.run.id, way, Group(items, tag=cut.run.id), box)
        self.taken.append(box)
        self.ways[cut.run.id] = way
        return y

    def _is_free(self, cut: Cut, x: int, y: int, side: Direction) -> bool:
        """Whether nothing lies where a sign would, nor where the ends of its line would."""
        box, _ = sign((x, y), side, cut.text)
        line = Box(x - _AIR, y - _OVER, x + _AIR, y + _OVER)
        if not self.area.contains(box) or not self.area.contains(line):
            return False
        wide = (box.grown(_APART), line)
        boxes = [*self.taken, *(box for way in self.ways.values() for box in way_boxes(way, 3))]
        return not any(one.overlaps(other) for one in wide for other in boxes)


def _around(y: int) -> Iterator[int]:
    """Heights on the grid, the nearest first."""
    level = y // MODULE * MODULE
    yield level
    for step in range(1, _REACH + 1):
        yield level + step * MODULE
        yield level - step * MODULE
