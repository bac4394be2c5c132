"""The mark of neutral and ground beside a source, inverter or transformer."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from linework.design import Design, Part
from linework.picture.geometry import MODULE, Box, Point
from linework.picture.inks import Ink
from linework.picture.measure import bounds
from linework.picture.model import Item, Text
from linework.picture.neutral import GAP, neutral_bars
from linework.sheet.lettering import REACH, SMALL, Option, Wanted
from linework.sheet.parts import PartDrawing, is_board, neutral_link
from linework.words import N_, say

_LENGTH, _LEFT = 56, 26
_STEPS = (10, 16, 22, 28, 45, 70, 100, 140, 180, 220)
"""So far from its part a mark is tried."""
_WORDS = {
    "strap": N_("link fitted"),
    "apart": N_("no link"),
    "relay": N_("link by relay"),
    "unknown": N_("not known"),
}


@dataclass(frozen=True)
class NeutralMark:
    """Two bars with their letters from ``x``, ``y`` on, and in words what joins them; far from the
    part, whose link it is. Where there is no room for words the legend tells, and "[ ]" that it is
    assumed."""

    x: int
    y: int
    link: str
    words: str
    assumed: bool = False

    @property
    def items(self) -> tuple[Item, ...]:
        """What is drawn."""
        right = self.x + _LEFT + _LENGTH + (24 if self.link == "unknown" else 10)
        ink = Ink.ASSUMED if self.assumed else Ink.INK
        text = Text(right, self.y + GAP // 2, self.words, SMALL, "start", "middle", ink=ink)
        bars = neutral_bars(self.link, self.x + _LEFT, self.y, _LENGTH)
        return (*bars, text) if self.words else tuple(bars)

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
    words = f"[{words}]" if assumed else words
    bare = NeutralMark(0, 0, link, "[ ]" if assumed else "", assumed)
    near = replace(bare, words=words)
    far = replace(bare, words=f"{part.designation}: {words}")
    full, short = _spots(near, far, drawing.whole), _spots(bare, bare, drawing.whole)
    return Wanted(f"neutral-{part.id}", (*full, *short), drawing.whole, (), 1, complete=len(full))


def _spots(near: NeutralMark, far: NeutralMark, whole: Box) -> list[Option]:
    """A mark all round a part, first at the usual places; ``far`` where it stands far off."""
    found: list[Option] = []
    for places in (_corners, _along):
        for step in _STEPS:
            mark = near if step <= REACH else far
            box = mark.box()
            found += [
                (replace(mark, x=left - box.left, y=top - box.top),)
                for left, top in places(whole.grown(step), box)
            ]
    return found


def _corners(near: Box, box: Box) -> Iterator[Point]:
    """Left and top of a mark of the size of ``box`` beside another box, the best first."""
    x, y = near.center
    yield near.left, near.bottom
    yield near.right, y - box.height // 2
    yield near.left, near.top - box.height
    yield near.right - box.width, near.bottom
    yield near.right, near.bottom
    yield near.right - box.width, near.top - box.height
    yield near.left - box.width, y - box.height // 2
    yield x - box.width // 2, near.bottom
    yield near.left - box.width, near.bottom
    yield near.right, near.top - box.height


def _along(near: Box, box: Box) -> Iterator[Point]:
    """The same at every height on both sides, and all along above and below."""
    for top in range(near.top - box.height, near.bottom + 1, MODULE):
        yield near.right, top
        yield near.left - box.width, top
    for left in range(near.left - box.width, near.right + 1, MODULE):
        yield left, near.top - box.height
        yield left, near.bottom
