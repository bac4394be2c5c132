"""The pages of placards at true size, as many abreast as fit, and of the strips of each board."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from reportlab.platypus import Flowable

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
from linework.handover.setting import Kept
from linework.handover.sheets import NARROW, Band, Room, Sheet
from linework.handover.styles import text
from linework.picture.model import Group
from linework.picture.pdf import POINTS_PER_TENTH
from linework.words import N_

_MARGIN = 35
"""Room for the corner marks."""


def placard_pages(content: Content, room: Room) -> list[Band]:
    """Nothing where the design needs none."""
    needed, boards = placards(content), strips(content)
    if not needed and not boards:
        return []
    note = content.say(
        "Cut on the corner marks. Print at true size (100 %) in black on a pale, lasting board."
    )
    head = [text(content.say("Placards"), "title", anchor="placards"), text(note)]
    signs = [*_rows(needed, int(room.width / POINTS_PER_TENTH))]
    count = room.columns(NARROW)
    column = room.column(count)
    width = int(column.width / POINTS_PER_TENTH)
    beside = [Kept(_strips(name, rows, width), room.height) for name, rows in boards]
    bands = [Band(1, signs), Band(count, beside)]
    if count == 1:  # nothing has room beside the title block: what is low fills the page begun
        bands.reverse()
    bands = [band for band in bands if band.content]
    return [replace(bands[0], head=head), *bands[1:]]


def _rows(needed: Sequence[Placard], width: int) -> Iterator[Flowable]:
    """As many beside each other as have room, those of a row of one height."""
    across = max(1, (width + _MARGIN) // (WIDE + 2 * _MARGIN))
    free = (width - across * WIDE - 2 * _MARGIN) // max(1, across - 1)
    pitch = WIDE + max(free, 2 * _MARGIN)
    for at in range(0, len(needed), across):
        row = needed[at : at + across]
        high = max(map(height_of, row))
        groups = [drawn(placard, high) for placard in row]
        items = [Group(g.items, _MARGIN + n * pitch, _MARGIN) for n, g in enumerate(groups)]
        yield Drawn(items, width, high + CAPTION + _MARGIN)


def _strips(name: str, rows: Sequence[Strip], width: int) -> list[Flowable]:
    """The strips of a board, as many beside each other as fit, under its name."""
    wide, high = STRIP
    across = max(1, (width + 20) // (wide + 20))
    lines: list[Flowable] = [text(name, "heading")]
    for at in range(0, len(rows), across):
        items = [
            Group(drawn_strip(strip).items, n * (wide + 20), 8)
            for n, strip in enumerate(rows[at : at + across])
        ]
        lines.append(Drawn(items, width, high + 22))
    return lines


PLACARDS = Sheet("placards", N_("Placards to cut out"), N_("placards"), placard_pages)
