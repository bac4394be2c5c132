"""Blocks of writing as they stand on the sheet: lines of spans, measured before they are placed."""

from __future__ import annotations

from dataclasses import dataclass

from linework.picture.geometry import Box
from linework.picture.inks import Ink
from linework.picture.measure import text_box, text_width
from linework.picture.model import Across, Level, Text

HEAD = 35
"""Height of capitals of a designation, in tenths of a millimetre (ISO 3098)."""
SMALL = 29
"""Height of everything else that is drawn, so that A3 made into A4 keeps 2 mm."""
LEADING = 14
"""Free height between two lines."""
_WORD_GAP = 14


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
    """A block at its place: ``x``, ``y`` is the point by which ``across`` and ``level`` hang it."""

    block: Block
    x: int
    y: int
    across: Across = "start"
    level: Level = "top"

    def texts(self) -> tuple[Text, ...]:
        """The writing, line by line."""
        down = {"top": 0, "middle": block_height(self.block) // 2, "base": block_height(self.block)}
        top = self.y - down[self.level]
        out: list[Text] = []
        for row in self.block:
            out.extend(_row_texts(row, self.x, top, self.across))
            top += row_height(row) + LEADING
        return tuple(out)

    def box(self) -> Box:
        """The box around the ink of all lines. ValueError for an empty block."""
        boxes = [text_box(text) for text in self.texts()]
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
    return sum(row_height(row) for row in block) + LEADING * (len(block) - 1)


def block_width(block: Block) -> int:
    """The length of the longest line."""
    return max((row_width(row) for row in block), default=0)


def _row_texts(row: Row, x: int, top: int, across: Across) -> list[Text]:
    back = {"start": 0, "middle": row_width(row) // 2, "end": row_width(row)}[across]
    at, base = x - back, top + row_height(row)
    out = []
    for span in row:
        out.append(Text(at, base, span.text, span.height, bold=span.bold, ink=span.ink))
        at += span.width + _WORD_GAP
    return out


def wrapped(text: str, width: int, height: int = SMALL) -> list[str]:
    """The text in lines of at most ``width``; a word that is longer stands alone."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, height) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
