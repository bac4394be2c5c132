"""Reads one symbol's file: strokes on the module grid, anchors by terminal, label places.

A file is a JSON object: ``symbol`` and ``title`` name it, ``source`` says which standard its
geometry follows, ``strokes`` is a list of shapes, ``positions`` (optional) adds the strokes of
each selector position, the first being the one drawn when none is asked for; ``anchors``,
``places`` and ``labels`` are lists of numbers and a direction by name. All in tenths of a
millimetre. A shape is an object with one of the keys of ``_SHAPES`` and, optionally, ``pen`` (a
line width by name, or "none"), ``dash``, ``ink`` and ``fill``.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal, get_args

from linework import data
from linework.picture import marks
from linework.picture.inks import WIDTHS, Dash, Ink, Pen
from linework.picture.model import (
    Across,
    Arc,
    Bezier,
    Circle,
    Item,
    Level,
    Line,
    Polyline,
    Rect,
    Text,
)
from linework.words import say

Direction = Literal["left", "right", "up", "down"]


class SymbolFileError(data.ResourceError):
    """A symbol's file does not say what it must; the text names the file and the place in it."""


@dataclass(frozen=True, slots=True)
class Anchor:
    """Where a run attaches, and in which direction it leaves the symbol."""

    x: int
    y: int
    direction: Direction


@dataclass(frozen=True, slots=True)
class LabelPlace:
    """Where a label hangs, and by which of its ends."""

    x: int
    y: int
    across: Across
    level: Level


@dataclass(frozen=True)
class SymbolFile:
    """What a file says; ``positions`` holds the strokes to be added in each position."""

    title: str
    source: str
    strokes: tuple[Item, ...]
    positions: Mapping[str, tuple[Item, ...]]
    anchors: Mapping[str, Anchor]
    places: Mapping[str, Anchor]
    labels: Mapping[str, LabelPlace]


_KEYS = {"symbol", "title", "source", "strokes", "positions", "anchors", "places", "labels"}
_NEEDED = {"symbol", "title", "source", "strokes", "anchors"}


def read_symbol(name: str) -> SymbolFile:
    """Read the resource ``name``. SymbolFileError says what is wrong with it, and where."""
    try:
        content = json.loads(data.read_text(name), object_pairs_hook=_no_doubles)
        return _symbol(content)
    except (ValueError, TypeError, KeyError) as error:
        raise SymbolFileError(
            say("The symbol file {name} cannot be used: {reason}.", name=name, reason=error)
        ) from error


