"""The mark of neutral and ground beside a source, inverter or transformer."""

from __future__ import annotations

from dataclasses import dataclass

from linework.design import Design, Part
from linework.picture.geometry import Box
from linework.picture.inks import Ink
from linework.picture.measure import bounds
from linework.picture.model import Item, Text
from linework.picture.neutral import GAP, neutral_bars
from linework.sheet.lettering import SMALL, Wanted
from linework.sheet.parts import PartDrawing, is_board, neutral_link
from linework.words import N_, say

_LENGTH, _LEFT = 56, 26
_WORDS = {
    "strap": N_("link fitted"),
    "apart": N_("no link"),
    "relay": N_("link by relay"),
    "unknown": N_("not known"),
}


@dataclass(frozen=True)
class NeutralMark:
    """Two bars with their letters from ``x``, ``y`` on, and in words what joins them."""

    x: int
    y: int
    link: str
    words: str

    @property
    def items(self) -> tuple[Item, ...]:
        """What is drawn."""
        right = self.x + _LEFT + _LENGTH + (24 if self.link == "unknown" else 10)
        ink = Ink.ASSUMED if self.words.startswith("[") else Ink.INK
        text = Text(right, self.y + GAP // 2, self.words, SMALL, "start", "middle", ink=ink)
        return (*neutral_bars(self.link, self.x + _LEFT, self.y, _LENGTH), text)

    def box(self) -> Box:
        """Around all ink."""
        return bounds(self.items) or Box(self.x, self.y, self.x, self.y)


def wanted_for_neutral(design: Design, part: Part, drawing: PartDrawing) -> Wanted | None:
    """The mark near a part that has one; boards show it inside."""
    found = None if is_board(design, part) else neutral_link(design, part)
    if found is None:
        return None
    link, assumed = found
    words = say(_WORDS[link])
    mark = NeutralMark(0, 0, link, f"[{words}]" if assumed else words)
    box, options = mark.box(), []
    for step in (10, 16, 22, 28, 45, 70, 100, 140, 180, 220):
        near = drawing.whole.grown(step)
        x, y = near.center
        for left, top in (
            (near.left, near.bottom),
            (near.right, y - box.height // 2),
            (near.left, near.top - box.height),
            (near.right - box.width, near.bottom),
            (near.right, near.bottom),
            (near.right - box.width, near.top - box.height),
            (near.left - box.width, y - box.height // 2),
            (x - box.width // 2, near.bottom),
            (near.left - box.width, near.bottom),
            (near.right, near.top - box.height),
        ):
            options.append((NeutralMark(left - box.left, top - box.top, mark.link, mark.words),))
    return Wanted(f"neutral-{part.id}", tuple(options), drawing.whole, (), 1)
