"""Places from left to right: room for the writing of each run, one left edge for each column."""

from __future__ import annotations

from collections.abc import Mapping

from linework.picture.geometry import MODULE, Box
from linework.sheet.arranging.scheme import Joint, Port, Scheme, steps
from linework.sheet.arranging.spacing import ORIGIN, Spacing

_WANTED = 225
"""Free width between two parts that a run joins: its tag is 16 to 20 mm wide."""
_LEAST = (200, 175, 150, 125, 100)
"""The least of it that is asked, most first; the leads of symbols come on top of it."""
_PLUG, _ASIDE = 75, 50
"""Between a plug and its outlet, and between what is not joined but lies at one height."""
_LENGTH, _ALIGN, _LEFT = 1.0, 3.0, 0.05


def widths(
    scheme: Scheme, column: Mapping[str, int], y: Mapping[str, int], width: int
) -> dict[str, int]:
    """The place of each unit's origin from the left edge of the first.

    All of it within ``width``, if gaps of 10 mm allow that.
    """
    for gap in _LEAST:
        found = _placed(scheme, column, y, gap, width)
        if found is not None:
            return found
    found = _placed(scheme, column, y, _LEAST[-1], None)
    assert found is not None, "one beside the other can always be"
    return found


def _placed(
    scheme: Scheme, column: Mapping[str, int], y: Mapping[str, int], gap: int, width: int | None
) -> dict[str, int] | None:
    spacing = Spacing()
    for key, unit in scheme.units.items():
        spacing.apart(ORIGIN, key, steps(-unit.box.left))
        spacing.near(ORIGIN, key, steps(-unit.box.left), _LEFT)
        if width is not None:
            spacing.apart(key, ORIGIN, -((width - unit.roomy.right) // MODULE))
    for joint in scheme.joints:
        _joined(scheme, column, spacing, joint, gap)
    _side_by_side(scheme, column, y, spacing)
    _aligned(scheme, column, spacing)
    places = spacing.places()
    return None if places is None else {key: places[key] * MODULE for key in scheme.units}


def _joined(
    scheme: Scheme, column: Mapping[str, int], spacing: Spacing, joint: Joint, gap: int
) -> None:
    a, b = joint.ports
    if column[a.unit] > column[b.unit]:
        a, b = b, a
    if column[a.unit] == column[b.unit]:
        spacing.near(a.unit, b.unit, 0, _LENGTH)
        return
    edges = _far_edge(scheme, a) - _near_edge(scheme, b)
    least, wanted = (_PLUG, _PLUG) if joint.plug else (gap, _WANTED)
    spacing.apart(a.unit, b.unit, steps(edges + least))
    spacing.near(a.unit, b.unit, steps(edges + wanted), _LENGTH)


def _far_edge(scheme: Scheme, port: Port) -> int:
    """How far right of its origin a unit is in the way of a line from one of its terminals."""
    return max(port.x, scheme.units[port.unit].box.right) if port.is_level else port.x


def _near_edge(scheme: Scheme, port: Port) -> int:
    return min(port.x, scheme.units[port.unit].box.left) if port.is_level else port.x


def _side_by_side(
    scheme: Scheme, column: Mapping[str, int], y: Mapping[str, int], spacing: Spacing
) -> None:
    """What lies at one height lies clear of each other, in the order of the columns."""
    boxes = {key: unit.roomy.moved(0, y[key]) for key, unit in scheme.units.items()}
    order = sorted(boxes, key=lambda key: column[key])
    for number, one in enumerate(order):
        for other in order[number + 1 :]:
            if column[one] < column[other] and _level(boxes[one], boxes[other]):
                least = boxes[one].right - scheme.units[other].box.left + _ASIDE
                spacing.apart(one, other, steps(least))


def _level(one: Box, other: Box) -> bool:
    return one.top < other.bottom and other.top < one.bottom


def _aligned(scheme: Scheme, column: Mapping[str, int], spacing: Spacing) -> None:
    """The left edges of a column's units lie on one line, where that can be."""
    for key, unit in scheme.units.items():
        edge = ("edge", column[key], unit.board, unit.is_load)
        spacing.near(edge, key, steps(-unit.box.left), _ALIGN)
