"""A table of values: numbers are numbers, their unit stands once, in the head of the column."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from linework.handover.content import Content

Cell = str | int | float | None
"""None: nothing is known or nothing belongs there."""

_FOOT_M = 0.3048
_DIGITS = 6


@dataclass(frozen=True)
class Column:
    """What a column holds; ``unit`` "" for words and counts."""

    title: str
    unit: str = ""

    @property
    def head(self) -> str:
        """As it stands over the column: "length [ft]"."""
        return f"{self.title} [{self.unit}]" if self.unit else self.title


@dataclass(frozen=True)
class Data:
    """One table; ``key``, one lower-case word, names its file and is asked for."""

    key: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]

    def __post_init__(self) -> None:
        if any(len(row) != len(self.columns) for row in self.rows):
            raise ValueError(f"a row of {self.key} does not fit its columns")


def figure(value: float | None) -> float | None:
    """A number to six digits; None for what is not defined or never ends."""
    if value is None or not math.isfinite(value):
        return None
    return float(f"{value:.{_DIGITS}g}") + 0.0  # minus nought becomes nought


def length_unit(content: Content) -> str:
    """In which lengths are bought there."""
    return "ft" if content.family == "NA" else "m"


def length(content: Content, metres: float | None) -> float | None:
    """A length in ``length_unit``."""
    if metres is None:
        return None
    return figure(metres / _FOOT_M if content.family == "NA" else metres)


def joined(names: Iterable[str]) -> str:
    """Names in one cell."""
    return ", ".join(names)
