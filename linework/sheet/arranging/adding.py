"""Places for the parts that have none among others that stay where they are."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from linework.design import Design, Part, changed
from linework.picture.geometry import MODULE, Box, Point
from linework.sheet.arranging.flow import Flow
from linework.sheet.arranging.scheme import Joint, Port, Unit, up_to_grid
from linework.sheet.frame import frame_of
from linework.sheet.parts import PartDrawing, draw_parts, seat_of, sheet_of
from linework.sheet.routing import end_of

_GAP = 225
"""Between a part and what feeds it: room for the tag of a run."""
_ROOM = 25
"""Free around a part."""
_INSET = 75


def without_position(design: Design) -> list[Part]:
    """The parts that lie nowhere: at the corner of the paper, and in no other part."""
    return [p for p in design.parts if p.x == 0 and p.y == 0 and seat_of(design, p) is None]


def add_positions(design: Design) -> Design:
    """A copy in which the parts without a position have one, and no other part has moved.

    Each lies level with what feeds it, or with what it feeds, as near as there is room.
    """
    new = {part.id for part in without_position(design)}
    flow = Flow(design)
    copy = design.snapshot()
    for unit in [unit for unit in flow.scheme.units.values() if unit.id in new]:
        adding = _Adding(copy, flow, new)
        part = copy.part(unit.id)
        copy.apply(changed("", [(part, adding.placed(part, unit))]))
        new.remove(unit.id)
    return copy


class _Adding:
    """One part that is to find a place. ``new``: those that have none yet, itself among them."""

    def __init__(self, design: Design, flow: Flow, new: set[str]) -> None:
        self.design, self.flow = design, flow
        self.frame = frame_of(design.settings.sheet)
        self.drawings = {
            key: drawing
            for key, drawing in draw_parts(design, at_origin=False).items()
            if flow.owner[key] not in new
        }

    def placed(self, part: Part, unit: Unit) -> Part:
        """The part at its place."""
        first, want = self._wanted(unit)
        mirror = self.flow.design.part(part.id).mirror
        last = max(drawing.sheet for drawing in self.drawings.values())
        for sheet in (first, *range(1, last + 1), last + 1):
            at = self._nearest(unit.box.grown(_ROOM), want, sheet)
            if at is not None:
                return replace(part, x=at[0], y=at[1], sheet=sheet, turn=0, mirror=mirror)
        x, y = up_to_grid(want[0]), up_to_grid(want[1])
        return replace(part, x=x, y=y, sheet=last + 1, turn=0, mirror=mirror)

    def _wanted(self, unit: Unit) -> tuple[int, Point]:
        """The sheet, and the place at which a run to what it is joined to lies straight."""
        for joint in self.flow.scheme.joints:
            found = self._beside(unit, joint)
            if found is not None:
                return found
        area = self.frame.area
        return 1, (area.left + _INSET - unit.box.left, area.top + _INSET - unit.box.top)

    def _beside(self, unit: Unit, joint: Joint) -> tuple[int, Point] | None:
        if joint.target.unit == unit.id:
            mine, other, away = joint.target, joint.source, _GAP
        elif joint.source.unit == unit.id:
            mine, other, away = joint.source, joint.target, -_GAP
        else:
            return None
        at = self._at(other)
        if at is None:
            return None
        sheet = sheet_of(self.design, self.design.part(other.unit))
        return sheet, (at[0] + away - mine.x, at[1] - mine.y)

    def _at(self, port: Port) -> Point | None:
        """Where a terminal or place lies on the paper; None while its part lies nowhere."""
        parts = [key for key in self.drawings if port.name.startswith(f"{key}.")]
        if not parts:
            return None
        part = max(parts, key=len)
        name = port.name[len(part) + 1 :]
        end = self.drawings[part].places.get(name) or end_of(self.drawings, part, name)
        return end[:2]

    def _nearest(self, box: Box, want: Point, sheet: int) -> Point | None:
        """The free place of a sheet nearest to the wanted one; None where it is full."""
        taken = [drawing.whole for drawing in self._on(sheet)]
        x, y = up_to_grid(want[0]), up_to_grid(want[1])
        for dx, dy in _around((self.frame.width + self.frame.height) // MODULE):
            at = (x + dx * MODULE, y + dy * MODULE)
            if self._is_free(box.moved(*at), taken):
                return at
        return None

    def _on(self, sheet: int) -> Iterable[PartDrawing]:
        return (drawing for drawing in self.drawings.values() if drawing.sheet == sheet)

    def _is_free(self, box: Box, taken: list[Box]) -> bool:
        frame = self.frame
        if not frame.area.contains(box) or box.overlaps(frame.block):
            return False
        return not any(box.overlaps(other) for other in taken)


def _around(far: int) -> Iterator[Point]:
    """Steps away from a place, the nearest first, up and down before aside."""
    yield 0, 0
    for ring in range(1, far):
        for dx in range(ring + 1):
            dy = ring - dx
            yield from dict.fromkeys(((dx, dy), (dx, -dy), (-dx, dy), (-dx, -dy)))
