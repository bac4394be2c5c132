"""Writing on the sheet: blocks measured before they are placed, and where there is room."""

from linework.sheet.lettering.labels import Option, Placed, Room, Wanted, place
from linework.sheet.lettering.texts import (
    HEAD,
    SMALL,
    Block,
    Hung,
    Row,
    Span,
    block_height,
    wrapped,
)

__all__ = [
    "HEAD",
    "SMALL",
    "Block",
    "Hung",
    "Option",
    "Placed",
    "Room",
    "Row",
    "Span",
    "Wanted",
    "block_height",
    "place",
    "wrapped",
]
