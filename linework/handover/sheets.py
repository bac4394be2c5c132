"""What a sheet of the set declares of itself."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from reportlab.platypus import Flowable

from linework.handover.content import Content
from linework.picture.model import Item


@dataclass(frozen=True)
class Room:
    """Width and height of what a page may hold, in points."""

    width: float
    height: float


Make = Callable[[Content, Room], list[Flowable]]
"""From the content to what is set on the sheet's pages; nothing where it has nothing to say, and
the set has no such sheet then."""

Foot = Callable[[Content, int, int], Iterable[Item]]
"""What stands at the left of the title block, from its own left upper corner: content, width and
height of the room in tenths of a millimetre."""


@dataclass(frozen=True)
class Sheet:
    """One sheet of the set; its content may run over several pages.

    ``key``: one lower-case word, by which others lead to it and the command line asks for it.
    ``title`` and ``document``: as the title block has them. ``upright``: set on a paper of the
    size that is carried about, short side level. ``narrow``: short side level on that size,
    where more lines find room so. ``annex``: not among what is signed.
    ``whole``: what it makes are whole pages, frame and title block included. ``flows``: set in
    two columns where the paper is wide, right behind the one before it if that flows too.
    """

    key: str
    title: str
    document: str
    make: Make
    upright: bool = False
    narrow: bool = False
    annex: bool = False
    whole: bool = False
    flows: bool = False
    foot: Foot | None = None
