"""The legend: what signs of our own mean, only those that are used on the sheet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from linework.design import Design, Run, pole_map
from linework.picture.geometry import MODULE, Box
from linework.picture.inks import THIN, Ink, Pen
from linework.picture.measure import bounds, text_width
from linework.picture.model import Group, Item, Line, Text
from linework.picture.neutral import GAP, neutral_bars
from linework.sheet.lettering import SMALL, Option, Tag, Wanted
from linework.sheet.parts import neutral_link
from linework.sheet.routing import body_end, frame_sign, method_of
from linework.wiring import is_dc, is_protective
from linework.words import N_, say

_ROW, _GUTTER, _WORDS_AT, _ROWS = 70, 50, 150, 4
_METHODS = {
    "cable": N_("cable or single wires"),
    "cord": N_("flexible cord"),
    "jumper": N_("jumper between grounds"),
}
_LINKS = {
    "strap": N_("neutral and ground joined"),
    "apart": N_("neutral and ground apart"),
    "relay": N_("joined by a relay"),
}


_Entries = tuple[tuple[tuple[Item, ...], str], ...]
"""A sign about its middle, and its words."""


@dataclass(frozen=True)
class _Legend:
    """Signs with their words in columns, from the left upper corner on."""

    x: int
    y: int
    entries: _Entries
    rows: int
    extent: Box
    """Of all ink, were the corner at the origin."""

    @property
    def items(self) -> tuple[Item, ...]:
        """What is drawn."""
        found: list[Item] = []
        widest = max(text_width(words, SMALL) for _, words in self.entries)
        column = _WORDS_AT + widest + _GUTTER
        for number, (sign, words) in enumerate(self.entries):
            left = self.x + number // self.rows * column
            y = self.y + number % self.rows * _ROW
            found.append(Group(sign, left + _WORDS_AT // 2, y))
            found.append(Text(left + _WORDS_AT, y, words, SMALL, "start", "middle", ink=Ink.QUIET))
        return tuple(found)

    def box(self) -> Box:
        """Around all ink."""
        return self.extent.moved(self.x, self.y)


def _legend(entries: _Entries, rows: int) -> _Legend:
    """At the origin."""
    bare = _Legend(0, 0, entries, rows, Box(0, 0, 0, 0))
    return replace(bare, extent=bounds(bare.items) or bare.extent)


def wanted_symbols(
    design: Design, parts: Iterable[str], runs: Iterable[Run], area: Box, block: Box
) -> list[Wanted]:
    """The legend at the foot of the sheet beside the title block, else where there is room for it;
    nothing on an empty sheet."""
    entries = (*_runs(design, tuple(runs)), *_links(design, parts))
    if not entries:
        return []
    usual = _legend(entries, _ROWS)
    options: list[Option] = [
        (replace(usual, x=x, y=area.bottom - _high(entries, _ROWS) - up),)
        for up in range(MODULE, 24 * MODULE, 2 * MODULE)
        for x in range(area.left + 2 * MODULE, block.left, 4 * MODULE)
    ]
    options += [
        (replace(legend, x=x, y=foot - _high(entries, legend.rows) - MODULE),)
        for legend in (_legend(entries, rows) for rows in (1, 2, _ROWS, 2 * _ROWS))
        for foot in range(block.top, area.top + legend.extent.height, -2 * MODULE)
        for x in range(area.left + 2 * MODULE, area.right - legend.extent.width, 4 * MODULE)
    ]
    return [Wanted("symbols", tuple(options), area, (), 9)]


def _high(entries: Sequence[object], rows: int) -> int:
    """From the first row of a legend to its foot."""
    return (min(len(entries), rows) - 1) * _ROW + 2 * MODULE


def _runs(design: Design, runs: tuple[Run, ...]) -> list[tuple[tuple[Item, ...], str]]:
    used = {method_of(design, run) for run in runs if run.designation}
    found = [
        (Tag("W", 0, 0, method).items, say(words))
        for method, words in _METHODS.items()
        if method in used
    ]
    poles = [[pole for pole, _ in pole_map(design, run)] for run in runs]
    live = [[pole for pole in each if not is_protective(pole)] for each in poles]
    if any(len(each) > 1 and not any(map(is_dc, each)) for each in live):
        found.append((_word("10/2 G"), say("two of size 10, and ground")))
    if any(len(each) > 1 and all(map(is_dc, each)) for each in live):
        found.append((_word("+ \N{MINUS SIGN} 10"), say("plus and minus, 10 each")))
    if any(body_end(design, run) is not None for run in runs):
        sign = (Line(0, -25, 0, 0, Pen(width=THIN)), *frame_sign(((0, -25), (0, 0))))
        found.append((sign, say("joined to the frame")))
    return found


def _links(design: Design, parts: Iterable[str]) -> list[tuple[tuple[Item, ...], str]]:
    links = {found[0] for key in parts if (found := neutral_link(design, design.part(key)))}
    return [
        (neutral_bars(link, -20, -GAP // 2, 56), say(words))
        for link, words in _LINKS.items()
        if link in links
    ]


def _word(text: str) -> tuple[Item, ...]:
    return (Text(0, 0, text, SMALL, "middle", "middle"),)
