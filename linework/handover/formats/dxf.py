"""The sheets of the diagram for drawing programs (DXF R2010, millimetres), one file each."""

from __future__ import annotations

from linework.handover.cad import dxf_bytes
from linework.handover.content import Content
from linework.handover.formats.drawings import each_sheet


def make(content: Content, asked: tuple[str, ...]) -> dict[str, bytes]:
    """By sheet number. HandoverError for a sheet that the diagram has not."""
    return each_sheet(content, asked, lambda drawn: dxf_bytes(content, drawn))
