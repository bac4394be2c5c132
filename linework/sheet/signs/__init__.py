"""What the sheet tells beside parts and runs: flags, links, the legend, notes, the shown state."""

from linework.sheet.signs.extras import (
    Reference,
    Tie,
    elsewhere,
    interlock_ties,
    plug_ties,
    reference,
)
from linework.sheet.signs.flags import FlagDrawing, flag_box, flag_items, place_flags
from linework.sheet.signs.matching import Cut, Matching, MatchLine, letters
from linework.sheet.signs.neutral import wanted_for_neutral
from linework.sheet.signs.symbols import wanted_symbols
from linework.sheet.signs.writing import (
    label_group,
    legend_block,
    note_block,
    told_elsewhere,
    wanted_for_lock,
)

__all__ = [
    "Cut",
    "FlagDrawing",
    "MatchLine",
    "Matching",
    "Reference",
    "Tie",
    "elsewhere",
    "flag_box",
    "flag_items",
    "interlock_ties",
    "label_group",
    "legend_block",
    "letters",
    "note_block",
    "place_flags",
    "plug_ties",
    "reference",
    "told_elsewhere",
    "wanted_for_lock",
    "wanted_for_neutral",
    "wanted_symbols",
]
