"""How the text pages of the set look: one family of embedded faces, black and white safe.

Sizes are heights of capitals in millimetres of the paper (ISO 3098): 2.5 for all that is read, 3.5
for headings, 5 for titles; nothing smaller stands outside the title block.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any, TypeAlias

from reportlab.lib.colors import Color, HexColor
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import CondPageBreak, Flowable, Table, TableStyle

from linework.handover.columns import widths
from linework.handover.markup import paragraph
from linework.picture.fonts import face
from linework.picture.measure import em_size
from linework.picture.pdf import POINTS_PER_TENTH, use_fonts

INK = HexColor("#16202a")
QUIET = HexColor("#4d5a66")
RULE = HexColor("#8a96a0")
SHADE = HexColor("#eef1f3")

REGULAR, BOLD = face().name, face(bold=True).name

HEADINGS = ("title", "heading")
"""The styles of what stands above other things and stays with them."""

_CAPITALS = {"title": 50, "heading": 35}
_CAPITAL = 25
_BOLD = ("title", "heading", "head", "strong", "danger", "warning", "note")
_QUIET = ("small", "head")
_BEFORE = {"heading": 4.0 * mm, "title": 4.0 * mm, "head": 0.0}
_AFTER = {"title": 2.0 * mm, "heading": 1.2 * mm, "body": 0.6 * mm, "small": 0.6 * mm}


def size_of(capitals: int) -> float:
    """Size of type in points for capitals of a height in tenths of a millimetre."""
    return em_size(capitals, face()) * POINTS_PER_TENTH


@cache
def style(name: str, right: bool = False) -> ParagraphStyle:
    """One of: title, heading, body, small, cell, strong, head, danger, warning, note."""
    use_fonts()
    size = size_of(_CAPITALS.get(name, _CAPITAL))
    return ParagraphStyle(
        f"{name}-right" if right else name,
        fontName=BOLD if name in _BOLD else REGULAR,
        fontSize=size,
        leading=size * 1.18,
        textColor=QUIET if name in _QUIET else INK,
        alignment=2 if right else 0,
        spaceBefore=_BEFORE.get(name, 0.0),
        spaceAfter=_AFTER.get(name, 0.0),
        splitLongWords=1,
        bulletFontName=REGULAR,
    )


def with_room(points: float = 90) -> Flowable:
    """Before a heading: a new page where hardly more than the heading would fit."""
    return CondPageBreak(points)


Cell: TypeAlias = "Flowable | str | Sequence[Flowable]"
"""What a cell of a table holds: plain words, a paragraph made of them, or several."""


def text(
    words: str,
    name: str = "body",
    anchor: str = "",
    link: str = "",
    right: bool = False,
    aside: str = "",
) -> Flowable:
    """A paragraph of plain words; ``anchor`` names it, ``link`` leads to a name, ``aside`` follows
    more quietly."""
    more = (aside, _hex(QUIET))
    return paragraph(words, style(name, right), _hex(INK), anchor, link, aside=more)


def bullet(words: str, name: str = "body") -> Flowable:
    """A line of a list, its further lines set in."""
    return paragraph(words, _bulleted(name), _hex(INK), bullet="•")


@cache
def _bulleted(name: str) -> ParagraphStyle:
    return ParagraphStyle(f"{name}-bullet", parent=style(name), leftIndent=3.4 * mm, bulletIndent=0)


def _hex(color: Color) -> str:
    return f"#{int(color.hexval(), 16):06x}"


# tables

FONT = ("FONT", (0, 0), (-1, -1), REGULAR, size_of(_CAPITAL))
"""Else the library names a face in the file that is not embedded."""

_PAD = (0.9 * mm, 1.5 * mm)
"""Left and right of what stands in a cell."""


def table(
    heads: Sequence[Cell],
    rows: Sequence[Sequence[Cell]],
    width: float,
    *,
    right: Sequence[int] = (),
    fill: bool = True,
    headed: bool = True,
) -> Table:
    """A ruled table that repeats its head on each page and splits cells that are too tall.

    Columns are as wide as what they hold; the wordiest are broken where ``width`` (points) is not
    enough, and with ``fill`` all share what is left over. A column in which nothing stands is left
    out. ``right``: columns of figures, set to the right. ``headed``: with the line of heads.
    """
    shown = [n for n in range(len(heads)) if any(not _empty(row[n]) for row in rows)]
    shown = shown or [*range(len(heads))]
    head = [_cell(heads[n], n in right, "head") for n in shown]
    cells = [head] if headed else []
    cells += [[_cell(row[n], n in right) for n in shown] for row in rows]
    made = Table(cells, widths(cells, width, sum(_PAD), fill), repeatRows=int(headed), splitInRow=1)
    made.hAlign = "LEFT"
    made.setStyle(
        TableStyle(
            [
                ("LINEBELOW", (0, 0), (-1, -1), 0.5, RULE),
                *([("LINEBELOW", (0, 0), (-1, 0), 0.9, INK)] if headed else []),
                FONT,
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), _PAD[0]),
                ("RIGHTPADDING", (0, 0), (-1, -1), _PAD[1]),
                ("TOPPADDING", (0, 0), (-1, -1), 0.5 * mm),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 0.9 * mm),
            ]
        )
    )
    return made


def _cell(cell: Cell, right: bool, name: str = "cell") -> list[Flowable]:
    if isinstance(cell, str):
        return [text(cell, name, right=right)]
    return list(cell) if isinstance(cell, Sequence) else [cell]


def _empty(cell: Cell) -> bool:
    if isinstance(cell, Sequence) and not isinstance(cell, str):
        return not cell
    words = cell if isinstance(cell, str) else getattr(cell, "getPlainText", lambda: "x")()
    return words.strip() in ("", "-")


WIDE = 900.0
"""From this width of the room (points) on there is space for two things beside each other."""

BETWEEN = 6 * mm
"""From one column to the next."""


def blanks(heads: Sequence[str], firsts: Sequence[str], widths: list[float]) -> Table:
    """A table to be written in by hand: what stands in its first column, the rest empty."""
    cells = [[text(head, "head") for head in heads]]
    cells += [[text(first, "cell"), *[""] * (len(heads) - 1)] for first in firsts]
    heights = [None, *[8 * mm] * len(firsts)]
    made = Table(cells, colWidths=widths, rowHeights=heights, hAlign="LEFT")
    lines = [("GRID", (0, 1), (-1, -1), 0.5, RULE), ("VALIGN", (0, 1), (-1, -1), "MIDDLE")]
    made.setStyle(TableStyle([FONT, ("LEFTPADDING", (0, 0), (-1, -1), _PAD[0]), *lines]))
    return made


def beside(cells: Sequence[Any], widths: list[float], gap: float = 6 * mm) -> Table:
    """Flowables, or lists of them, side by side without rules, with a gap between them."""
    made = Table([list(cells)], colWidths=widths, hAlign="LEFT")
    last = len(cells) - 1
    made.setStyle(
        TableStyle(
            [
                FONT,
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("TOPPADDING", (0, 0), (-1, -1), 0),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), gap),
                ("RIGHTPADDING", (last, 0), (last, -1), 0),
            ]
        )
    )
    return made


def share(total: float, parts: list[float]) -> list[float]:
    """Column widths in points that share a total in proportion."""
    whole = sum(parts)
    return [total * part / whole for part in parts]
