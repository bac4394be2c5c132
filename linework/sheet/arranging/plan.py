"""One sheet: columns, then the order in them, then heights, then widths, then the paper."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace
from functools import cached_property

from linework.picture.geometry import MODULE, Box, Point
from linework.sheet.arranging.columns import columns
from linework.sheet.arranging.flow import Flow
from linework.sheet.arranging.levels import levels
from linework.sheet.arranging.ranks import Ranks
from linework.sheet.arranging.scheme import Unit, up_to_grid
from linework.sheet.arranging.spacing import TRIES
from linework.sheet.arranging.tangle import tangle, ways_between
from linework.sheet.arranging.widths import widths
from linework.sheet.frame import frame_of
from linework.sheet.routing import end_of, way_boxes

_TOP, _LEFT, _RIGHT = 50, 75, 25
"""Free inside the frame before the first row and column and behind the last."""
_TIGHT_TOP, _NAME = 0, 100
"""The first where paper is short, and then the room over a board or source: name and rating."""
_ROUGHLY = 150
"""So much less a sheet may take at last than it seems to at first."""
_SEVERAL = 5
"""So many plans are tried where lines cross."""
_STUBS = 250
"""How wide a body or electrode is with its writing at the right."""

Places = dict[str, Point]


class Plan:
    """Where the units of one sheet lie, by id. ``fits``: all of it on the paper.

    ``rough``: only to know about how much paper it takes.
    """

    def __init__(self, flow: Flow, keys: Collection[str], rough: bool = False) -> None:
        self.flow, self.keys, self.rough = flow, frozenset(keys), rough
        self.frame = frame_of(flow.design.settings.sheet)
        self.grounding = [key for key in flow.scheme.units if key in keys and _grounds(flow, key)]
        self.scheme = flow.scheme.only(set(keys) - set(self.grounding))
        self.at, self.fits = self._best()
        self._ground()
        self.at = {key: at for key, at in self.at.items() if key in keys}

    def _best(self) -> tuple[Places, bool]:
        """The plainest of the plans that fit, and whether any does.

        Boards lie side by side, and then their names have as little room as they mostly need, only
        where nothing fits else.
        """
        roomy = self.scheme
        tight = replace(roomy, units={key: _tight(unit) for key, unit in roomy.units.items()})
        boards = sum(unit.board for unit in roomy.units.values())
        first: Places | None = None
        for scheme, top in ((roomy, _TOP), (tight, _TIGHT_TOP))[: 1 if self.rough else 2]:
            self.scheme = scheme
            for wide in (False, True)[: 2 if boards > 1 else 1]:
                plans = list(self._laid(wide, top))
                if self._is_in_frame(plans[0]):
                    return self._plainest(plans), True
                first = first or plans[0]
        self.scheme = roomy
        return first or {}, False

    def _plainest(self, plans: list[Places]) -> Places:
        fitting = [at for at in plans if self._is_in_frame(at)]
        return min(fitting, key=lambda at: tangle(self.flow, at)) if fitting[1:] else fitting[0]

    def _laid(self, wide: bool, top: int) -> Iterator[Places]:
        """Plans, the best as far as the order tells first; no more where that one does not fit."""
        if not self.scheme.units:
            yield {}
            return
        area = self.frame.area
        left, top = up_to_grid(area.left + _LEFT), up_to_grid(area.top + top)
        height = self.frame.block.top - top
        column = columns(self.scheme, wide)
        ranks = Ranks(self.scheme, column)
        for order in ranks.several(1, 0) if self.rough else ranks.several(_SEVERAL):
            y = levels(self.scheme, order, ranks.pieces, height, 0 if self.rough else TRIES)
            x = widths(self.scheme, column, y, area.right - _RIGHT - left)
            at = {key: (left + x[key], top + y[key]) for key in self.scheme.units}
            yield at
            if not self._is_in_frame(at):
                return

    def _boxes(self, at: Places) -> list[Box]:
        return [self.scheme.units[key].roomy.moved(*where) for key, where in at.items()]

    def _is_in_frame(self, at: Places) -> bool:
        """Whether all of it, with its writing, lies inside the frame and above the title block."""
        area = self.frame.area
        room = Box(area.left, area.top, area.right, self.frame.block.top)
        if self.rough:
            room = room.grown(_ROUGHLY)
        return all(room.contains(box) for box in self._boxes(at))

    @cached_property
    def tangle(self) -> float:
        """What its lines cost, see :func:`~linework.sheet.arranging.tangle.tangle`."""
        return tangle(self.flow, self.at)

    # grounding

    def _ground(self) -> None:
        """Grounding right above the title block, or higher where that is taken: under what it is
        joined to, or beside that."""
        units, taken = self.flow.scheme.units, self._boxes(self.at)
        if self.grounding and not self.rough:
            lines = ways_between(self.flow, self.at)
            taken += [box for way in lines.values() for box in way_boxes(way)]
        for key in sorted(self.grounding, key=lambda key: (self._above(key), units[key].order)):
            box = units[key].box
            wide = Box(box.left, box.top - MODULE, box.right + _STUBS, box.bottom + MODULE)
            self.at[key] = self._free(wide, self._above(key), taken)
            taken.append(wide.moved(*self.at[key]))

    def _free(self, box: Box, x: int, taken: list[Box]) -> tuple[int, int]:
        """The lowest place of a box where nothing lies, as near to an x as can be."""
        area = self.frame.area
        foot = self.frame.block.top - box.bottom
        across = range(up_to_grid(area.left + _LEFT - box.left), area.right - box.right, MODULE)
        wanted = sorted(across, key=lambda at: (abs(at - x), at))
        for y in range(foot // MODULE * MODULE, area.top - box.top, -2 * MODULE):
            for at in wanted:
                if not any(box.moved(at, y).overlaps(other) for other in taken):
                    return at, y
        lowest = max((other.bottom for other in taken), default=area.top)
        return wanted[0], up_to_grid(lowest - box.top)

    def _above(self, key: str) -> int:
        """Where runs to it come down, the leftmost of them."""
        mine, flow = set(self.flow.members[key]), self.flow
        xs = [
            self.at[flow.owner[other.part]][0]
            + end_of(flow.drawings, other.part, other.terminal)[0]
            for run in flow.design.runs
            for here, other in ((run.a, run.b), (run.b, run.a))
            if here.part in mine and flow.owner[other.part] in self.at
        ]
        return up_to_grid(min(xs, default=0))


def _tight(unit: Unit) -> Unit:
    high = unit.box.top - unit.roomy.top
    if high <= _NAME:
        return unit
    return replace(unit, roomy=replace(unit.roomy, top=unit.box.top - _NAME))


def _grounds(flow: Flow, key: str) -> bool:
    """Whether a unit is a body, an electrode or the like, to which nothing but ground goes."""
    return flow.kind(key).strip == "grounding"
