"""How wide the columns of a table are, so that it takes few lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import permutations
from math import ceil
from typing import Any

from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import stringWidth

_LONGEST = 32 * mm
"""No word keeps a column wider than this."""
_RAGGED = 1.06
"""Broken lines are not full: words in several of them need so much more."""
_STEPS = (8 * mm, 2.5 * mm)
"""What one column takes from another at a time."""


def widths(
    cells: Sequence[Sequence[Sequence[Any]]], width: float, pad: float, fill: bool
) -> list[float]:
    """Of each column of rows of cells that hold paragraphs and drawings, in points.

    All that has room on one line stands so, and with ``fill`` the columns share what is left over.
    Where ``width`` is not enough, every column first gets what its longest line needs, up to a
    bound that is the same for all; then they give each other room as long as that saves lines.
    """
    columns = [[each for cell in column for each in cell] for column in zip(*cells, strict=True)]
    natural = [max(map(_natural, column), default=0.0) + pad for column in columns]
    least = [max(map(_least, column), default=0.0) + pad for column in columns]
    if sum(natural) <= width:
        spare = (width - sum(natural)) / sum(natural) if fill else 0.0
        return [one * (1 + spare) for one in natural]
    low, high = 0.0, width
    for _ in range(40):
        bound = (low + high) / 2
        total = sum(max(a, min(b, bound)) for a, b in zip(least, natural, strict=True))
        low, high = (bound, high) if total <= width else (low, bound)
    fitted = [max(a, min(b, low)) for a, b in zip(least, natural, strict=True)]
    if sum(fitted) > width:
        return [width * one / sum(fitted) for one in fitted]
    return _traded(cells, fitted, least, pad)


def _traded(
    cells: Sequence[Sequence[Sequence[Any]]], given: list[float], least: list[float], pad: float
) -> list[float]:
    """The widths after every trade between two columns that saves lines."""
    columns = zip(*cells, strict=True)
    needs = [[[_natural(each) for each in cell] for cell in column] for column in columns]

    @cache
    def lines(column: int, wide: float) -> tuple[int, ...]:
        return tuple(sum(_lines(need, wide - pad) for need in cell) for cell in needs[column])

    def total(found: Sequence[float]) -> int:
        rows = zip(*(lines(n, wide) for n, wide in enumerate(found)), strict=True)
        return sum(map(max, rows))

    best = given
    for step in _STEPS:
        while True:
            traded = min(_trades(best, least, step), key=total, default=best)
            if total(traded) >= total(best):
                break
            best = traded
    return best


def _trades(found: Sequence[float], least: Sequence[float], step: float) -> Iterator[list[float]]:
    """What one column may give another: once, twice or four times a step."""
    for giver, taker in permutations(range(len(found)), 2):
        for many in (1, 2, 4):
            if found[giver] - many * step >= least[giver]:
                traded = list(found)
                traded[giver] -= many * step
                traded[taker] += many * step
                yield traded


def _lines(need: float, wide: float) -> int:
    return 1 if need <= wide else ceil(need * _RAGGED / wide)


def _natural(cell: Any) -> float:
    """How wide it is on one line."""
    if not hasattr(cell, "getPlainText"):
        return float(getattr(cell, "width", 0.0) or 0.0)
    lines = str(cell.getPlainText()).splitlines() or [""]
    font, size = cell.style.fontName, cell.style.fontSize
    widest: float = max(stringWidth(line, font, size) for line in lines)
    return widest + 0.5


def _least(cell: Any) -> float:
    """How wide it must be: its longest word, but for one that has to be broken itself."""
    if not hasattr(cell, "minWidth"):
        return _natural(cell)
    return min(float(cell.minWidth() + 0.5), float(_LONGEST))
