"""What is not known for sure, each a band; and one draw of all of it for many years at once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from linework.data import Confidence
from linework.supply.figures import Figure, figure
from linework.wiring import Three

Array = np.ndarray
Draw = Mapping[str, Array]
"""Assumption -> its value in each sample."""


@dataclass(frozen=True)
class Assumption:
    """One unknown: a marked text of what it is, its band, and whether nobody gave it.

    ``part``: of which part it is ("" of all). ``note``: where the figure comes from.
    """

    key: str
    what: str
    band: Three
    part: str = ""
    assumed: bool = True
    note: str = ""
    confidence: Confidence = Confidence.PRACTICE


def by_figure(key: str, what: str, part: str = "", name: str = "") -> Assumption:
    """The assumption that a row of the table of figures makes."""
    found: Figure = figure(key)
    return Assumption(name or key, what, found.band, part, True, found.what, found.confidence)


def usual(assumptions: Iterable[Assumption], size: int = 1) -> dict[str, Array]:
    """Everything as usual."""
    return {a.key: np.full(size, a.band.usual) for a in assumptions}


def drawn(
    assumptions: Iterable[Assumption], size: int, rng: np.random.Generator
) -> dict[str, Array]:
    """Each by itself, in a triangle over its band (common practice where no more is known)."""
    found = {}
    for a in sorted(assumptions, key=lambda each: each.key):
        low, most, high = a.band.low, a.band.usual, a.band.high
        spread = high > low
        found[a.key] = rng.triangular(low, most, high, size) if spread else np.full(size, most)
    return found


def one_by_one(assumptions: Sequence[Assumption]) -> tuple[dict[str, Array], list[str]]:
    """All as usual in sample 0; then of each that has a band the low and the high figure, the rest
    as usual. Beside it the key of each pair."""
    moving = [a for a in assumptions if a.band.high > a.band.low]
    found = usual(assumptions, 1 + 2 * len(moving))
    for n, a in enumerate(moving):
        found[a.key][1 + 2 * n] = a.band.low
        found[a.key][2 + 2 * n] = a.band.high
    return found, [a.key for a in moving]
