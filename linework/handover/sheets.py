"""What a sheet of the set declares of itself."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable

from linework.handover.content import Content
from linework.handover.drawn import Drawn
from linework.handover.styles import BETWEEN
from linework.picture.measure import bounds
from linework.picture.model import Group, Item
from linework.picture.pdf import POINTS_PER_TENTH

USUAL = 170 * mm
"""A column of tables of many words is no narrower: one on A4, two on A3."""
NARROW = 112 * mm
"""One of tables of a few figures: three on A3."""
_ASIDE = 50
"""From a drawing to the legend beside it, in tenths of a millimetre."""


@dataclass(frozen=True)
class Band:
    """What is set in so many columns beside each other; ``head``: what stands above all of them,
    ``sheet``: the key of whose it is, ``fresh``: whether it begins on a page of its own."""

    columns: int
    content: Sequence[Flowable]
    sheet: str = ""
    head: Sequence[Flowable] = ()
    fresh: bool = False

    def width(self, whole: float) -> float:
        """Of one column, where all have so much."""
        return float(whole - (self.columns - 1) * BETWEEN) / self.columns


@dataclass(frozen=True)
class Room:
    """Width and height of what a page or a column may hold, in points."""

    width: float
    height: float

    def columns(self, least: float) -> int:
        """So many columns that are no narrower have room."""
        return max(1, int((self.width + BETWEEN) / (least + BETWEEN)))

    def column(self, count: int) -> Room:
        """The room of one of so many columns."""
        return Room(Band(count, ()).width(self.width), self.height)


Make = Callable[[Content, Room], Sequence["Flowable | Band"]]
"""From the content to what is set on the sheet's pages; nothing where it has nothing to say, and
the set has no such sheet then."""


class Mark(Flowable):  # type: ignore[misc]
    """Takes no room; the page on which it stands is that of its ``key``, by which it is led to. A
    sheet begins and ends with one; with a ``title`` it is an entry of the outline."""

    def __init__(self, key: str, title: str = "") -> None:
        super().__init__()
        self.key, self.title = key, title
        self.width = self.height = 0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Nothing."""
        return 0.0, 0.0

    def draw(self) -> None:
        """An entry of the outline."""
        if self.title:
            self.canv.bookmarkPage(f"section-{self.key}")
            self.canv.addOutlineEntry(self.title, f"section-{self.key}", level=0)


Foot = Callable[[Content, int, int], Iterable[Item]]
"""A legend, from its own left upper corner: content, width and height of the room in tenths of a
millimetre."""


@dataclass(frozen=True)
class Sheet:
    """One sheet of the set; it begins where the one before it ends, and may run over several pages.

    ``key``: one lower-case word, by which others lead to it and the command line asks for it.
    ``title`` and ``document``: as the title block has them. ``annex``: behind the set that is
    signed, from a page of its own on. ``whole``: what it makes are whole pages, frame and title
    block included. ``flows``: made for a column of the usual width; else for the whole page, and
    what is in no band is set so, or in such columns, or its drawings so and the rest in columns,
    whichever takes least paper. ``early``: before the drawings where their page has room for it.
    ``foot``: what stands beside its last drawing, or under it.
    """

    key: str
    title: str
    document: str
    make: Make
    annex: bool = False
    whole: bool = False
    flows: bool = False
    early: bool = False
    foot: Foot | None = None


def bands_of(sheet: Sheet, content: Content, room: Room) -> list[Band]:
    """What a sheet makes, in bands."""
    usual = room.columns(USUAL)
    if sheet.flows:
        return _bands(sheet, _made(sheet, content, room.column(usual)), usual)
    made = _made(sheet, content, room)
    if usual == 1 or any(isinstance(each, Band) for each in made):
        return _bands(sheet, made, 1)
    columned = _made(sheet, content, room.column(usual))
    ways = [_bands(sheet, columned, usual), _bands(sheet, made, 1)]
    if at := _drawn(made):
        tail = columned[_drawn(columned) :]
        ways.append([*_bands(sheet, made[:at], 1), *_bands(sheet, tail, usual)])
    return min(ways, key=lambda bands: sum(_paper(band, room) for band in bands))


def _made(sheet: Sheet, content: Content, room: Room) -> list[Flowable | Band]:
    """With the legend beside the last drawing where that leaves room, else under it."""
    made = list(sheet.make(content, room))
    at = _drawn(made)
    if sheet.foot is None or not at:
        return made
    wide, high = (int(side / POINTS_PER_TENTH) for side in (room.width, room.height))
    items = [*sheet.foot(content, wide, high)]
    last, legend = made[at - 1], bounds(items)
    assert isinstance(last, Drawn)
    box = bounds(last.items)
    if legend and box and box.right + _ASIDE + legend.right <= wide:
        both = [*last.items, Group(tuple(items), box.right + _ASIDE, 0)]
        tall = max(round(last.height / POINTS_PER_TENTH), legend.bottom)
        return [*made[: at - 1], Drawn(both, wide, tall), *made[at:]]
    return [*made[:at], Drawn(items, wide, legend.bottom if legend else 0), *made[at:]]


def _drawn(made: Sequence[Flowable | Band]) -> int:
    """Behind the last drawing; 0 where there is none."""
    return max((n for n, each in enumerate(made, start=1) if isinstance(each, Drawn)), default=0)


def _bands(sheet: Sheet, made: Sequence[Flowable | Band], columns: int) -> list[Band]:
    """What follows one another outside of bands is one."""
    found: list[Band] = []
    loose = False
    for each in made:
        band = each if isinstance(each, Band) else Band(columns, (each,))
        inside = [e for e in band.content if not isinstance(e, CondPageBreak)]
        before, loose = loose, band is not each
        if before and loose and found:
            found[-1] = replace(found[-1], content=(*found[-1].content, *inside))
        elif inside:
            found.append(replace(band, content=inside, sheet=sheet.key))
    return found


def _paper(band: Band, room: Room) -> float:
    """The height that a band takes of a page, near enough."""
    wide = band.width(room.width)
    return sum(float(each.wrap(wide, room.height)[1]) for each in band.content) / band.columns
