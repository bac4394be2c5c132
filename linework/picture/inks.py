"""What lines are drawn with: roles of colour, line widths, dashes.

A drawing names roles, never colours: the same drawing is shown light, dark, in high contrast and
on paper (see palettes).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Ink(StrEnum):
    """What a colour means."""

    INK = "ink"
    """Drawing and text."""
    QUIET = "quiet"
    """Second-rank text, and conductors that are not energised."""
    FAINT = "faint"
    """Grid and zone marks: decoration, carries no meaning."""
    DESK = "desk"
    """What the sheet lies on: decoration, carries no meaning."""
    PAPER = "paper"
    """The sheet itself; also text on a field of danger, warning, note or a source."""
    TINT = "tint"
    """The inside of enclosures."""
    DANGER = "danger"
    WARNING = "warning"
    NOTE = "note"
    SOUND = "sound"
    """What was judged and found sound."""
    ASSUMED = "assumed"
    """Values that nobody has given."""
    ASSUMED_FIELD = "assumed-field"
    CHOSEN = "chosen"
    """What the user has chosen, and places where something may be attached."""
    CHOSEN_FIELD = "chosen-field"
    SOURCE_1 = "source-1"
    SOURCE_2 = "source-2"
    SOURCE_3 = "source-3"
    SOURCE_4 = "source-4"
    SOURCE_5 = "source-5"
    SOURCE_6 = "source-6"
    WIRE_BLACK = "wire-black"
    WIRE_RED = "wire-red"
    WIRE_BLUE = "wire-blue"
    WIRE_WHITE = "wire-white"
    WIRE_GREY = "wire-grey"
    WIRE_BROWN = "wire-brown"
    WIRE_GREEN = "wire-green"
    WIRE_YELLOW = "wire-yellow"
    WIRE_PINK = "wire-pink"
    WIRE_ORANGE = "wire-orange"
    WIRE_EDGE = "wire-edge"
    """The outline that makes a wire colour visible on any paper."""


SOURCES = (
    Ink.SOURCE_1,
    Ink.SOURCE_2,
    Ink.SOURCE_3,
    Ink.SOURCE_4,
    Ink.SOURCE_5,
    Ink.SOURCE_6,
)


def source_ink(index: int) -> Ink:
    """The hue of the source number ``index`` (from 0); they repeat after six, letters tell on."""
    return SOURCES[index % len(SOURCES)]


class Dash(StrEnum):
    """How a line is broken.

    Lengths in line widths, put together from the elements of ISO 128-20 (short dash 6, long dash
    24, gap 3, dot at most 0.5; from memory).
    """

    SOLID = "solid"
    DASHED = "dashed"
    CHAIN = "chain"
    DOTTED = "dotted"

    @property
    def pattern(self) -> tuple[float, ...]:
        """Dash and gap in turns, in line widths; empty for a full line."""
        return _PATTERNS[self]


_PATTERNS: dict[Dash, tuple[float, ...]] = {
    Dash.SOLID: (),
    Dash.DASHED: (6, 3),
    Dash.CHAIN: (24, 3, 0.5, 3),
    Dash.DOTTED: (0.5, 3),
}


FINE, THIN, MEDIUM, WIDE, HEAVY, BROAD, BAR = 18, 25, 35, 50, 70, 100, 140
"""Line widths in hundredths of a millimetre: the series of ISO 128-20 (from memory)."""

WIDTHS = {
    "fine": FINE,
    "thin": THIN,
    "medium": MEDIUM,
    "wide": WIDE,
    "heavy": HEAVY,
    "broad": BROAD,
    "bar": BAR,
}


@dataclass(frozen=True, slots=True)
class Pen:
    """``width`` in hundredths of a millimetre."""

    ink: Ink = Ink.INK
    width: int = MEDIUM
    dash: Dash = Dash.SOLID


PEN = Pen()
"""The outline of symbols."""
