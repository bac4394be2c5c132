"""Writing on the sheet: blocks measured before they are placed, and where there is room."""

from linework.sheet.lettering.labels import OFF, REACH, Option, Placed, Room, Wanted, place
from linework.sheet.lettering.tags import TAG_HEIGHT, Method, Tag, tag_width
from linework.sheet.lettering.texts import (
    HEAD,
    SMALL,
    Block,
    Hung,
    Row,
    Span,
    block_height,
    kept_together,
    row_width,
    wrapped,
)

__all__ = [
    "HEAD",
    "OFF",
    "REACH",
    "SMALL",
    "TAG_HEIGHT",
    "Block",
    "Hung",
    "Method",
    "Option",
    "Placed",
    "Room",
    "Row",
    "Span",
    "Tag",
    "Wanted",
    "block_height",
    "kept_together",
    "place",
    "row_width",
    "tag_width",
    "wrapped",
]
