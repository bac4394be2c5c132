"""Places along one axis: some at least so far from others, all as near to others as can be.

A linear programme of differences. Its corners are whole numbers where all distances are, so that a
solution on a grid needs no rounding (such a matrix is totally unimodular; Schrijver, Theory of
Linear and Integer Programming, chapter 19, from memory).
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass, field

Key = Hashable
ORIGIN: Key = "origin"
"""The point from which places are counted."""

_ROUNDS, _AGAIN, TRIES = 4, 1, 3
_SHARP, _FORCE, _LEAST = 0.5, 100.0, 0.01


@dataclass
class Near:
    """One thing wants to lie ``by`` beyond another; each step off costs ``weight``.

    ``straight``: any step off costs ``straight`` once, whatever its length.
    """

    a: Key
    b: Key
    by: int
    weight: float
    straight: float = 0.0


@dataclass
class Spacing:
    """What is asked of the places along an axis. Everything lies beyond the origin or behind it."""

    keys: dict[Key, int] = field(default_factory=lambda: {ORIGIN: 0})
    least: dict[tuple[Key, Key], int] = field(default_factory=dict)
    nears: list[Near] = field(default_factory=list)

    def add(self, key: Key) -> None:
        """A thing that is to be placed."""
        self.keys.setdefault(key, len(self.keys))

    def apart(self, a: Key, b: Key, by: int) -> None:
        """``b`` lies at least ``by`` beyond ``a``."""
        self.add(a)
        self.add(b)
        self.least[a, b] = max(by, self.least.get((a, b), by))

    def near(self, a: Key, b: Key, by: int, weight: float, straight: float = 0.0) -> None:
        """``b`` wants to lie ``by`` beyond ``a``."""
        self.add(a)
        self.add(b)
        self.nears.append(Near(a, b, by, weight, straight))

    def places(self, tries: int = TRIES) -> dict[Key, int] | None:
        """Where each thing lies; None where what is asked at least cannot be.

        That something lies straight is no linear wish: its weight is set anew from round to round,
        the higher the less it is off (Candès, Wakin and Boyd, Enhancing Sparsity by Reweighted l1
        Minimization, 2008; from memory). Then each that is still off is tried straight,
        ``tries`` times.
        """
        programme = _Programme(self)
        found = programme.solved([near.weight + near.straight / 4 for near in self.nears])
        if found is None or not any(near.straight for near in self.nears):
            return found
        best = self._settled(programme, found, None)
        for _ in range(tries):
            off = [near for near in self.nears if near.straight and self._off(near, best)]
            tried = [self._settled(programme, best, near) for near in off]
            better = min(tried, key=self._cost, default=best)
            if self._cost(better) > self._cost(best) - _LEAST:
                break
            best = better
        return best

    def _settled(
        self, programme: _Programme, start: dict[Key, int], forced: Near | None
    ) -> dict[Key, int]:
        """The best of some rounds of new weights; with one wish that counts above all others."""
        best, found = start, start
        for _ in range(_ROUNDS if forced is None else _AGAIN):
            weights = [
                _FORCE
                if near is forced
                else near.weight + near.straight / (abs(self._off(near, found)) + _SHARP)
                for near in self.nears
            ]
            found = programme.solved(weights) or found
            best = min(best, found, key=self._cost)
        return best

    def _off(self, near: Near, found: dict[Key, int]) -> int:
        return found[near.b] - found[near.a] - near.by

    def _cost(self, found: dict[Key, int]) -> float:
        offs = [(near, abs(self._off(near, found))) for near in self.nears]
        return sum(near.weight * off + near.straight * (off > 0) for near, off in offs)


class _Programme:
    """The linear programme of what is asked, to be solved with ever other weights."""

    def __init__(self, spacing: Spacing) -> None:
        import numpy as np
        from scipy.sparse import coo_array

        self.spacing, self.keys = spacing, spacing.keys
        places, wishes = len(spacing.keys), len(spacing.nears)
        rows, self.limits = self._rows(places)
        entries = [(row, column, value) for row, line in enumerate(rows) for column, value in line]
        at, of, values = zip(*entries, strict=True) if entries else ((), (), ())
        self.matrix = coo_array((values, (at, of)), shape=(len(rows), places + wishes)).tocsr()
        unknown = [np.inf] * (places - 1 + wishes)
        self.lowest = np.array([0.0, *[-np.inf] * (places - 1), *[0.0] * wishes])
        self.highest = np.array([0.0, *unknown])

    def solved(self, weights: list[float]) -> dict[Key, int] | None:
        """The places that cost least; None where there are none."""
        import numpy as np
        from scipy.optimize import Bounds, LinearConstraint, milp

        # Nothing need be whole here, but of the two front doors to one solver this is the faster.
        found = milp(
            np.concatenate([np.zeros(len(self.keys)), np.asarray(weights)]),
            constraints=LinearConstraint(self.matrix, -np.inf, self.limits),
            bounds=Bounds(self.lowest, self.highest),
        )
        if found.x is None:
            return None
        return {key: round(found.x[number]) for key, number in self.keys.items()}

    def _rows(self, places: int) -> tuple[list[list[tuple[int, float]]], list[float]]:
        """Each row times the unknowns is at most its limit."""
        rows: list[list[tuple[int, float]]] = []
        limits: list[float] = []
        for (a, b), by in self.spacing.least.items():
            rows.append([(self.keys[a], 1.0), (self.keys[b], -1.0)])
            limits.append(-by)
        for number, near in enumerate(self.spacing.nears, start=places):
            a, b = self.keys[near.a], self.keys[near.b]
            rows.append([(b, 1.0), (a, -1.0), (number, -1.0)])
            limits.append(near.by)
            rows.append([(a, 1.0), (b, -1.0), (number, -1.0)])
            limits.append(-near.by)
        return rows, limits
