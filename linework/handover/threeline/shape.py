"""A block as it is drawn: rows of terminals and devices at its sides, bars between them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from linework.handover.threeline.model import (
    Block,
    Contact,
    Inner,
    Net,
    Port,
    Stub,
)
from linework.picture.measure import text_width
from linework.wiring import Pole

TALL = 25
"""Height of capitals, in tenths of a millimetre as all else."""
ROW, HEAD, HALF = 40, 60, 20
"""From row to row, from the last row to the first of the next terminal, half a row."""
CONTACT, BAR = 70, 70
"""Room for a contact in a row, from bar to bar."""
PIN, DEVICE = 9, 30
"""Radius of a terminal; how far from the edge a device lies."""
INDENT = 54
"""How far from the edge what is written over the rows of a terminal begins, past the marks."""
Side = Literal["left", "right"]


@dataclass(frozen=True)
class Words:
    """What is written: at a block (name, lines), at a terminal with the parts on the way to it, at
    a run (longest first), for a part in short and in full; whether a part is an electrode."""

    block: Callable[[Block], tuple[str, Sequence[str]]]
    port: Callable[[Port, Sequence[str]], str]
    run: Callable[[str], Sequence[str]]
    part: Callable[[str], str]
    far: Callable[[str], str]
    soil: Callable[[str], bool]


def mark(pole: str) -> str:
    """The letter at a terminal."""
    return "\N{MINUS SIGN}" if pole == Pole.NEG else pole.partition(":")[0]


@dataclass(frozen=True)
class Row:
    """One level line from the edge to a bar. ``end``: what is at the edge, with its number."""

    side: Side
    y: int
    end: Port | Inner
    index: int
    chain: tuple[Contact, ...]
    net: Net

    def raised(self, by: int) -> Row:
        """The same row so much higher."""
        return replace(self, y=self.y - by)


@dataclass(frozen=True)
class Title:
    """What is written over the rows of a terminal; ``y`` is the base line."""

    side: Side
    y: int
    text: str


@dataclass(frozen=True)
class Drop:
    """A line from a bar down through the lower edge; ``lead``: level stretch to it, if any."""

    net: Net
    x: int
    lead: int | None
    stub: Stub | None


@dataclass
class Shape:
    """A block as it is drawn, from its left upper corner."""

    block: Block
    width: int = 0
    height: int = 0
    above: int = 0
    below: int = 0
    aside: int = 0
    named_aside: bool = False
    name: tuple[str, ...] = ()
    lines: tuple[str, ...] = ()
    rows: list[Row] = field(default_factory=list)
    titles: list[Title] = field(default_factory=list)
    crosses: list[tuple[Contact, int]] = field(default_factory=list)
    drops: list[Drop] = field(default_factory=list)
    bar_x: dict[Net, int] = field(default_factory=dict)
    ends: dict[Net, list[int]] = field(default_factory=dict)
    zones: tuple[int, int] = (0, 0)

    def pins(self, port: Port) -> list[tuple[int, int]]:
        """Where the conductors of a port end."""
        found = sorted((row for row in self.rows if row.end == port), key=lambda row: row.index)
        return [(0 if row.side == "left" else self.width, row.y) for row in found]

    def side(self, port: Port) -> Side:
        """At which edge a port lies."""
        return next(row.side for row in self.rows if row.end == port)


def mark_width(row: Row) -> int:
    """Room for the mark beside a terminal; a minus stays clear of the line that follows it."""
    assert isinstance(row.end, Port)
    pole = row.end.pins[row.index].pole
    return 16 + text_width(mark(pole), TALL) + (18 if pole == Pole.NEG else 10)


def stub_text(stub: Stub, words: Words) -> tuple[str, str, str]:
    """What stands on a stub, and behind its far end: the mark there, and whose it is."""
    return words.run(stub.owner)[0], mark(stub.far.pole), words.far(stub.far.part)


def stub_reach(drop: Drop, words: Words) -> int:
    """How far to the right a stub and its writing go."""
    if drop.stub is None:
        return drop.x + 25
    return drop.x + sum(text_width(told, TALL) for told in stub_text(drop.stub, words)) + 118
