"""What one kind of part declares, once, for the card, the file, the schedules and the solver."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from linework.kinds.ratings import Rating, Ratings
from linework.kinds.values import Values
from linework.wiring import Inside, Place, Terminal

TerminalsOf = Callable[[Values], tuple[Terminal, ...]]
PlacesOf = Callable[[Values], tuple[Place, ...]]
InsideOf = Callable[[Values], Inside]


def no_places(values: Values) -> tuple[Place, ...]:
    """For kinds in which nothing sits."""
    return ()


@dataclass(frozen=True)
class Kind:
    """One kind of part.

    ``letters``: class letters of its reference designation (IEC 81346-2).
    ``strip``: where it lies in the parts strip. ``seat``: the terminal by which
    it sits in a place of another part ("" if it never does); ``roles``: what
    such a place must accept. ``symbol`` names a file of the symbols folder.
    ``captions``: the ratings written at the symbol on the sheet, in order.
    ``columns``: those in its schedule. ``changes_over``: it takes another source
    by itself when one fails.
    """

    key: str
    name: str
    letters: str
    strip: str
    ratings: tuple[Rating, ...]
    terminals: TerminalsOf
    inside: InsideOf
    symbol: Callable[[Values], str]
    places: PlacesOf = no_places
    seat: str = ""
    roles: frozenset[str] = frozenset()
    captions: tuple[str, ...] = ()
    columns: tuple[str, ...] = ()
    changes_over: bool = False
    search: str = ""
    declared: Mapping[str, Rating] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "declared", {rating.key: rating for rating in self.ratings})

    def values(
        self,
        ratings: Ratings,
        settled: Mapping[str, str] | None = None,
        setting: Mapping[str, str] | None = None,
    ) -> Values:
        """The ratings of one part of this kind, ready to be read."""
        return Values(self.declared, ratings, settled or {}, setting or {})
