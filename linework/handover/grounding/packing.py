"""How wide a box of the grounding drawing is, and how many stand in a row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linework.handover.grounding.bars import Bar, Grounds

TALL = 25
"""Height of capitals, in tenths of a millimetre as all else."""
APART = 50
RAIL_NAME = 380
"""Room for the name of a rail and its sign, at the right of the boxes."""
_PORT, _LEAST = 60, 420


def packed(grounds: Grounds, boxes: Sequence[str], width: int) -> Iterator[list[str]]:
    """Some boxes in rows of at most ``width``, names of rails at their right."""
    group: list[str] = []
    railed = grounds.ties or any(isinstance(w.end, str) for w in grounds.ways)
    used = spare = RAIL_NAME if railed else 0
    for part in boxes:
        wide = width_of(grounds, part) + APART
        if group and used + wide > width:
            yield group
            group, used = [], spare
        group.append(part)
        used += wide
    if group:
        yield group


def width_of(grounds: Grounds, part: str) -> int:
    """Room for every port of each lane, and for the writing."""
    over = under = 0
    for way in grounds.ways:
        for bar in (way.start, way.end):
            if isinstance(bar, Bar) and bar.part == part:
                over += bar.pole == "N"
                under += bar.pole != "N"
    upper = sum(bar.pole == "N" for bar in grounds.of(part))
    lanes = max(upper, len(grounds.of(part)) - upper)
    return max(_LEAST, _PORT * (max(over, under) + 2), 290 * lanes)
