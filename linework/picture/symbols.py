"""The symbol of a part by its name: from its file, or drawn to the size that is asked for.

Power flows from left to right: inputs are at the left, outputs at the right, grounding and bonding
terminals at the bottom. A family's own form of a symbol lies in ``<name>.<family>.json``; without
one, ``<name>.json`` holds for it too.
"""

from __future__ import annotations

from functools import cache
from itertools import chain

from linework import data
from linework.picture import stretch
from linework.picture.geometry import Box
from linework.picture.measure import bounds
from linework.picture.symbol import Symbol, drawn, labels_around
from linework.picture.symbolfile import SymbolFile, read_symbol
from linework.words import FAMILIES

_FOLDER = "symbols"
_BARS = {f"busbar_{taps}": taps for taps in range(1, 13)}
"""Busbars by their number of taps, all of which the symbol shows."""
_STRETCHED = ("box", "panel", *_BARS)


def symbol_names() -> tuple[str, ...]:
    """Every name that ``symbol`` knows, sorted."""
    return tuple(sorted({*_STRETCHED, *(_name(file) for file in _files())}))


def _name(file: str) -> str:
    return file.rsplit("/", 1)[1].split(".")[0]


@cache
def symbol(name: str, family: str, position: str = "", places: int = 0) -> Symbol:
    """The symbol of that name in the form that the family uses.

    ``position``: of the part's selector, where the symbol shows it; otherwise, and for a position
    it does not show, the form of the standard is drawn. ``places``: how many places for other
    parts a panel or a source shows. ResourceError if there is no such symbol (with the
    nearest name), SymbolFileError if its file is faulty, ValueError for an
    unknown family.
    """
    if name == "panel":
        return stretch.panel(max(places, 1))
    if name in _BARS:
        return stretch.busbar(_BARS[name])
    if name == "box":
        return stretch.box()
    made = _from_file(name, family, position)
    bar = places - len(made.places)
    return stretch.with_places(made, "out", bar) if bar > 0 and "out" in made.anchors else made


def taps_of(name: str) -> int:
    """How many taps the busbar of that name has; 0 for what is no busbar."""
    return _BARS.get(name, 0)


def positions(name: str, family: str) -> tuple[str, ...]:
    """The positions that the symbol shows; empty if it always looks the same."""
    return () if name in _STRETCHED else tuple(_content(name, family).positions)


def _from_file(name: str, family: str, position: str) -> Symbol:
    content = _content(name, family)
    form = position if position in content.positions else next(iter(content.positions), "")
    # Around all positions, so that a label stays where it is when the selector moves.
    every = content.strokes + tuple(chain.from_iterable(content.positions.values()))
    labels = {**labels_around(bounds(every) or Box(0, 0, 0, 0)), **content.labels}
    strokes = content.strokes + content.positions.get(form, ())
    return drawn(name, strokes, content.anchors, content.places, labels, content.source)


@cache
def _content(name: str, family: str) -> SymbolFile:
    if family not in FAMILIES:
        raise ValueError(f"no family {family!r}; there are {', '.join(FAMILIES)}")
    own = f"{_FOLDER}/{name}.{family.lower()}.json"
    return read_symbol(own if own in _files() else f"{_FOLDER}/{name}.json")


@cache
def _files() -> frozenset[str]:
    return frozenset(data.names(_FOLDER))