def _no_doubles(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise ValueError(f"a key is there twice among {', '.join(key for key, _ in pairs)}")
    return found


def _symbol(content: Any) -> SymbolFile:
    if not isinstance(content, dict):
        raise TypeError("it is not a JSON object")
    if wrong := (content.keys() - _KEYS) | (_NEEDED - content.keys()):
        raise ValueError(f"unknown or missing: {', '.join(sorted(wrong))}")
    return SymbolFile(
        content["title"],
        content["source"],
        tuple(_strokes(content["strokes"])),
        {key: tuple(_strokes(value)) for key, value in content.get("positions", {}).items()},
        _anchors(content["anchors"]),
        _anchors(content.get("places", {})),
        {key: _label(key, value) for key, value in content.get("labels", {}).items()},
    )


def _anchors(content: dict[str, Any]) -> dict[str, Anchor]:
    return {key: _anchor(key, value) for key, value in content.items()}


def _anchor(name: str, value: Any) -> Anchor:
    x, y, direction = value
    if direction not in get_args(Direction):
        raise ValueError(f"anchor {name} leaves in no known direction: {direction!r}")
    x, y = _whole([x, y], 2)
    return Anchor(x, y, direction)


def _label(name: str, value: Any) -> LabelPlace:
    x, y, across, level = value
    if across not in get_args(Across) or level not in get_args(Level):
        raise ValueError(f"label {name} hangs in no known way: {across!r}, {level!r}")
    x, y = _whole([x, y], 2)
    return LabelPlace(x, y, across, level)


def _whole(value: Any, count: int) -> list[int]:
    """Exactly so many whole numbers."""
    if not isinstance(value, list) or len(value) != count:
        raise ValueError(f"{value!r} should be a list of {count} numbers")
    for number in value:
        if type(number) is not int:
            raise TypeError(f"{number!r} in {value!r} is not a whole number of tenths")
    return value


def _strokes(content: Any) -> Iterator[Item]:
    for number, stroke in enumerate(content, start=1):
        try:
            yield from _stroke(dict(stroke))
        except (ValueError, TypeError, KeyError) as error:
            raise ValueError(f"stroke {number}, {stroke}: {error}") from error


def _stroke(stroke: dict[str, Any]) -> tuple[Item, ...]:
    shapes = [key for key in stroke if key in _SHAPES]
    if len(shapes) != 1:
        raise ValueError(f"needs exactly one of {', '.join(sorted(_SHAPES))}")
    look = _Look.taken_from(stroke)
    value = stroke.pop(shapes[0])
    items = _SHAPES[shapes[0]](value, look, stroke)
    if stroke:
        raise ValueError(f"unknown here: {', '.join(sorted(stroke))}")
    return items


@dataclass(frozen=True, slots=True)
class _Look:
    pen: Pen | None
    fill: Ink | None

    @classmethod
    def taken_from(cls, stroke: dict[str, Any]) -> _Look:
        width = stroke.pop("pen", "medium")
        ink, dash = Ink(stroke.pop("ink", "ink")), Dash(stroke.pop("dash", "solid"))
        fill = stroke.pop("fill", None)
        pen = None if width == "none" else Pen(ink, WIDTHS[width], dash)
        return cls(pen, None if fill is None else Ink(fill))

    @property
    def line(self) -> Pen:
        """For what cannot be drawn without a line."""
        if self.pen is None:
            raise ValueError("this shape needs a pen")
        return self.pen


_Rest = dict[str, Any]


def _line(value: Any, look: _Look, rest: _Rest) -> tuple[Item, ...]:
    x1, y1, x2, y2 = _whole(value, 4)
    return (Line(x1, y1, x2, y2, look.line),)


def _points(value: Any) -> tuple[tuple[int, int], ...]:
    pairs = [_whole(pair, 2) for pair in value]
    return tuple((x, y) for x, y in pairs)


def _polyline(value: Any, look: _Look, rest: _Rest) -> tuple[Item, ...]:
    return (Polyline(_points(value), False, look.pen, look.fill),)


def _polygon(value: Any, look: _Look, rest: _Rest) -> tuple[Item, ...]:
    return (Polyline(_points(value), True, look.pen, look.fill),)


def _rect(value: Any, look: _Look, rest: _Rest) -> tuple[Item, ...]:
    x, y, width, height = _whole(value, 4)
    return (Rect(x, y, width, height, 0, look.pen, look.fill),)


def _circle(value: Any, look: _Look, rest: _Rest) -> tuple[Item, ...]:
    x, y, r = _whole(value, 3)
    return (Circle(x, y, r, look.pen, look.fill),)


def _arc(value: Any, look: _Look, rest: _Rest) -> tuple[Item, ...]:
    x, y, rx, ry, start, sweep = _whole(value, 6)
    return (Arc(x, y, rx, ry, start, sweep, look.pen, look.fill),)


def _bezier(value: Any, look: _Look, rest: _Rest) -> tuple[Item, ...]:
    points = _points(value)
    if len(points) < 4 or len(points) % 3 != 1:
        raise ValueError("a curve needs a first point and three more for each part")
    return (Bezier(points, look.pen, look.fill),)


def _text(value: Any, look: _Look, rest: _Rest) -> tuple[Item, ...]:
    x, y = _whole(rest.pop("at"), 2)
    (height,) = _whole([rest.pop("height")], 1)
    return (Text(x, y, str(value), height, "middle", "middle", False, look.line.ink),)


def _arrow(value: Any, look: _Look, rest: _Rest) -> tuple[Item, ...]:
    (size,) = _whole([rest.pop("size", 20)], 1)
    x1, y1, x2, y2 = _whole(value, 4)
    return marks.arrow(x1, y1, x2, y2, size, look.line)


_MARKS: dict[str, Callable[[int, int, int, Pen], tuple[Item, ...]]] = {
    "alternating": marks.alternating,
    "direct": marks.direct,
    "earth": marks.earth,
    "frame": marks.frame,
    "cell": marks.cell,
}


def _mark(value: Any, look: _Look, rest: _Rest) -> tuple[Item, ...]:
    x, y, size = _whole(rest.pop("at"), 3)
    return _MARKS[value](x, y, size, look.line)


_SHAPES: dict[str, Callable[[Any, _Look, _Rest], tuple[Item, ...]]] = {
    "line": _line,
    "polyline": _polyline,
    "polygon": _polygon,
    "rect": _rect,
    "circle": _circle,
    "arc": _arc,
    "bezier": _bezier,
    "text": _text,
    "arrow": _arrow,
    "mark": _mark,
}
