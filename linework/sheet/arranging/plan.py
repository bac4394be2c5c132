"""One sheet: columns, then the order in them, then heights, then widths, then the paper."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from linework.picture.geometry import MODULE, Box
from linework.sheet.arranging.columns import columns
from linework.sheet.arranging.flow import Flow
from linework.sheet.arranging.levels import levels
from linework.sheet.arranging.ranks import Ranks
from linework.sheet.arranging.scheme import Unit, up_to_grid
from linework.sheet.arranging.spacing import TRIES
from linework.sheet.arranging.widths import widths
from linework.sheet.frame import frame_of
from linework.sheet.routing import end_of

_TOP, _LEFT, _RIGHT = 50, 75, 25
"""Free inside the frame before the first row and column and behind the last."""
_TIGHT_TOP, _NAME = 0, 100
"""The first where paper is short, and then the room over a board or source: name and rating."""
_ROUGHLY = 150
"""So much less a sheet may take at last than it seems to at first."""
_STUBS = 250
"""How wide a body or electrode is with its writing at the right."""


class Plan:
    """Where the units of one sheet lie, by id. ``fits``: all of it on the paper.

    ``rough``: only to know about how much paper it takes.
    """

    def __init__(self, flow: Flow, keys: Collection[str], rough: bool = False) -> None:
        self.flow, self.keys, self.rough = flow, frozenset(keys), rough
        self.frame = frame_of(flow.design.settings.sheet)
        self.grounding = [key for key in flow.scheme.units if key in keys and _grounds(flow, key)]
        self.scheme = flow.scheme.only(set(keys) - set(self.grounding))
        self.top = _TOP
        self.at = self._laid(wide=False)
        self.fits = self._is_in_frame()
        if not self.fits and sum(unit.board for unit in self.scheme.units.values()) > 1:
            self._try_wide()
        if not self.fits and not rough:
            self._try_tight()
        self._ground()
        self.at = {key: at for key, at in self.at.items() if key in keys}

    def _try_wide(self) -> None:
        """Boards side by side, where all fits then."""
        slim = self.at
        self.at = self._laid(wide=True)
        self.fits = self._is_in_frame()
        if not self.fits:
            self.at = slim

    def _try_tight(self) -> None:
        """With as much room for the names of boards and sources as they mostly need."""
        before = self.at, self.scheme, self.top
        units = {key: _tight(unit) for key, unit in self.scheme.units.items()}
        self.scheme, self.top = replace(self.scheme, units=units), _TIGHT_TOP
        for wide in (False, True):
            self.at = self._laid(wide)
            self.fits = self._is_in_frame()
            if self.fits:
                return
        self.at, self.scheme, self.top = before

    def _laid(self, wide: bool) -> dict[str, tuple[int, int]]:
        if not self.scheme.units:
            return {}
        column = columns(self.scheme, wide)
        ranks = Ranks(self.scheme, column)
        order = ranks.best(0) if self.rough else ranks.best()
        area = self.frame.area
        left, top = up_to_grid(area.left + _LEFT), up_to_grid(area.top + self.top)
        height = self.frame.block.top - top
        y = levels(self.scheme, order, ranks.pieces, height, 0 if self.rough else TRIES)
        x = widths(self.scheme, column, y, area.right - _RIGHT - left)
        return {key: (left + x[key], top + y[key]) for key in self.scheme.units}

    def _boxes(self) -> list[Box]:
        return [self.scheme.units[key].roomy.moved(*at) for key, at in self.at.items()]

    def _is_in_frame(self) -> bool:
        """Whether all of it, with its writing, lies inside the frame and above the title block."""
        area = self.frame.area
        room = Box(area.left, area.top, area.right, self.frame.block.top)
        if self.rough:
            room = room.grown(_ROUGHLY)
        return all(room.contains(box) for box in self._boxes())

    # grounding

    def _ground(self) -> None:
        """Grounding right above the title block, or higher where that is taken: under what it is
        joined to, or beside that."""
        units, taken = self.flow.scheme.units, self._boxes()
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
