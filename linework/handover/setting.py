"""Sets what sheets say on pages: bands of columns, one under the other, each as low as it can be.

A band runs on over as many pages as it takes. Where one has no room left, those of the next sheet
that have stand before it, broken only where half the page would stay empty. A heading stays with
what stands under it, and no table leaves a single row behind or ahead.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import chain

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Spacer, Table
from reportlab.platypus.doctemplate import LayoutError

from linework.handover.sheets import Band, Mark
from linework.handover.styles import BETWEEN, HEADINGS

UNDER = 4 * mm
"""From one band to the next."""
_UNDER_HEAD = 2 * mm
_LEAST = 30 * mm
"""A band is broken only where at least so much of the page is left for it."""
_ROWS = 2
"""So many rows of a table stay together."""
_STEPS = 8
"""Halvings on the way to the least height of a band."""


class Kept(Flowable):  # type: ignore[misc]
    """What stands in one column, unless it is higher than ``most`` (points); ``leads``: and above
    what follows, as a heading does."""

    def __init__(self, content: Sequence[Flowable], most: float, leads: bool = False) -> None:
        super().__init__()
        self.content, self.most, self.leads = content, most, leads
        self._column = _Column()

    def getSpaceBefore(self) -> float:  # noqa: N802 - reportlab's name
        """That of what stands first."""
        return max((float(each.getSpaceBefore()) for each in self.content[:1]), default=0.0)

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """As high as all of it."""
        self._column = _Column()
        for each in self.content:
            self._column.add(each, float(each.wrap(width, 1e5)[1]))
        return width, self._column.bottom

    def split(self, width: float, height: float) -> list[Flowable]:
        """Never."""
        return []

    def draw(self) -> None:
        """One under the other."""
        for what, top, high in self._column.held:
            what.drawOn(self.canv, 0, self._column.bottom - top - high)


@dataclass(frozen=True)
class Placed:
    """What stands on a page: its left and upper edge from the upper left corner of the room, its
    width and height, in points; ``sheet``: the key of whose it is."""

    what: Flowable
    left: float
    top: float
    width: float
    height: float
    sheet: str = ""


@dataclass
class _Column:
    """What stands under each other, each with its upper edge; where it ends."""

    held: list[tuple[Flowable, float, float]] = field(default_factory=list)
    end: float = 0.0
    after: float = 0.0

    @property
    def empty(self) -> bool:
        """Whether nothing that has a height stands in it."""
        return not any(high for _, _, high in self.held)

    def before(self, what: Flowable) -> float:
        """What stays free above a thing."""
        return 0.0 if self.empty else max(float(what.getSpaceBefore()) - self.after, 0.0)

    def add(self, what: Flowable, high: float) -> None:
        """Set it under the others."""
        top = self.end + self.before(what)
        self.held.append((what, top, high))
        if high:
            self.after = float(what.getSpaceAfter())
            self.end = top + high + self.after

    @property
    def bottom(self) -> float:
        """The lower edge of what is lowest."""
        return max((top + high for _, top, high in self.held), default=0.0)


def joined(bands: Sequence[Band]) -> list[Band]:
    """Those of as many columns that follow one another as one, so that columns run on."""
    found: list[Band] = []
    sheet = ""
    for band in bands:
        before, sheet = sheet, band.sheet
        if found and found[-1].columns == band.columns > 1 and not (band.head or band.fresh):
            last = found.pop()
            gap = [] if before == sheet else [Spacer(1, max(UNDER - _above(band), 0.0))]
            band = replace(last, content=(*last.content, *gap, *band.content))
        found.append(band)
    return found


def _above(band: Band) -> float:
    """What the first thing in it that has a height keeps free above itself."""
    for each in band.content:
        if isinstance(each, Kept) or getattr(each, "height", None) != 0:
            return float(each.getSpaceBefore())
    return 0.0


def pages_of(
    bands: Sequence[Band], width: float, height: float, deeper: float = 0.0
) -> Iterator[list[Placed]]:
    """What stands on each page of a room of this size (points); so much ``deeper`` goes the first
    of several columns.

    LayoutError where something that cannot be divided is higher than a page.
    """
    waiting = list(bands)
    while waiting:
        placed, waiting = _page(waiting, width, height, deeper)
        yield placed


def _page(
    bands: list[Band], width: float, height: float, deeper: float
) -> tuple[list[Placed], list[Band]]:
    """One page full, and what is left for those that follow."""
    placed: list[Placed] = []
    later: list[Band] = []
    held: set[str] = set()
    top = 0.0
    for number, band in enumerate(bands):
        if band.fresh and placed:
            return placed, [*later, *bands[number:]]
        set_ = _Set(band, width, height - top, deeper, fresh=not placed)
        tight = height - top < _LEAST or (bool(held) and top > height / 2)
        if band.sheet in held or set_.empty or (placed and set_.rest and tight):
            if not placed:
                raise LayoutError(f"{band.content[0]!r} is higher than a page")
            held.add(band.sheet)
            later.append(band)
            if len(held) > 1:
                return placed, [*later, *bands[number + 1 :]]
            continue
        placed += set_.placed(top)
        top += set_.bottom + UNDER
        if set_.rest:
            sheet = set_.sheets()[-1]
            left = replace(band, content=tuple(set_.rest), head=(), fresh=False, sheet=sheet)
            if held or band.columns > 1 or height - top < height / 4:
                return placed, [*later, left, *bands[number + 1 :]]
            held.add(sheet)
            later.append(left)
    return placed, later


class _Set:
    """A band set on what is free of a page: its head, its columns as low as hold all of it, and
    ``rest``, what has no room. ``fresh``: at the top of a page."""

    def __init__(self, band: Band, width: float, height: float, deeper: float, fresh: bool) -> None:
        self.band, self.wide = band, band.width(width)
        self.head = _Column()
        _fill(self.head, list(band.head), width, 1e5, fresh)
        self.top = self.head.end + _UNDER_HEAD * bool(band.head)
        self.head_width = width
        free = height - self.top
        first = free + (deeper if band.columns > 1 else 0.0)
        self.limits = [first, *[free] * (band.columns - 1)]
        self.columns, self.rest = self._filled(first, fresh)
        if not self.rest and band.columns > 1:
            self._lower()

    @property
    def empty(self) -> bool:
        """Whether nothing has found room."""
        return all(column.empty for column in self.columns)

    @property
    def bottom(self) -> float:
        """The lower edge of the lowest column."""
        return float(self.top + max(column.bottom for column in self.columns))

    def placed(self, top: float) -> Iterator[Placed]:
        """Each thing at its place under an edge."""
        sheets = iter(self.sheets())
        for what, at, high in self.head.held:
            yield Placed(what, 0.0, top + at, self.head_width, high, next(sheets))
        for n, column in enumerate(self.columns):
            for what, at, high in column.held:
                left = n * (self.wide + BETWEEN)
                yield Placed(what, left, top + self.top + at, self.wide, high, next(sheets))

    def sheets(self) -> list[str]:
        """The key of whose each thing is; of bands that were joined it goes over where one
        begins."""
        found, key = list[str](), self.band.sheet
        for what, _, _ in chain(self.head.held, *(column.held for column in self.columns)):
            key = what.key if isinstance(what, Mark) and what.title else key
            found.append(key)
        return found or [key]

    def _filled(self, height: float, fresh: bool) -> tuple[list[_Column], list[Flowable]]:
        """The columns filled one after the other, and what has no room in them."""
        rest = list(self.band.content)
        columns: list[_Column] = []
        for limit in self.limits:
            columns.append(_Column())
            rest = _fill(columns[-1], rest, self.wide, min(height, limit), fresh)
        return columns, rest

    def _lower(self) -> None:
        """The columns as low as still hold all of it."""
        bottoms = [column.bottom for column in self.columns]
        low, high = sum(bottoms) / len(bottoms), max(bottoms)
        for _ in range(_STEPS):
            middle = (low + high) / 2
            columns, rest = self._filled(middle, fresh=False)
            if rest:
                low = middle
            else:
                self.columns = columns
                high = max(column.bottom for column in columns)


def _fill(
    column: _Column, rest: list[Flowable], width: float, height: float, fresh: bool
) -> list[Flowable]:
    """Set what has room; the others are given back. At the top of a ``fresh`` page stands what
    would be no better off on another."""
    while rest:
        first = rest[0]
        if isinstance(first, Spacer) and column.empty:
            rest = rest[1:]
            continue
        start = column.end + column.before(first)
        forced = fresh and column.empty
        if not forced and start + _kept(rest, width) > height:
            return rest
        high = float(first.wrap(width, height)[1])
        if isinstance(first, Kept) and high > first.most:
            rest = [*first.content, *rest[1:]]
            continue
        if start + high > height + 0.01:
            parts = _split(first, width, height - start, forced)
            if not parts:
                return rest
            first, *more = parts
            column.add(first, float(first.wrap(width, height)[1]))
            return [*more, *rest[1:]]
        column.add(first, high)
        rest = rest[1:]
    return rest


# what is not parted


def _kept(rest: Sequence[Flowable], width: float) -> float:
    """How high that is which must not be parted from what comes first."""
    kept, headed, drawn = _Column(), False, False
    for each in rest:
        if isinstance(each, Table):
            kept.add(each, _least_rows(each, width))
            break
        tall = float(each.wrap(width, 1e5)[1])
        kept.add(each, tall)
        if _is_heading(each):
            headed = True
            continue
        if tall and (not headed or drawn or getattr(each, "bulletText", None)):
            break
        drawn = drawn or (tall > 0 and not _is_text(each))
    return kept.bottom


def _is_text(each: Flowable) -> bool:
    return isinstance(each, Spacer) or hasattr(each, "getPlainText")


def _is_heading(each: Flowable) -> bool:
    if isinstance(each, Kept):
        return each.leads
    return getattr(getattr(each, "style", None), "name", "") in HEADINGS


def _least_rows(table: Table, width: float) -> float:
    heights = _rows(table, width)
    least = int(table.repeatRows) + _ROWS
    return sum(heights[:least] if len(heights) > least + 1 else heights)


def _rows(table: Table, width: float) -> list[float]:
    """The heights of its rows, which the library keeps once it has wrapped it."""
    table.wrap(width, 1e5)
    return list(table._rowHeights)


def _split(what: Flowable, width: float, height: float, alone: bool) -> list[Flowable]:
    """In two where it may be; ``alone``: where nothing stands above it, a row may be divided."""
    if not isinstance(what, Table):
        return list(what.split(width, height))
    heights, head = _rows(what, width), int(what.repeatRows)
    count, high = 0, 0.0
    while high + heights[count] <= height:
        high += heights[count]
        count += 1
    if len(heights) - count < _ROWS and count - 1 >= head + _ROWS:
        count -= 1
    if count - head < (1 if alone else _ROWS):
        return list(what.split(width, height)) if alone else []
    return list(what.split(width, sum(heights[:count]) + 0.01))


class Laid(Flowable):  # type: ignore[misc]
    """One page full of what is placed, in a room of this size (points)."""

    def __init__(self, placed: Sequence[Placed], width: float, height: float) -> None:
        super().__init__()
        self.placed, self.width, self.height = placed, width, height

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """The whole room, so that nothing else comes onto the page."""
        return self.width, self.height - 1.0

    def draw(self) -> None:
        """Each thing at its place; what it was measured for meanwhile, it forgets."""
        for each in self.placed:
            each.what.wrap(each.width, each.height)
            bottom = self.height - 1.0 - each.top - each.height
            each.what.drawOn(self.canv, each.left, bottom)
