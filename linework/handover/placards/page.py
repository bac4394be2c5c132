"""The pages of placards: two columns at true size, then the strips of each board."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from reportlab.platypus import Flowable, KeepTogether, Spacer

from linework.handover.content import Content
from linework.handover.drawn import Drawn
from linework.handover.placards.needed import placards
from linework.handover.placards.sign import (
    CAPTION,
    STRIP,
    WIDE,
    Placard,
    Strip,
    drawn,
    drawn_strip,
    height_of,
)
from linework.handover.placards.strips import strips
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import text
from linework.picture.model import Group
from linework.picture.pdf import POINTS_PER_TENTH
from linework.words import N_

_MARGIN = 35
"""Room for the corner marks."""


def placard_pages(content: Content, room: Room) -> list[Flowable]:
    """Nothing where the design needs none."""
    needed, boards = placards(content), strips(content)
    if not needed and not boards:
        return []
    width = int(room.width / POINTS_PER_TENTH)
    out: list[Flowable] = [
        text(
            content.say(
                "Cut on the corner marks. Print at true size (100 %) in black on a pale, lasting"
                " board."
            ),
            anchor="placards",
        )
    ]
    out += _rows(needed, width)
    for name, rows in boards:
        out += [*_strips(name, rows, width)]
    return out


def _rows(needed: Sequence[Placard], width: int) -> Iterator[Flowable]:
    """Two beside each other, of one height."""
    gap = max(width - 2 * WIDE - 2 * _MARGIN, 2 * _MARGIN)
    for at in range(0, len(needed), 2):
        pair = needed[at : at + 2]
        high = max(map(height_of, pair))
        items = []
        for n, placard in enumerate(pair):
            group = drawn(placard, high)
            items.append(Group(group.items, _MARGIN + n * (WIDE + gap), _MARGIN))
        yield Drawn(items, width, high + CAPTION + _MARGIN)


def _strips(name: str, rows: Sequence[Strip], width: int) -> Iterator[Flowable]:
    """The strips of a board, as many beside each other as fit; its name with the first."""
    wide, high = STRIP
    across = max(1, (width + 20) // (wide + 20))
    lines: list[Flowable] = []
    for at in range(0, len(rows), across):
        items = [
            Group(drawn_strip(strip).items, n * (wide + 20), 8)
            for n, strip in enumerate(rows[at : at + across])
        ]
        lines.append(Drawn(items, width, high + 22))
    yield Spacer(1, 4)
    yield KeepTogether([text(name, "heading"), lines[0]])
    yield from lines[1:]


PLACARDS = Sheet("placards", N_("Placards to cut out"), N_("placards"), placard_pages, upright=True)
