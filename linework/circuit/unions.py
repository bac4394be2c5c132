"""Disjoint sets."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from typing import Generic, TypeVar

_T = TypeVar("_T", bound=Hashable)


class Unions(Generic[_T]):
    """Disjoint sets of hashable things, with path halving."""

    def __init__(self) -> None:
        self._parent: dict[_T, _T] = {}

    def add(self, thing: _T) -> None:
        """Make a thing known, alone unless it is already."""
        self._parent.setdefault(thing, thing)

    def find(self, thing: _T) -> _T:
        """The representative of a thing's set."""
        self.add(thing)
        while self._parent[thing] != thing:
            self._parent[thing] = self._parent[self._parent[thing]]
            thing = self._parent[thing]
        return thing

    def join(self, one: _T, other: _T) -> None:
        """Make two sets one."""
        first, second = self.find(one), self.find(other)
        if first != second:
            self._parent[second] = first

    def numbered(self) -> dict[_T, int]:
        """Each thing with the number of its set, numbers in order of first appearance."""
        numbers: dict[_T, int] = {}
        return {thing: numbers.setdefault(self.find(thing), len(numbers)) for thing in self._parent}


class IntUnions:
    """Disjoint sets of the integers below ``size``; fast enough for the inner loop over states."""

    __slots__ = ("parent",)

    def __init__(self, size: int) -> None:
        self.parent = list(range(size))

    def copy(self) -> IntUnions:
        """The same sets, to be joined further."""
        other = IntUnions(0)
        other.parent = self.parent.copy()
        return other

    def find(self, item: int) -> int:
        """The representative of an item's set."""
        parent = self.parent
        while parent[item] != item:
            parent[item] = item = parent[parent[item]]
        return item

    def join_all(self, pairs: Iterable[tuple[int, int]]) -> IntUnions:
        """Make the sets of each pair one; returns itself."""
        parent, find = self.parent, self.find
        for one, other in pairs:
            first, second = find(one), find(other)
            if first != second:
                parent[second] = first
        return self

    def labels(self) -> list[int]:
        """The representative of every item."""
        return [self.find(item) for item in range(len(self.parent))]


def joined(size: int, pairs: Iterable[tuple[int, int]]) -> list[int]:
    """Labels of the connected sets of ``size`` items joined by pairs."""
    return IntUnions(size).join_all(pairs).labels()
