"""The sheets of the diagram as images of 300 dots per inch, one file each."""

from __future__ import annotations

from linework.handover.content import Content
from linework.handover.formats.drawings import each_sheet
from linework.handover.one_line import DrawnSheet
from linework.picture.png import png_bytes


def make(content: Content, asked: tuple[str, ...]) -> dict[str, bytes]:
    """By sheet number. HandoverError for a sheet that the diagram has not."""

    def written(drawn: DrawnSheet) -> bytes:
        return png_bytes(drawn.picture, drawn.width, drawn.height)

    return each_sheet(content, asked, written)
