"""A starting position for parts that have none: power flows from left to right.

Sources stand at the left, then what converts and switches, boards, and loads level with
their breakers; grounding lies at the bottom. What sits in a part moves with it. Everything on the
grid; nothing overlaps. It is a start for a hand, not the last word.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from linework.design import Design, changed
from linework.picture.geometry import MODULE, Box, joined_boxes
from linework.sheet.arranging.flow import Flow, Unit
from linework.sheet.frame import frame_of
from linework.sheet.parts import is_board
from linework.sheet.routing import end_of

_GAP_X, _LEAST_X, _GAP_LOADS = 425, 175, 525
"""Free width between columns: room for a run's writing; less where the sheet is narrow."""
_GAP_Y = 10
_TALL = 600
"""What is taller than this is moved up rather than out of the sheet."""
_TOP, _LEFT, _FOOT = 100, 100, 300
"""Free inside the frame before the first row and column; what grounding needs below the last."""
_SIGN = 700
"""Room at the left for what comes from another sheet."""
_ANYWHERE = 1_000_000
"""The wanted height of what nothing feeds."""


@dataclass(frozen=True, slots=True)
class Spot:
    """Sheet and position of a part that does not sit in another."""

    sheet: int
    x: int
    y: int


def needs_arranging(design: Design) -> bool:
    """Whether all parts lie at the origin, as in a design that was never drawn."""
    return bool(design.parts) and all(part.x == 0 and part.y == 0 for part in design.parts)


def arranged(design: Design) -> dict[str, tuple[int, int]]:
    """The position of every part that does not sit in another, by id, all on one sheet.

    Where the design does not fit its paper it is laid out beyond the frame, never overlapped.
    """
    flow = Flow(_at_origin(design))
    return _Plan(flow, flow.units).positions()


def arranged_on_sheets(design: Design) -> dict[str, Spot]:
    """Sheet and position of every part that does not sit in another, by id.

    Parts that were given a sheet stay on it. Where all lie on the first and do not fit, boards
    go to sheets of their own with what only they feed, the farthest from the source first.
    """
    flow = Flow(_at_origin(design))
    if any(unit.part.sheet != 1 for unit in flow.units.values()):
        numbers = sorted({unit.part.sheet for unit in flow.units.values()})
        groups = {n: [u.id for u in flow.units.values() if u.part.sheet == n] for n in numbers}
    else:
        groups = dict(enumerate(_split(flow, list(flow.units)), start=1))
    return {
        key: Spot(sheet, x, y)
        for sheet, keys in groups.items()
        for key, (x, y) in _Plan(flow, keys).positions().items()
    }


def lay_out(design: Design) -> Design:
    """A copy of the design with all parts at their starting places, on as many sheets as needed."""
    spots = arranged_on_sheets(design)
    copy = design.snapshot()
    moved = [
        (part, replace(part, x=spot.x, y=spot.y, sheet=spot.sheet))
        for part in design.parts
        if (spot := spots.get(part.id)) is not None
    ]
    copy.apply(changed("", moved))
    return copy


def _at_origin(design: Design) -> Design:
    copy = design.snapshot()
    straight = [(part, replace(part, x=0, y=0, turn=0, mirror=False)) for part in design.parts]
    copy.apply(changed("", straight))
    return copy


def _split(flow: Flow, keys: list[str]) -> list[list[str]]:
    """Groups of units, one for each sheet."""
    plan = _Plan(flow, keys)
    plan.positions()
    if plan.fits:
        return [keys]
    for board in _boards(flow, keys):
        apart = _fed_only_by(flow, board, keys)
        rest = [key for key in keys if key not in apart]
        if rest and len(apart) > 1:
            return [*_split(flow, rest), *_split(flow, sorted(apart))]
    return [keys]


def _boards(flow: Flow, keys: list[str]) -> list[str]:
    """The boards among some units, the farthest from the source first."""
    boards = [key for key in flow.order(keys) if is_board(flow.design, flow.units[key].part)]
    return boards[::-1]


