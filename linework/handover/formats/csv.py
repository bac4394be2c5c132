"""The tables as CSV after RFC 4180, UTF-8 without a byte order mark, one file each."""

from __future__ import annotations

import csv
import io

from linework.handover.content import Content
from linework.handover.figures import Cell, Data
from linework.handover.formats.tables import asked_tables

_STARTS_FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""A spreadsheet program takes such a cell as something to compute, whatever stands behind it."""


def make(content: Content, asked: tuple[str, ...]) -> dict[str, bytes]:
    """By the keys of the tables. HandoverError for a table that there is not."""
    return {data.key: csv_bytes(data) for data in asked_tables(content, asked)}


def csv_bytes(data: Data) -> bytes:
    """One table with its heads; what is not known is an empty cell."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([_text(column.head) for column in data.columns])
    writer.writerows([[_cell(cell) for cell in row] for row in data.rows])
    # Half a character is no text: it would not be one in any encoding.
    return out.getvalue().encode("utf-8", "replace")


def _cell(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, str):
        return _text(cell)
    return repr(cell).removesuffix(".0")


def _text(words: str) -> str:
    """Words stay words: an apostrophe keeps what begins like a formula from being computed."""
    return f"'{words}" if words.startswith(_STARTS_FORMULA) else words
