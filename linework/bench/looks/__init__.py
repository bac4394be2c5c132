"""What every room wears: the palettes on widgets, and the few pieces that all rooms use."""

from linework.bench.looks.colors import (
    dress,
    em,
    mark,
    paint_assumed,
    palette_of,
    tone,
    true_height,
    worn,
)
from linework.bench.looks.column import Column
from linework.bench.looks.combo import Combo
from linework.bench.looks.flow import Flow

__all__ = [
    "Column",
    "Combo",
    "Flow",
    "dress",
    "em",
    "mark",
    "paint_assumed",
    "palette_of",
    "tone",
    "true_height",
    "worn",
]
