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
from linework.bench.looks.column import Column, height_of
from linework.bench.looks.combo import Combo
from linework.bench.looks.flow import Flow
from linework.bench.looks.labels import (
    STRONG,
    Label,
    Span,
    SpanLabel,
    caption,
    literal,
    tip,
    window_title,
)

__all__ = [
    "STRONG",
    "Column",
    "Combo",
    "Flow",
    "Label",
    "Span",
    "SpanLabel",
    "caption",
    "dress",
    "em",
    "height_of",
    "literal",
    "mark",
    "paint_assumed",
    "palette_of",
    "tip",
    "tone",
    "true_height",
    "window_title",
    "worn",
]
