"""Which symbol stands for a part: its name from its kind, its size from what it holds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from linework.data import ResourceError
from linework.design import Design, Part
from linework.design.edits.seats import places_of
from linework.picture import stretch, symbols
from linework.picture.inks import Ink
from linework.picture.model import Item, Text
from linework.picture.symbol import Symbol
from linework.picture.symbolfile import Anchor

if TYPE_CHECKING:
    from linework.study.report import StateReport

PITCH = 150
"""From one place of a board or source to the next: room for a line of writing above and below."""
_PANEL_REACH = 225
"""How far a board's outline goes on to the right of its places: a breaker and its lead."""
_ROWS = 8
"""A board with more places than this shows those that are taken, and free ones up to it."""


def is_moved_by_hand(design: Design, part: Part) -> bool:
    """A hand-moved plug: it lies where it was drawn, its seats are places where it may go."""
    return "plug" in design.kind(part).roles


def rows_of(design: Design, part: Part) -> tuple[str, ...]:
    """The names of the places that are drawn, in order; of a large board not the spare ones."""
    names = [place.name for place in places_of(design, part)]
    if len(names) <= _ROWS:
        return tuple(names)
    taken = {seat.place for seat in design.seated_in(part.id)}
    spare = [name for name in names if name not in taken][: max(1, _ROWS - len(taken))]
    return tuple(name for name in names if name in taken or name in spare)


def symbol_of(design: Design, part: Part, state: StateReport | None = None) -> Symbol:
    """The part's symbol about its own origin, in the position of the state (None: at rest)."""
    kind = design.kind(part)
    name = kind.symbol(design.values(part))
    family = design.settings.family
    rows = rows_of(design, part)
    if name == "panel":
        return _panel(rows)
    try:
        plain = symbols.symbol(name, family, _position(part, name, family, state))
    except ResourceError:
        return _plain_box(design, part)
    if name == "box":
        return _plain_box(design, part)
    missing = [row for row in rows if row not in plain.places]
    return _with_places(design, part, plain, missing) if missing else plain


def _position(part: Part, name: str, family: str, state: StateReport | None) -> str:
    """The first position of the part in this state that its symbol can show."""
    if state is None:
        return ""
    shown = symbols.positions(name, family)
    held = (at for (owner, _), at in sorted(state.positions.items()) if owner == part.id)
    return next((at for at in held if at in shown), "")


def _panel(rows: tuple[str, ...]) -> Symbol:
    """A board with a numbered stub for each place."""
    made = stretch.panel(max(len(rows), 1), PITCH, _PANEL_REACH)
    anchors = dict(zip(rows, made.places.values(), strict=False))
    numbers: list[Item] = [
        Text(at.x - 4, at.y - 8, name, 29, "end", condensed=True, ink=Ink.QUIET)
        for name, at in anchors.items()
    ]
    group = replace(made.group, items=(*made.group.items, *numbers), name="")
    return replace(made, group=group, places=anchors)


def _with_places(design: Design, part: Part, plain: Symbol, names: list[str]) -> Symbol:
    """A source with places of its own: drawn with a bar once something sits there."""
    kind = design.kind(part)
    outs = [t.name for t in kind.terminals(design.values(part)) if t.role == "out"]
    terminal = next((name for name in outs if name in plain.anchors), "")
    if not terminal or plain.anchors[terminal].direction != "right":
        return replace(plain, places={**plain.places, **_stacked(plain, names)})
    barred = stretch.with_places(plain, terminal, len(names), PITCH)
    places = dict(zip(names, barred.places.values(), strict=True))
    if any(seat.place in places for seat in design.seated_in(part.id)):
        return replace(barred, places={**plain.places, **places})
    return replace(plain, places={**plain.places, **places})


def _stacked(plain: Symbol, names: list[str]) -> Mapping[str, Anchor]:
    """Places of a symbol that shows none: at its right side, one below the other."""
    x = plain.box.right + 25 - plain.box.right % 25
    return {name: Anchor(x, row * PITCH, "right") for row, name in enumerate(names)}


def _plain_box(design: Design, part: Part) -> Symbol:
    """For a kind without a symbol: a box with the terminals it has, or that runs end at."""
    terminals = design.kind(part).terminals(design.values(part))
    left = [t.name for t in terminals if t.role in ("in", "both")]
    right = [t.name for t in terminals if t.role == "out"]
    foot = [t.name for t in terminals if t.role == "tie"]
    named = {*left, *right, *foot}
    for run in sorted(design.runs_at(part.id), key=lambda run: run.id):
        for end, side in ((run.b, left), (run.a, right)):
            if end.part == part.id and end.terminal not in named:
                side.append(end.terminal)
                named.add(end.terminal)
    return stretch.box(left, right, foot)
