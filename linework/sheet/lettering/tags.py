"""The tag of a run: its name on its own line, in an outline that tells how it is laid."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from linework.picture.geometry import Box
from linework.picture.inks import MEDIUM, THIN, Dash, Ink, Pen
from linework.picture.measure import text_width
from linework.picture.model import Item, Rect, Text
from linework.sheet.lettering.texts import SMALL

Method = Literal["cable", "cord", "jumper"]

TAG_HEIGHT, TAG_WIDTH = 44, 76
"""The height of a tag, and its least width, in tenths of a millimetre."""
_AIR = 10
_PENS = {
    "cable": Pen(width=MEDIUM),
    "cord": Pen(width=MEDIUM),
    "jumper": Pen(width=THIN, dash=Dash.DASHED),
}


def tag_width(text: str) -> int:
    """How wide the tag of this name is."""
    return max(TAG_WIDTH, text_width(text, SMALL, bold=True) + 2 * _AIR)


@dataclass(frozen=True, slots=True)
class Tag:
    """A name on its line, about ``x``, ``y``: square for a cable, round for a cord, dashed for a
    jumper between grounds."""

    text: str
    x: int
    y: int
    method: Method = "cable"

    @property
    def items(self) -> tuple[Item, ...]:
        """The outline on a ground of paper, and the name."""
        box = self._outline()
        radius = TAG_HEIGHT // 2 if self.method == "cord" else 0
        outline = Rect(
            box.left, box.top, box.width, box.height, radius, _PENS[self.method], Ink.PAPER
        )
        name = Text(self.x, self.y, self.text, SMALL, "middle", "middle", bold=True)
        return outline, name

    def box(self) -> Box:
        """Around the outline, its line included."""
        return self._outline().grown(2)

    def _outline(self) -> Box:
        wide, half = tag_width(self.text) // 2, TAG_HEIGHT // 2
        return Box(self.x - wide, self.y - half, self.x + wide, self.y + half)
