"""Symbols whose size follows what they hold: panel, busbar, a source with outlets, a plain box."""

from __future__ import annotations

from collections.abc import Sequence

from linework.picture.geometry import MODULE
from linework.picture.inks import BAR, THIN, WIDE, Ink, Pen
from linework.picture.model import Item, Line, Rect
from linework.picture.symbol import GAP, Symbol, drawn
from linework.picture.symbolfile import Anchor, Direction, LabelPlace

_BUS = Pen(width=BAR)
_BAR = Pen(width=WIDE)
_OUTLINE = Pen(width=THIN)


def panel(places: int, pitch: int = 100, reach: int = 0) -> Symbol:
    """A board: outline, bus, and ground bar; its origin is where the feed meets the outline.

    ``places``: at least 1; the first lies level with the feed, the others below it, ``pitch``
    apart. ``reach``: how far the outline goes on to the right of the places, so that breakers
    that sit there lie inside. Both on the module grid, else ValueError.
    """
    _check(places, pitch, reach)
    bus, edge, last = 2 * MODULE, 4 * MODULE, (places - 1) * pitch
    bottom = last + 4 * MODULE
    items: list[Item] = [
        Rect(0, -2 * MODULE, edge + reach, bottom + 2 * MODULE, 0, _OUTLINE, Ink.TINT),
        Line(-MODULE, 0, bus, 0),
        Line(bus, -MODULE, bus, last + MODULE, _BUS),
        *(Line(bus, at * pitch, edge, at * pitch) for at in range(places)),
        Line(MODULE, bottom - MODULE, edge + reach - MODULE, bottom - MODULE, _BAR),
        Line(bus, bottom - MODULE, bus, bottom + MODULE),
    ]
    anchors = {
        "feed": Anchor(-MODULE, 0, "left"),
        "ground": Anchor(bus, bottom + MODULE, "down"),
    }
    labels = {
        "above": LabelPlace(0, -2 * MODULE - GAP, "start", "base"),
        "below": LabelPlace(bus + GAP, bottom + GAP, "start", "top"),
    }
    source = "common practice, no source: outline with bus and ground bar"
    return drawn("panel", tuple(items), anchors, _places(places, pitch, edge), labels, source)


def busbar(places: int, pitch: int = 100, turned: frozenset[str] = frozenset()) -> Symbol:
    """A bar fed from the left at its origin, with ``places`` taps at the right below that.

    ``turned``: terminals whose leads go to the other side.
    """
    _check(places, pitch, 0)
    last = places * pitch
    anchors = {
        "feed": _lead(0, "feed" in turned),
        **{str(at): _lead(at * pitch, str(at) not in turned) for at in range(1, places + 1)},
    }
    items: list[Item] = [
        Line(0, -MODULE, 0, last + MODULE, _BUS),
        *(Line(0, end.y, end.x, end.y) for end in anchors.values()),
    ]
    source = "common practice: a bar of at least three line widths, taps joined to it"
    return drawn("busbar", tuple(items), anchors, {}, {}, source)


def _lead(y: int, right: bool) -> Anchor:
    """The end of a lead of a bar."""
    return Anchor(MODULE, y, "right") if right else Anchor(-MODULE, y, "left")


def with_places(base: Symbol, terminal: str, places: int, pitch: int = 100) -> Symbol:
    """A source with places of its own: a bar at its output, which stays the uppermost.

    ``terminal`` must leave to the right. ValueError for no places or a pitch off the grid.
    """
    _check(places, pitch, 0)
    out = base.anchors[terminal]
    bar, edge = out.x + MODULE, out.x + 2 * MODULE
    levels = [out.y + at * pitch for at in range(places + 1)]
    items: list[Item] = [
        *base.group.items,
        Line(out.x, out.y, bar, out.y),
        Line(bar, out.y, bar, levels[-1], _BAR),
        *(Line(bar, level, edge, level) for level in levels),
    ]
    anchors = {**base.anchors, terminal: Anchor(edge, out.y, "right")}
    seats = {str(at): Anchor(edge, level, "right") for at, level in enumerate(levels) if at}
    seats |= base.places
    labels = {"below": LabelPlace(-GAP, base.labels["below"].y, "end", "top")}
    return drawn(base.name, tuple(items), anchors, seats, labels, base.source)


def box(
    left: Sequence[str] = (),
    right: Sequence[str] = (),
    bottom: Sequence[str] = (),
    pitch: int = 100,
) -> Symbol:
    """A plain box for what has no symbol, with the named terminals at its sides."""
    rows, columns = max(len(left), len(right), 1), max(len(bottom), 1)
    _check(rows, pitch, 0)
    foot = (rows - 1) * pitch + 3 * MODULE
    edge = max(6 * MODULE, (columns - 1) * pitch + 4 * MODULE)
    items: list[Item] = [Rect(0, -3 * MODULE, edge, foot + 3 * MODULE)]
    anchors: dict[str, Anchor] = {}
    for at, name in enumerate(left):
        items.append(Line(-MODULE, at * pitch, 0, at * pitch))
        anchors[name] = Anchor(-MODULE, at * pitch, "left")
    for at, name in enumerate(right):
        items.append(Line(edge, at * pitch, edge + MODULE, at * pitch))
        anchors[name] = Anchor(edge + MODULE, at * pitch, "right")
    for at, name in enumerate(bottom):
        x = 2 * MODULE + at * pitch
        items.append(Line(x, foot, x, foot + MODULE))
        anchors[name] = Anchor(x, foot + MODULE, "down")
    side = 2 * MODULE + (len(bottom) - 1) * pitch + GAP
    labels = {"below": LabelPlace(side, foot + GAP, "start", "top")} if bottom else {}
    source = "a plain box: no symbol of a standard"
    return drawn("box", tuple(items), anchors, {}, labels, source)


def _check(places: int, pitch: int, reach: int) -> None:
    if places < 1:
        raise ValueError(f"a part cannot show {places} places")
    if pitch <= 0 or reach < 0 or pitch % MODULE or reach % MODULE:
        raise ValueError(f"pitch {pitch} and reach {reach} must be multiples of {MODULE}")


def _places(places: int, pitch: int, x: int) -> dict[str, Anchor]:
    direction: Direction = "right"
    return {str(at + 1): Anchor(x, at * pitch, direction) for at in range(places)}
