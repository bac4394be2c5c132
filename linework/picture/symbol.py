"""A symbol as a value: its strokes, where runs attach, where other parts sit and labels hang."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from linework.picture.geometry import Box, Placing
from linework.picture.measure import bounds
from linework.picture.model import Group, Item, turned_ends
from linework.picture.symbolfile import Anchor, Direction, LabelPlace

GAP = 12
"""Between a symbol and its label, in tenths of a millimetre."""

_VECTORS: dict[Direction, tuple[int, int]] = {
    "right": (1, 0),
    "down": (0, 1),
    "left": (-1, 0),
    "up": (0, -1),
}


@dataclass(frozen=True)
class Symbol:
    """A symbol about its own origin, or as it lies on the sheet.

    ``anchors``: by terminal name. ``places``: where another part may sit. ``labels``: "above"
    for the designation, "below" for ratings, "left" and "right". ``box``: around its ink.
    ``source``: the standard its geometry follows.
    """

    name: str
    group: Group
    anchors: Mapping[str, Anchor]
    places: Mapping[str, Anchor]
    labels: Mapping[str, LabelPlace]
    box: Box
    source: str = ""

    def at(self, x: int, y: int, turn: int = 0, mirror: bool = False, tag: str = "") -> Symbol:
        """The symbol as it lies on a sheet: mirrored left to right, turned clockwise, moved."""
        placing = Placing(x, y, turn % 4, mirror)
        group = replace(self.group, x=x, y=y, turn=turn % 4, mirror=mirror, tag=tag)
        return Symbol(
            self.name,
            group,
            {name: _placed(anchor, placing) for name, anchor in self.anchors.items()},
            {name: _placed(anchor, placing) for name, anchor in self.places.items()},
            {name: _hung(label, placing) for name, label in self.labels.items()},
            bounds([group]) or Box(x, y, x, y),
            self.source,
        )


def _placed(anchor: Anchor, placing: Placing) -> Anchor:
    x, y = placing.point(anchor.x, anchor.y)
    vector = placing.vector(*_VECTORS[anchor.direction])
    (direction,) = (name for name, value in _VECTORS.items() if value == vector)
    return Anchor(x, y, direction)


def _hung(label: LabelPlace, placing: Placing) -> LabelPlace:
    x, y = placing.point(label.x, label.y)
    across, level = turned_ends(label.across, label.level, placing)
    return LabelPlace(x, y, across, level)


def drawn(
    name: str,
    items: tuple[Item, ...],
    anchors: Mapping[str, Anchor],
    places: Mapping[str, Anchor] | None = None,
    labels: Mapping[str, LabelPlace] | None = None,
    source: str = "",
) -> Symbol:
    """A symbol of given strokes; labels that are not given hang around its box."""
    group = Group(items, name=name)
    box = bounds([group]) or Box(0, 0, 0, 0)
    hung = {**labels_around(box), **(labels or {})}
    return Symbol(name, group, anchors, places or {}, hung, box, source)


def labels_around(box: Box) -> dict[str, LabelPlace]:
    """The four label places at the sides of a box, in line with the symbol's origin."""
    return {
        "above": LabelPlace(0, box.top - GAP, "middle", "base"),
        "below": LabelPlace(0, box.bottom + GAP, "middle", "top"),
        "left": LabelPlace(box.left - GAP, 0, "end", "middle"),
        "right": LabelPlace(box.right + GAP, 0, "start", "middle"),
    }
