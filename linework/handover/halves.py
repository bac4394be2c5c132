"""A table in two halves side by side, over as many pages as it takes."""

from __future__ import annotations

from itertools import accumulate

from reportlab.platypus import Flowable, Table

_ENDLESS = 1e6


class Halves(Flowable):  # type: ignore[misc]
    """A table read down its left half and then its right one.

    ``columns``: the table, to be cut where both halves are nearest in height; or both halves, as
    they stand on a page that is filled. ``gap`` in points, as all lengths.
    """

    def __init__(self, columns: list[Table], gap: float) -> None:
        super().__init__()
        self.columns, self.gap = columns, gap
        self.shown: list[Table] = []

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """The whole width, and the height of the higher half."""
        each = self._each(width)
        self.shown = self.columns if len(self.columns) > 1 else self._balanced(each)
        self.width = width
        self.height = max(table.wrap(each, _ENDLESS)[1] for table in self.shown)
        return self.width, self.height

    def split(self, width: float, height: float) -> list[Flowable]:
        """What fills two columns of a height, and what is left; nothing where not a row fits."""
        if len(self.columns) > 1:
            return []
        each = self._each(width)
        left = _cut(self.columns[0], each, height)
        if len(left) < 2:
            return []
        right = _cut(left[1], each, height)
        filled = Halves([left[0], right[0]], self.gap)
        return [filled, *(Halves([rest], self.gap) for rest in right[1:])]

    def draw(self) -> None:
        """Both, their heads in one line."""
        left = 0.0
        for table in self.shown:
            table.drawOn(self.canv, left, self.height - table.wrap(0, 0)[1])
            left += self._each(self.width) + self.gap

    def _each(self, width: float) -> float:
        return (width - self.gap) / 2

    def _balanced(self, each: float) -> list[Table]:
        """The two halves of the table, its head over both."""
        table = self.columns[0]
        table.wrap(each, _ENDLESS)
        head = sum(table._rowHeights[: table.repeatRows])
        rows = table._rowHeights[table.repeatRows :]
        whole = sum(rows)
        ends = [*accumulate(rows)]
        best = min(ends, key=lambda end: max(end, whole - end))
        return _cut(table, each, head + best + 0.1)


def _cut(table: Table, width: float, height: float) -> list[Table]:
    """A table and what is left of it below a height; one where nothing is."""
    table.wrap(width, _ENDLESS)
    if sum(table._rowHeights) <= height:
        return [table]
    made: list[Table] = table.split(width + 1.0, height)
    return made or [table]
