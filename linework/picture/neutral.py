"""The mark of neutral and ground: two bars, N over G, and what joins them."""

from __future__ import annotations

from linework.picture.inks import BROAD, MEDIUM, WIDE, Ink, Pen
from linework.picture.model import Item, Line, Text

GAP = 34
"""From the bar of the neutral down to that of the ground, in tenths of a millimetre."""
_LETTER = 25
_BAR = Pen(width=WIDE)


def neutral_bars(link: str, x: int, y: int, length: int) -> tuple[Item, ...]:
    """Bars from ``x`` on, that of the neutral at ``y``, with their letters before them.

    ``link``: "strap" joins them, "relay" does by a contact, "apart" not; "unknown" is asked.
    """
    low, middle = y + GAP, x + length // 2
    items: list[Item] = [
        Text(x - 8, y, "N", _LETTER, "end", "middle", bold=True),
        Text(x - 8, low, "G", _LETTER, "end", "middle", bold=True),
        Line(x, y, x + length, y, _BAR),
        Line(x, low, x + length, low, _BAR),
    ]
    if link == "strap":
        items.append(Line(middle, y, middle, low, Pen(width=BROAD)))
    elif link == "relay":
        items.append(Line(middle, y, middle, y + 8, Pen(width=MEDIUM)))
        items.append(Line(middle, low, middle, low - 8, Pen(width=MEDIUM)))
        items.append(Line(middle, low - 8, middle + 14, y + 7, Pen(width=MEDIUM)))
    elif link == "unknown":
        items.append(
            Text(x + length + 8, y + GAP // 2, "?", _LETTER, "start", "middle", ink=Ink.ASSUMED)
        )
    return tuple(items)
