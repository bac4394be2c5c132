"""The sheets of the diagram as SVG, one file each."""

from __future__ import annotations

from linework.handover.content import Content
from linework.handover.formats.drawings import each_sheet, names_of, title_of
from linework.handover.one_line import DrawnSheet
from linework.picture.svg import Named, Size, svg_text


def make(content: Content, asked: tuple[str, ...]) -> dict[str, bytes]:
    """By sheet number. HandoverError for a sheet that the diagram has not."""
    names = {tag: Named(name, title) for tag, (name, title) in names_of(content).items()}

    def written(drawn: DrawnSheet) -> bytes:
        size = Size(drawn.width, drawn.height)
        return svg_text(drawn.picture, names, title_of(content, drawn), size).encode()

    return each_sheet(content, asked, written)
