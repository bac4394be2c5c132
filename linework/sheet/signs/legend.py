"""The legend: only the symbols and signs that a design uses, each with its name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.design import Design, pole_map
from linework.picture import marks
from linework.picture.geometry import Box
from linework.picture.inks import MEDIUM, Ink, Pen
from linework.picture.measure import bounds
from linework.picture.model import Group, Item, Line, Picture, Polyline
from linework.picture.symbols import symbol
from linework.sheet.energised import is_tie
from linework.sheet.lettering import Hung, Span, block_height, wrapped
from linework.sheet.parts import is_moved_by_hand, is_one_of_a_kind, symbol_name
from linework.sheet.signs.extras import MAY
from linework.sheet.signs.flags import LOOKS, flag_items
from linework.words import say

_COLUMN, _SIGN, _GAP = 900, 300, 30
_NAME = _COLUMN - _SIGN - 2 * _GAP


@dataclass(frozen=True)
class Entry:
    """One line of the legend: a drawing about its own origin, and what it is called."""

    items: tuple[Item, ...]
    name: str

    @property
    def box(self) -> Box:
        """Around the drawing."""
        return bounds(self.items) or Box(0, 0, 0, 0)


def legend(design: Design, width: int = 1800) -> Picture:
    """The legend in as many columns as fit in ``width`` (tenths of a millimetre), as a picture."""
    entries = [*symbol_entries(design), *sign_entries(design)]
    columns = max(1, width // _COLUMN)
    rows = [entries[at : at + columns] for at in range(0, len(entries), columns)]
    items: list[Item] = []
    top = 0
    for row in rows:
        height = max(max(entry.box.height, block_height(_name(entry))) for entry in row) + _GAP
        for column, entry in enumerate(row):
            items += _drawn(entry, column * _COLUMN, top + height // 2)
        top += height
    return Picture(columns * _COLUMN, top, tuple(items))


def _drawn(entry: Entry, x: int, y: int) -> list[Item]:
    box = entry.box
    at_x, at_y = x + (_SIGN - box.width) // 2 - box.left, y - (box.top + box.bottom) // 2
    name = Hung(_name(entry), x + _SIGN + _GAP, y, "start", "middle")
    return [Group(entry.items, at_x, at_y), *name.texts()]


def _name(entry: Entry) -> tuple[tuple[Span, ...], ...]:
    return tuple((Span(line),) for line in wrapped(entry.name, _NAME))


def symbol_entries(design: Design) -> list[Entry]:
    """The symbols of the kinds in the design, by their names."""
    family = design.settings.family
    found: dict[str, str] = {}
    for part in design.parts:
        name = symbol_name(design, part)
        if not is_one_of_a_kind(name):
            found.setdefault(name, say(design.kind(part).name, family=family))
    shown = sorted(found.items(), key=lambda item: (item[1], item[0]))
    return [Entry((symbol(name, family).group,), title) for name, title in shown]


def sign_entries(design: Design) -> Iterator[Entry]:
    """The signs on lines that the design has, brackets, and the flags."""
    family = design.settings.family
    counts = {len(pole_map(design, run)) for run in design.runs if not is_tie(design, run)}
    line = Line(-100, 0, 100, 0, Pen(width=MEDIUM))
    if counts:
        count = min(max(counts), 3)
        strokes = say("run: one stroke for each conductor, size and length beside it")
        yield Entry((line, *marks.ticks(max(count, 1))), strokes)
    if any(is_tie(design, run) for run in design.runs):
        yield Entry((line, *marks.ground_mark()), say("{ground_wire} or bond", family=family))
    if len(design.runs) > 1:
        crossing = (Line(0, -40, 0, 40), Line(-100, 0, -12, 0), Line(12, 0, 100, 0), *marks.jump())
        yield Entry(crossing, say("runs that cross and are not joined"))
    if any(is_moved_by_hand(design, part) for part in design.parts):
        yield Entry((Polyline(((-100, 0), (100, 0)), pen=MAY),), say("where a plug may be put"))
    bracketed = Hung(((Span("[10 A]", ink=Ink.ASSUMED),),), 0, 0, "middle", "middle")
    yield Entry(bracketed.texts(), say("in brackets: not given, a value is assumed"))
    yield from flag_entries()


def flag_entries() -> Iterator[Entry]:
    """The flags of findings: levels of this program, and no signal words of a placard."""
    names = {"danger": say("danger"), "warning": say("warning"), "note": say("note")}
    for level in LOOKS:
        name = say("finding by its number: {level} (a level of this program)", level=names[level])
        yield Entry(flag_items(level, 1), name)
