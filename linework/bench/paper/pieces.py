"""A sheet laid out, cut into pieces: one for each thing that the scene keeps as an item."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import IntEnum
from typing import TypeGuard

from linework.design import Design, Element, Interlock, Note, Part, Run, Seat
from linework.picture.geometry import Box
from linework.picture.measure import bounds
from linework.picture.model import Circle, Group, Item
from linework.sheet.compose import Composition

FLAG = "flag-"
"""Begins the tag of a finding's flag; its number follows."""


class Layer(IntEnum):
    """What lies over what, from below."""

    BOARD = 0
    TIE = 1
    RUN = 2
    JOINT = 3
    SYMBOL = 4
    LABEL = 5
    NOTE = 6
    FLAG = 7
    FRAME = 8


@dataclass(frozen=True)
class Piece:
    """Something that is painted as a whole.

    ``key``: its name on the sheet. ``element``: id of the element of the design that it stands
    for, "" for none. ``group`` lies about (``x``, ``y``), in tenths of a paper millimetre.
    """

    key: str
    element: str
    layer: Layer
    x: int
    y: int
    group: Group


def pieces_of(design: Design, layout: Composition) -> dict[str, Piece]:
    """Every piece of a sheet by its key. What stands for no element becomes joints and frame."""
    hosts = {drawing.host for drawing in layout.drawings.values()}
    labels = {label.key for label in layout.placed}
    last = {item.tag: at for at, item in enumerate(layout.picture.items) if _is_tagged(item)}
    count: Counter[str] = Counter()
    loose: list[Item] = []
    found: dict[str, Piece] = {}
    for at, item in enumerate(layout.picture.items):
        if not isinstance(item, Group) or not item.tag:
            loose.append(item)
            continue
        is_label = item.tag in labels and at == last[item.tag] and count[item.tag] > 0
        layer = _layer(design.get(item.tag), item.tag, is_label, item.tag in hosts)
        key = f"{item.tag}#{count[item.tag]}"
        count[item.tag] += 1
        element = item.tag if item.tag in design else ""
        found[key] = Piece(key, element, layer, item.x, item.y, replace(item, x=0, y=0))
    found.update((piece.key, piece) for piece in _loose(loose, layout.frame.block))
    return found


def _is_tagged(item: Item) -> TypeGuard[Group]:
    return isinstance(item, Group) and bool(item.tag)


def _layer(element: Element | None, tag: str, is_label: bool, is_host: bool) -> Layer:
    if is_label:
        return Layer.LABEL
    match element:
        case Part():
            return Layer.BOARD if is_host else Layer.SYMBOL
        case Run():
            return Layer.RUN
        case Note():
            return Layer.NOTE
        case Seat() | Interlock():
            return Layer.TIE
    return Layer.FLAG if tag.startswith(FLAG) else Layer.LABEL


def _loose(items: list[Item], block: Box) -> Iterator[Piece]:
    """Dots where runs part, the frame, and the title block for itself: it is seldom in view."""
    joints = tuple(item for item in items if isinstance(item, Circle))
    rest = [item for item in items if not isinstance(item, Circle)]
    inside = tuple(item for item in rest if _lies_in(item, block))
    frame = tuple(item for item in rest if not _lies_in(item, block))
    for key, layer, group in (
        ("joints", Layer.JOINT, joints),
        ("frame", Layer.FRAME, frame),
        ("title", Layer.FRAME, inside),
    ):
        if group:
            yield Piece(key, "", layer, 0, 0, Group(group))


def _lies_in(item: Item, block: Box) -> bool:
    box = bounds([item])
    return box is not None and block.grown(10).contains(box)
