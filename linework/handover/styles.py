"""How the text pages of the set look: one family of embedded faces, black and white safe."""

from __future__ import annotations

from functools import cache
from typing import Any, TypeAlias

from reportlab.lib.colors import Color, HexColor
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import CondPageBreak, Flowable, Table, TableStyle

from linework.handover.markup import paragraph
from linework.picture.fonts import face
from linework.picture.pdf import use_fonts

INK = HexColor("#16202a")
QUIET = HexColor("#4d5a66")
RULE = HexColor("#8a96a0")
SHADE = HexColor("#eef1f3")

REGULAR, BOLD = face().name, face(bold=True).name


@cache
def style(name: str) -> ParagraphStyle:
    """One of: title, heading, body, small, cell, head, danger, warning, note."""
    use_fonts()
    sizes = {"title": 22, "heading": 14, "body": 11, "small": 9.5, "cell": 9.5, "head": 9.5}
    size = sizes.get(name, 11)
    bold = name in ("title", "heading", "head", "danger", "warning", "note")
    return ParagraphStyle(
        name,
        fontName=BOLD if bold else REGULAR,
        fontSize=size,
        leading=size * 1.3,
        textColor=QUIET if name == "small" else INK,
        spaceBefore={"heading": 9.0, "title": 2.0}.get(name, 0.0),
        spaceAfter={"title": 6.0, "heading": 3.0, "body": 2.0}.get(name, 0.0),
        splitLongWords=1,
    )


def with_room() -> Flowable:
    """Before a heading: a new page where hardly more than the heading would fit."""
    return CondPageBreak(90)


Cell: TypeAlias = Flowable | str
"""What a cell of a table holds: plain words, or a paragraph made of them."""


def text(words: str, name: str = "body", anchor: str = "", link: str = "") -> Flowable:
    """A paragraph of plain words; ``anchor`` names it, ``link`` leads to a name."""
    return paragraph(words, style(name), _hex(INK), anchor, link)


def _hex(color: Color) -> str:
    return f"#{int(color.hexval(), 16):06x}"


def table(heads: list[str], rows: list[list[Cell]], widths: list[float]) -> Table:
    """A ruled table that repeats its head on each page and splits cells that are too tall."""
    cells = [[text(head, "head") for head in heads]]
    cells += [[text(c, "cell") if isinstance(c, str) else c for c in row] for row in rows]
    made = Table(cells, colWidths=widths, repeatRows=1, splitInRow=1, hAlign="LEFT")
    made.setStyle(
        TableStyle(
            [
                ("FONT", (0, 0), (-1, -1), REGULAR, 9.5),
                ("BACKGROUND", (0, 0), (-1, 0), SHADE),
                ("LINEBELOW", (0, 0), (-1, 0), 0.9, INK),
                ("LINEBELOW", (0, 1), (-1, -1), 0.35, RULE),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 3),
                ("RIGHTPADDING", (0, 0), (-1, -1), 4),
                ("TOPPADDING", (0, 0), (-1, -1), 2.2),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 2.6),
            ]
        )
    )
    return made


def two_columns(lines: list[Flowable], width: float) -> Table:
    """Lines side by side, read down the left column and then the right one."""
    half = -(-len(lines) // 2)
    right = [*lines[half:], *[""] * (2 * half - len(lines))]
    rows = [list(row) for row in zip(lines[:half], right, strict=True)]
    return plain_table(rows, share(width, [1, 1]))


def plain_table(rows: list[list[Any]], widths: list[float]) -> Table:
    """Flowables side by side, without rules."""
    made = Table(rows, colWidths=widths, hAlign="LEFT")
    gaps = [(side, (0, 0), (-1, -1), 0) for side in ("LEFTPADDING", "TOPPADDING", "BOTTOMPADDING")]
    font = ("FONT", (0, 0), (-1, -1), REGULAR, 11)
    made.setStyle(TableStyle([font, ("VALIGN", (0, 0), (-1, -1), "TOP"), *gaps]))
    return made


def share(total: float, parts: list[float]) -> list[float]:
    """Column widths in points that share a total in proportion."""
    whole = sum(parts)
    return [total * part / whole for part in parts]
