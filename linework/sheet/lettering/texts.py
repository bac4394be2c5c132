"""Blocks of writing as they stand on the sheet: lines of spans, measured before they are placed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from linework.picture.geometry import Box
from linework.picture.inks import Ink
from linework.picture.measure import text_box, text_width
from linework.picture.model import Across, Item, Level, Text

HEAD = 35
"""Height of capitals of the names of sources and boards, in tenths of a mm (ISO 3098)."""
SMALL = 25
"""Height of everything else that is drawn."""
LEADING = 17
"""Free height between two lines."""
_WORD_GAP = 14
_UNIT = r"[kMm]?(?:A|V|VA|W|Wh|Ah|Ω|Hz)|%|°C|K|ft|in|m|mm|mm²|s|ms|min|h|AWG|kcmil|ohm|degC"
_BEFORE_UNIT = re.compile(rf"(?<=[0-9])[ ](?=(?:{_UNIT})(?!\w))")


@dataclass(frozen=True, slots=True)
class Span:
    """A piece of one line in one kind of letter."""

    text: str
    bold: bool = False
    ink: Ink = Ink.INK
    height: int = SMALL

    @property
    def width(self) -> int:
        """Its length in tenths of a millimetre."""
        return text_width(self.text, self.height, self.bold)


Row = tuple[Span, ...]
Block = tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Hung:
    """A block at its place: ``x``, ``y`` is the point by which ``across`` and ``level`` hang it.

    ``upward``: written from bottom to top; the block is laid level and then turned about its
    point, a quarter turn against the clock.
    """

    block: Block
    x: int
    y: int
    across: Across = "start"
    level: Level = "top"
    upward: bool = False

    def texts(self) -> tuple[Text, ...]:
        """The writing, line by line."""
        out: list[Text] = []
        for text in _laid(self.block, self.across, self.level):
            dx, dy = (text.y, -text.x) if self.upward else (text.x, text.y)
            out.append(
                Text(
                    self.x + dx,
                    self.y + dy,
                    text.text,
                    text.height,
                    bold=text.bold,
                    ink=text.ink,
                    upward=self.upward,
                )
            )
        return tuple(out)

    @property
    def items(self) -> tuple[Item, ...]:
        """What is drawn."""
        return self.texts()

    def box(self) -> Box:
        """The box around the ink of all lines. ValueError for an empty block."""
        box = _extent(self.block, self.across, self.level)
        if self.upward:
            box = Box(box.top, -box.right, box.bottom, -box.left)
        return box.moved(self.x, self.y)


@lru_cache(maxsize=4096)
def _laid(block: Block, across: Across, level: Level) -> tuple[Text, ...]:
    """The lines of a block that hangs on the origin."""
    down = {"top": 0, "middle": block_height(block) // 2, "base": block_height(block)}
    top = -down[level]
    out: list[Text] = []
    for row in block:
        out.extend(_row_texts(row, top, across))
        top += row_height(row) + LEADING
    return tuple(out)


@lru_cache(maxsize=4096)
def _extent(block: Block, across: Across, level: Level) -> Box:
    boxes = [text_box(text) for text in _laid(block, across, level)]
    if not boxes:
        raise ValueError("a block without writing has no box")
    return Box(
        min(box.left for box in boxes),
        min(box.top for box in boxes),
        max(box.right for box in boxes),
        max(box.bottom for box in boxes),
    )


def row_height(row: Row) -> int:
    """The height of the capitals of a line."""
    return max(span.height for span in row)


def row_width(row: Row) -> int:
    """The length of a line, gaps between its spans included."""
    return sum(span.width for span in row) + _WORD_GAP * (len(row) - 1)


def block_height(block: Block) -> int:
    """From the top of the first line's capitals to the last base line."""
    return sum(row_height(row) + LEADING for row in block) - LEADING if block else 0


def _row_texts(row: Row, top: int, across: Across) -> list[Text]:
    at = -{"start": 0, "middle": row_width(row) // 2, "end": row_width(row)}[across]
    base = top + row_height(row)
    out = []
    for span in row:
        out.append(Text(at, base, span.text, span.height, bold=span.bold, ink=span.ink))
        at += span.width + _WORD_GAP
    return out


def kept_together(text: str) -> str:
    """The text with spaces that do not break between a figure and its unit."""
    return _BEFORE_UNIT.sub("\N{NO-BREAK SPACE}", text)


def wrapped(text: str, width: int, height: int = SMALL) -> list[str]:
    """The text in lines of at most ``width``; a word that is longer stands alone, and a figure
    stays with its unit."""
    lines: list[str] = []
    for kept in re.split(r"[ \n\t]+", kept_together(text)):
        word = kept.replace("\N{NO-BREAK SPACE}", " ").strip()
        if not word:
            continue
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, height) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
