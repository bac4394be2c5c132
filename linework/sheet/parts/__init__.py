"""Parts on the sheet: which symbol, where it lies, what is written at it."""

from linework.sheet.parts.bars import is_bar
from linework.sheet.parts.captions import captions_in_words
from linework.sheet.parts.forks import fork_key
from linework.sheet.parts.mains import has_main
from linework.sheet.parts.neutral import neutral_link
from linework.sheet.parts.partlabels import wanted_for_part
from linework.sheet.parts.parts import End, PartDrawing, draw_part, draw_parts
from linework.sheet.parts.places import seat_of, sheet_numbers, sheet_of
from linework.sheet.parts.shapes import is_board, is_moved_by_hand

__all__ = [
    "End",
    "PartDrawing",
    "captions_in_words",
    "draw_part",
    "draw_parts",
    "fork_key",
    "has_main",
    "is_bar",
    "is_board",
    "is_moved_by_hand",
    "neutral_link",
    "seat_of",
    "sheet_numbers",
    "sheet_of",
    "wanted_for_part",
]