def _fed_only_by(flow: Flow, board: str, keys: list[str]) -> set[str]:
    """A board and all that is fed through it and through nothing else."""
    ahead = flow.ahead(keys)
    fed = {target for targets in ahead.values() for target in targets}
    starts = [key for key in ahead if key not in fed and key != board]
    reached: set[str] = set()
    while starts:
        key = starts.pop()
        if key not in reached and key != board:
            reached.add(key)
            starts += ahead[key]
    grounding = {key for key in keys if flow.strip(flow.units[key]) == "grounding"}
    return set(keys) - reached - grounding


class _Plan:
    """Columns by the longest way from a source, rows by what feeds them."""

    def __init__(self, flow: Flow, keys: Mapping[str, Unit] | list[str]) -> None:
        self.flow, self.design = flow, flow.design
        self.frame = frame_of(flow.design.settings.sheet)
        units = [flow.units[key] for key in keys]
        self.keys = set(keys)
        self.grounding = [unit for unit in units if flow.strip(unit) == "grounding"]
        self.flowing = [unit for unit in units if flow.strip(unit) != "grounding"]

    def positions(self) -> dict[str, tuple[int, int]]:
        """The positions, once all is worked out."""
        self._columns()
        self._rows()
        self._widths()
        self._bottom()
        return {unit.id: (unit.x, unit.y) for unit in (*self.flowing, *self.grounding)}

    @property
    def fits(self) -> bool:
        """Whether every unit lies inside the frame and clear of the title block."""
        boxes = [u.box.moved(u.x, u.y) for u in (*self.flowing, *self.grounding)]
        area, block = self.frame.area, self.frame.block
        return all(area.contains(box) and not box.overlaps(block) for box in boxes)

    # columns

    def _columns(self) -> None:
        """The longest way from a source, rings left open; then as near as can be to what is fed."""
        flow, keys = self.flow, [unit.id for unit in self.flowing]
        ahead, order = flow.ahead(keys), flow.order(keys)
        rank = {key: number for number, key in enumerate(order)}
        column = dict.fromkeys(keys, 0)
        for key in order:
            for target in ahead[key]:
                if rank[target] > rank[key]:
                    column[target] = max(column[target], column[key] + 1)
        for key in reversed(order):
            later = [column[t] for t in ahead[key] if rank[t] > rank[key]]
            if later and flow.strip(flow.units[key]) != "sources":
                column[key] = min(later) - 1
        for unit in self.flowing:
            unit.column = column[unit.id]

    # rows

    def _rows(self) -> None:
        """Column by column: level with what feeds a unit, pushed down where that is taken."""
        for column in sorted({unit.column for unit in self.flowing}):
            here = [unit for unit in self.flowing if unit.column == column]
            wanted = {unit.id: self._level(unit) for unit in here}
            here.sort(key=lambda unit: (wanted[unit.id], self.flow.first(unit)))
            self._stack(here, wanted)
        top = min((unit.y + unit.roomy.top for unit in self.flowing), default=0)
        for unit in self.flowing:
            unit.y -= top

    def _level(self, unit: Unit) -> int:
        """The height at which the runs to it from the left lie straight, the first of them best."""
        feeding = ((self.flow.units[j.source], j) for j in self.flow.joints if j.target == unit.id)
        levels = [
            source.y + joint.out_y - joint.in_y
            for source, joint in feeding
            if joint.source in self.keys and source.column < unit.column
        ]
        if not levels:
            return _ANYWHERE if unit.column else 0
        if self.flow.strip(unit) == "loads":
            return levels[0]
        return _to_grid(sum(levels) // len(levels))

    def _stack(self, units: list[Unit], wanted: Mapping[str, int]) -> None:
        """One below the other, each as near to where it wants to be as the others leave it."""
        edge: int | None = None
        for unit in units:
            want = wanted[unit.id]
            if unit.box.height > _TALL and want < _ANYWHERE:
                lowest = (self._height - unit.roomy.bottom) // MODULE * MODULE
                want = min(want, max(lowest, _up_to_grid(-unit.roomy.top)))
            if edge is None:
                unit.y = want if want < _ANYWHERE else 0
            else:
                least = _up_to_grid(edge + _GAP_Y - unit.roomy.top)
                unit.y = least if want >= _ANYWHERE else max(want, least)
            edge = unit.y + unit.roomy.bottom

    # the paper

    def _widths(self) -> None:
        """Columns side by side; the gaps shrink where the paper is too narrow for them."""
        units, area = self.flowing, self.frame.area
        columns = sorted({unit.column for unit in units})
        spans = [
            joined_boxes(unit.box for unit in units if unit.column == column) or Box(0, 0, 0, 0)
            for column in columns
        ]
        tails = [u.roomy.right - u.box.right for u in units if u.column == columns[-1]]
        margin = 2 * _LEFT + MODULE * len(columns)
        free = area.width - margin - sum(span.width for span in spans) - max(tails, default=0)
        left, down = area.left + _LEFT, self._down()
        if self._comes_from_elsewhere:
            left, free = left + _SIGN, free - _SIGN
        for column, span, gap in zip(columns, spans, _gaps(free, len(columns)), strict=True):
            x = _up_to_grid(left - span.left)
            for unit in units:
                if unit.column == column:
                    unit.x, unit.y = x, _up_to_grid(unit.y + down)
            left = x + span.right + gap

    @property
    def _comes_from_elsewhere(self) -> bool:
        """Whether something here is fed from another sheet: that is written at the left."""
        return any(
            joint.target in self.keys and joint.source not in self.keys
            for joint in self.flow.joints
        )

    def _down(self) -> int:
        """From the top of the paper to the drawing, which lies in the middle of what is free."""
        foot = max((unit.y + unit.roomy.bottom for unit in self.flowing), default=0)
        free = self._height + _TOP - foot
        return self.frame.area.top + max(_TOP, free // 2)

    @property
    def _height(self) -> int:
        """What the rows may fill, above the title block and the grounding."""
        foot = _FOOT if self.grounding else 0
        return self.frame.block.top - self.frame.area.top - _TOP - foot

    def _bottom(self) -> None:
        """Grounding under what it is joined to, in one row below everything else."""
        frame = self.frame
        foot = max((u.y + u.roomy.bottom for u in self.flowing), default=frame.area.top)
        edge = frame.area.left + _LEFT
        for unit in sorted(self.grounding, key=lambda unit: (self._above(unit), unit.id)):
            unit.y = _up_to_grid(foot + 150 - unit.box.top)
            x = self._above(unit)
            if unit.y + unit.roomy.bottom > frame.block.top - MODULE:
                beside = frame.block.left - MODULE - unit.roomy.right
                x = min(x, beside // MODULE * MODULE)
            unit.x = max(_up_to_grid(edge - unit.roomy.left), x)
            edge = unit.x + unit.roomy.right + 2 * MODULE

    def _above(self, unit: Unit) -> int:
        """Where runs to it come down, the rightmost of them."""
        mine, known = set(unit.members), {u.id for u in self.flowing}
        flow = self.flow
        xs = [
            flow.units[flow.owner[other.part]].x
            + end_of(flow.drawings, other.part, other.terminal)[0]
            for run in self.design.runs
            for here, other in ((run.a, run.b), (run.b, run.a))
            if here.part in mine and flow.owner[other.part] in known
        ]
        return _up_to_grid(max(xs, default=0))


def _gaps(free: int, columns: int) -> list[int]:
    """The free width after each column; before the last, the loads, there is most to write."""
    if columns < 2:
        return [0] * columns
    share = max(_LEAST_X, free // (columns - 1))
    last = min(_GAP_LOADS, max(share, free - (columns - 2) * _LEAST_X))
    rest = _GAP_X
    if columns > 2:
        rest = max(_LEAST_X, min(_GAP_X, (free - last) // (columns - 2) // MODULE * MODULE))
    return [*[rest] * (columns - 2), last // MODULE * MODULE, 0]


def _to_grid(value: int) -> int:
    return round(value / MODULE) * MODULE


def _up_to_grid(value: int) -> int:
    return -(-value // MODULE) * MODULE
