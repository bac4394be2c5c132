"""What a page of the guide is made of: plain blocks, all texts said already."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Title:
    """The heading of a part of a page."""

    text: str


@dataclass(frozen=True)
class Prose:
    """Sentences."""

    text: str


@dataclass(frozen=True)
class Items:
    """A list; ``numbered``: of steps, one after the other."""

    texts: tuple[str, ...]
    numbered: bool = False


@dataclass(frozen=True)
class Rows:
    """A table under its heads."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Shown:
    """A picture of the running program by the name of its file, or a symbol of the drawing.

    ``caption`` says in words what is to be seen.
    """

    name: str
    caption: str
    symbol: bool = False


@dataclass(frozen=True)
class See:
    """Other pages: key and title of each."""

    pages: tuple[tuple[str, str], ...]


Block = Title | Prose | Items | Rows | Shown | See


@dataclass(frozen=True)
class Page:
    """``key``: by which it is found, "rule/bond-missing"."""

    key: str
    title: str
    blocks: tuple[Block, ...]
