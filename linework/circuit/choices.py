"""The free choices of a circuit: how many states agree with some positions, and one of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from math import prod

from linework.circuit.model import Circuit, SelectorAt, SelectorKey
from linework.circuit.pockets import Pockets
from linework.circuit.states import free_selectors

Arrangement = Mapping[SelectorKey, str]
"""Positions of some free selectors; it stands for all states that agree with it."""


class Choices:
    """What can be chosen, and which positions exclude each other."""

    def __init__(
        self, free: Iterable[SelectorAt], locks: Sequence[frozenset[tuple[SelectorKey, str]]] = ()
    ) -> None:
        self.free: dict[SelectorKey, SelectorAt] = {s.key: s for s in free}
        self.locks = locks
        self.pockets = Pockets({})
        """Those of the switches that are not taken in all combinations."""
        self._ways: dict[object, int] = {}

    @classmethod
    def of(cls, circuit: Circuit) -> Choices:
        """What a person can choose in a circuit, and what its interlocks forbid."""
        return cls(free_selectors(circuit), circuit.excluded)

    @cached_property
    def number(self) -> int:
        """How many states are permitted."""
        return self.count({})

    @cached_property
    def _bound(self) -> list[list[SelectorAt]]:
        """The selectors that interlocks name, those together that hang on each other."""
        groups: list[set[SelectorKey]] = []
        for lock in self.locks:
            keys = {key for key, _ in lock if key in self.free}
            near = [group for group in groups if group & keys]
            groups = [group for group in groups if not group & keys]
            groups.append(keys.union(*near))
        return [[self.free[key] for key in sorted(group)] for group in groups]

    @cached_property
    def _unbound(self) -> list[SelectorAt]:
        bound = {s.key for group in self._bound for s in group}
        return [s for key, s in self.free.items() if key not in bound]

    def is_whole(self, known: Arrangement) -> bool:
        """Whether these are the positions of every free selector, and permitted."""
        return known.keys() == self.free.keys() and self.count(known) > 0

    def count(self, known: Arrangement) -> int:
        """The permitted states that agree with some positions."""
        loose = prod(len(s.positions) for s in self._unbound if s.key not in known)
        return loose * prod(self._count(group, known) for group in self._bound)

    def _count(self, group: list[SelectorAt], known: Arrangement) -> int:
        fixed = tuple((s.key, known[s.key]) for s in group if s.key in known)
        found = self._ways.get(fixed)
        if found is None:
            found = self._ways[fixed] = self._counted(group, dict(fixed))
        return found

    def _counted(self, group: list[SelectorAt], known: Arrangement) -> int:
        """One selector after the other: how many ways lead to each set of locks in use."""
        ways: dict[frozenset[int], int] = {frozenset(): 1}
        for k, selector in enumerate(group):
            later = {s.key for s in group[k + 1 :]}
            after: dict[frozenset[int], int] = {}
            for position in _positions(selector, known):
                taking = self._taking(selector.key, position)
                for held, number in ways.items():
                    if not taking & held:
                        kept = frozenset(i for i in held | taking if self._named(i, later))
                        after[kept] = after.get(kept, 0) + number
            ways = after
        return sum(ways.values())

    def _taking(self, key: SelectorKey, position: str) -> frozenset[int]:
        return frozenset(i for i, lock in enumerate(self.locks) if (key, position) in lock)

    def _named(self, lock: int, keys: set[SelectorKey]) -> bool:
        return any(key in keys for key, _ in self.locks[lock])

    def example(self, known: Arrangement) -> dict[SelectorKey, str]:
        """A permitted state that agrees with some positions: other sources off, plugs out, all
        else at rest as far as interlocks let it."""
        found = dict(known)
        for key, selector in self.free.items():
            if key in found:
                continue
            order = (_quiet(selector), *selector.positions)
            found[key] = next(p for p in order if self.count({**found, key: p}))
        return found


def _positions(selector: SelectorAt, known: Arrangement) -> Sequence[str]:
    at = known.get(selector.key)
    return selector.positions if at is None else (at,)


_OFF = ("stopped", "dead", "unplugged", "off", "night")


def _quiet(selector: SelectorAt) -> str:
    if selector.moves == "source" or selector.key[1] == "plug":
        return next((p for p in selector.positions if p in _OFF), selector.rest)
    return selector.rest
