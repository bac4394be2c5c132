"""The tables as one workbook, a worksheet each; equal content gives equal bytes."""

from __future__ import annotations

import datetime
import io
import re
import zipfile
from typing import Any

from openpyxl import Workbook
from openpyxl.cell import WriteOnlyCell
from openpyxl.styles import Alignment, Font
from openpyxl.utils import get_column_letter

from linework.handover.content import Content
from linework.handover.figures import Cell, Data
from linework.handover.formats.tables import asked_tables
from linework.picture.fonts import printed

_WIDEST = 60
_EPOCH = (1980, 1, 1, 0, 0, 0)
"""The date of every member of the file: the least that its format knows."""
_WRITTEN = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*(<)")


def make(content: Content, asked: tuple[str, ...]) -> dict[str, bytes]:
    """One file. HandoverError for a table that there is not."""
    return {"": workbook_bytes(asked_tables(content, asked), content.date)}


def workbook_bytes(tables: tuple[Data, ...], date: datetime.date) -> bytes:
    """The tables, ``date`` being when it was made."""
    book = Workbook(write_only=True)
    made = datetime.datetime.combine(date, datetime.time())
    book.properties.created = made
    book.properties.creator = "Linework"
    for data in tables:
        _add(book, data)
    out = io.BytesIO()
    book.save(out)
    return _undated(out.getvalue(), made)


def _add(book: Any, data: Data) -> None:
    sheet = book.create_sheet(data.key)
    sheet.freeze_panes = "A2"
    heads = [column.head for column in data.columns]
    for at, head in enumerate(heads):
        widest = max((len(str(row[at] or "")) for row in data.rows), default=0)
        width = min(max(widest, len(head)) + 2, _WIDEST)
        sheet.column_dimensions[get_column_letter(at + 1)].width = width
    sheet.auto_filter.ref = f"A1:{get_column_letter(len(heads))}{len(data.rows) + 1}"
    sheet.append([_cell(sheet, head, bold=True) for head in heads])
    for row in data.rows:
        sheet.append([_cell(sheet, value) for value in row])


def _cell(sheet: Any, value: Cell, bold: bool = False) -> Any:
    """A number as a number; words as words, also where they begin like a formula."""
    if not isinstance(value, str):
        return WriteOnlyCell(sheet, value)
    cell = WriteOnlyCell(sheet, "")
    cell.value = _clean(value)
    cell.data_type = "s"
    cell.alignment = Alignment(vertical="top", wrap_text=len(value) > _WIDEST)
    if bold:
        cell.font = Font(bold=True)
    return cell


def _clean(words: str) -> str:
    """Without signs that XML cannot hold."""
    return printed(words).encode("utf-8", "replace").decode()


def _undated(data: bytes, made: datetime.datetime) -> bytes:
    """The same file without the moment at which it was written."""
    out = io.BytesIO()
    stamp = made.strftime("%Y-%m-%dT%H:%M:%SZ").encode()
    with (
        zipfile.ZipFile(io.BytesIO(data)) as old,
        zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for name in old.namelist():
            content = old.read(name)
            if name == "docProps/core.xml":
                content = _WRITTEN.sub(rb"\g<1>" + stamp + rb"\g<2>", content)
            member = zipfile.ZipInfo(name, _EPOCH)
            member.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(member, content)
    return out.getvalue()
