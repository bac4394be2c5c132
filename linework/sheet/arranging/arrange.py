"""A starting position for parts that have none: power flows from left to right.

Sources stand at the left, then what converts and switches, boards, and loads level with
their breakers; grounding lies at the bottom. What sits in a part moves with it. Everything on the
grid; nothing overlaps. It is a start for a hand, not the last word.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from linework.design import Design, changed
from linework.sheet.arranging.adding import add_positions, without_position
from linework.sheet.arranging.flow import Flow
from linework.sheet.arranging.plan import Plan
from linework.sheet.arranging.sheets import split
from linework.sheet.frame import frame_of
from linework.sheet.parts import seat_of


@dataclass(frozen=True, slots=True)
class Spot:
    """Sheet and position of a part that does not sit in another."""

    sheet: int
    x: int
    y: int
    mirror: bool = False


def needs_arranging(design: Design) -> bool:
    """Whether any part lies nowhere, as in a design that was never drawn."""
    return bool(without_position(design))


def arranged(design: Design) -> dict[str, tuple[int, int]]:
    """The position of every part that does not sit in another, by id, all on one sheet.

    Where the design does not fit its paper it is laid out beyond the frame, never overlapped.
    """
    flow = Flow(design)
    return Plan(flow, flow.scheme.units).at


def arranged_on_sheets(design: Design) -> dict[str, Spot]:
    """Sheet and position of every part that does not sit in another, by id.

    Parts that were given a sheet stay together on it. What does not fit its sheet is split, see
    :func:`~linework.sheet.arranging.sheets.split`; the sheets are numbered anew then.
    """
    flow = Flow(design)
    given = {key: flow.design.part(key).sheet for key in flow.members}
    numbers = sorted(set(given.values()))
    parts = [split(flow, [key for key in given if given[key] == number]) for number in numbers]
    plans = [plan for part in parts for plan in part]
    if len(plans) > len(numbers):
        numbers = list(range(1, len(plans) + 1))
    return {
        key: Spot(number, x, y, flow.design.part(key).mirror)
        for number, plan in zip(numbers, plans, strict=True)
        for key, (x, y) in plan.at.items()
    }


def holds_each(design: Design) -> bool:
    """Whether no part, with all that sits in it, is larger than the paper."""
    flow, frame = Flow(design), frame_of(design.settings.sheet)
    wide, high = frame.area.width, frame.block.top - frame.area.top
    boxes = (unit.box for unit in flow.scheme.units.values())
    return all(box.width <= wide and box.height <= high for box in boxes)


def place_new(design: Design) -> Design:
    """A copy with a place for every part that has none; what has one does not move.

    Where none has one, all is laid out.
    """
    new = len(without_position(design))
    drawn = sum(seat_of(design, part) is None for part in design.parts)
    return lay_out(design) if new == drawn else add_positions(design)


def lay_out(design: Design) -> Design:
    """A copy of the design with all parts at their starting places, on as many sheets as needed."""
    spots = arranged_on_sheets(design)
    copy = design.snapshot()
    moved = [
        (part, replace(part, x=at.x, y=at.y, sheet=at.sheet, turn=0, mirror=at.mirror))
        for part in design.parts
        if (at := spots.get(part.id)) is not None
    ]
    copy.apply(changed("", moved))
    return copy
