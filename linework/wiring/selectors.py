"""What can stand in more than one position: levers, plugs, sources, relays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from linework.wiring.points import Point


@dataclass(frozen=True, slots=True)
class Follow:
    """One line of a follower's rule; the first line that holds sets the position.

    ``live`` and ``dead`` are points judged without the follower's own part as
    a source; ``stands`` are positions that other selectors of the part must have.
    """

    position: str
    live: tuple[Point, ...] = ()
    dead: tuple[Point, ...] = ()
    stands: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Passing:
    """What stands between two positions of a follower while it moves.

    Contacts that name ``position`` among theirs are closed during the passage.
    ``longest_s`` is its duration in seconds. ``live``: points that must be live for it, judged
    without the follower's own part as a source.
    """

    before: str
    after: str
    position: str
    longest_s: float
    live: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class Selector:
    """A set of positions of which exactly one holds in an operating state.

    ``moves``: "hand" for a free choice (lever, hand-moved plug), "source" for a
    source that can run or stand still, "follows" for what moves by itself,
    "protection" for what is closed unless a device or an interlock opens it.
    """

    name: str
    positions: tuple[str, ...]
    rest: str
    moves: Literal["hand", "source", "follows", "protection"] = "hand"
    rule: tuple[Follow, ...] = ()
    passing: tuple[Passing, ...] = ()
