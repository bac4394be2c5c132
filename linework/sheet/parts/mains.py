"""The main of a board: its symbol between the feed and the bus, in an outline widened for it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from linework.design import Design, Part
from linework.picture import symbols
from linework.picture.geometry import MODULE
from linework.picture.model import Group, Item, Line, Rect, Text
from linework.picture.symbol import Symbol
from linework.picture.symbolfile import Anchor
from linework.sheet.lettering import SMALL
from linework.words import say

if TYPE_CHECKING:
    from linework.study.report import StateReport

KEY = "main"
_WIDER = 6 * MODULE
"""So much the outline goes on to the left for the main."""
_AT, _REACH = -38, 38
"""Where its middle lies, and where its leads begin beside that."""
_OVER = 58
"""From the line up to the base of what is written over it."""


def has_main(design: Design, part: Part) -> bool:
    """Whether a board has a main breaker."""
    kind, values = design.kind(part), design.values(part)
    return KEY in kind.declared and values.applies(KEY) and values.has(KEY)


def with_main(design: Design, part: Part, board: Symbol, state: StateReport | None) -> Symbol:
    """The board with its main, open or closed as in the state; as it is where it has none."""
    if not has_main(design, part):
        return board
    values, feed = design.values(part), board.anchors["feed"]
    held = state.positions.get((part.id, KEY), "") if state is not None else ""
    device = symbols.symbol("breaker", design.settings.family, held or "closed")
    text = say("main {rating}", rating=values.text(KEY))
    if not values.given(KEY):
        text = f"[{text}]"
    left = feed.x - _WIDER
    items: list[Item] = [_wider(i) if isinstance(i, Rect) else i for i in board.group.items]
    items = [item for item in items if not _is_lead(item, feed)]
    items += [
        Line(left, feed.y, _AT - _REACH, feed.y),
        Line(_AT + _REACH, feed.y, 2 * MODULE, feed.y),
        Group(tuple(item for item in device.group.items if not _is_end(item)), _AT, feed.y),
        Text(_AT, feed.y - _OVER, text, SMALL, "middle"),
    ]
    anchors = {**board.anchors, "feed": Anchor(left, feed.y, feed.direction)}
    box = replace(board.box, left=board.box.left - _WIDER)
    above = replace(board.labels["above"], x=board.labels["above"].x - _WIDER)
    labels = {**board.labels, "above": above}
    group = replace(board.group, items=tuple(items), name="")
    return replace(board, group=group, anchors=anchors, box=box, labels=labels)


def _wider(outline: Rect) -> Rect:
    return replace(outline, x=outline.x - _WIDER, width=outline.width + _WIDER)


def _is_lead(item: Item, feed: Anchor) -> bool:
    return isinstance(item, Line) and (item.x1, item.y1, item.y2) == (feed.x, feed.y, feed.y)


def _is_end(item: Item) -> bool:
    """The long leads of the device's own symbol."""
    return isinstance(item, Line) and item.y1 == item.y2 == 0 and 100 in (-item.x1, item.x2)
