"""The levers of a design: what a person can move, what follows, and which state that makes."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from linework.words import say

Key = tuple[str, str]
"""(part id, selector)."""

Choice = Mapping[Key, str]
"""A position for each free selector."""


@dataclass(frozen=True)
class Lever:
    """One selector. ``words``: what a person reads at each position; ``pieces``: its part of
    the state's key."""

    key: Key
    designation: str
    title: str
    positions: tuple[str, ...]
    words: tuple[str, ...]
    pieces: tuple[str, ...]
    rest: str
    in_use: str = ""
    """Where it stands when it is first shown: running, live, plugged in; "" where it rests."""

    def word(self, position: str) -> str:
        """The word for a position."""
        return dict(zip(self.positions, self.words, strict=True)).get(position, position)


@dataclass(frozen=True)
class LeverBoard:
    """All levers. ``excluded``: sets of positions of which at most one may hold."""

    levers: tuple[Lever, ...] = ()
    followers: tuple[Lever, ...] = ()
    excluded: tuple[frozenset[tuple[Key, str]], ...] = ()

    def rest(self) -> dict[Key, str]:
        """Every lever at rest."""
        return {lever.key: lever.rest for lever in self.levers}

    def in_use(self) -> dict[Key, str]:
        """Every lever as it stands when it is first shown."""
        return {lever.key: lever.in_use or lever.rest for lever in self.levers}

    def fitted(self, choice: Choice, held: Collection[Key] = ()) -> dict[Key, str]:
        """A choice made for another drawing: what is new at rest, what is gone left out, and of
        what an interlock does not let stand together only the first, one of those ``held`` if
        there is any."""
        found = {
            lever.key: choice[lever.key] if choice.get(lever.key) in lever.positions else lever.rest
            for lever in self.levers
        }
        for lock in self.excluded:
            both = [item for item in lock if found.get(item[0]) == item[1]]
            both.sort(key=lambda item: (item[0] not in held, item))
            for key, position in both[1:]:
                found[key] = self._another(key, position)
        return found

    def _another(self, key: Key, position: str) -> str:
        lever = next(lever for lever in self.levers if lever.key == key)
        return next((p for p in lever.positions if p != position), position)

    def state_key(self, choice: Choice) -> str:
        """The key of the state that a choice makes."""
        pieces = [lever.pieces[lever.positions.index(choice[lever.key])] for lever in self.levers]
        return " ".join(sorted(pieces))

    def why_not(self, choice: Choice, key: Key, position: str) -> str:
        """Why a lever cannot go there, empty where it can."""
        after = {**choice, key: position}
        for lock in self.excluded:
            held = [item for item in lock if after.get(item[0]) == item[1]]
            if len(held) > 1 and (key, position) in held:
                others = [self._name(k) for k, _ in sorted(held) if k != key]
                return say(
                    "{what} is held by an interlock: first move {others}",
                    what=self._name(key),
                    others=", ".join(others),
                )
        return ""

    def _name(self, key: Key) -> str:
        return next((lever.designation for lever in self.levers if lever.key == key), key[0])
