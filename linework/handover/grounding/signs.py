"""Signs of positions: numbers in a dark field, as the key of the sheet has them."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from linework.handover.grounding.packing import TALL
from linework.picture.inks import Ink
from linework.picture.measure import text_width
from linework.picture.model import Item, Rect, Text

_HIGH, _PAD = 40, 10


def position_sign(words: str, x: int, y: int) -> tuple[list[Item], int]:
    """The sign with its left upper corner there, and its width; tenths of a millimetre."""
    wide = max(_HIGH, text_width(words, TALL, bold=True) + 2 * _PAD)
    return [
        Rect(x, y, wide, _HIGH, 12, None, Ink.INK),
        Text(x + wide // 2, y + 32, words, TALL, "middle", bold=True, ink=Ink.PAPER),
    ], wide


def numbers_text(numbers: Iterable[int]) -> str:
    """ "1–3, 5": numbers in their order, three and more in a row as a span."""
    found: list[str] = []
    for _, group in groupby(enumerate(sorted(numbers)), key=lambda e: e[1] - e[0]):
        span = [number for _, number in group]
        found += [f"{span[0]}–{span[-1]}"] if len(span) > 2 else map(str, span)
    return ", ".join(found)
