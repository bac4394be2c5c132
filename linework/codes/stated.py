"""Single figures that a standard or practice states, as rows of a family's table of limits."""

from __future__ import annotations

from functools import cache

from linework.codes.tables import by, confidence_of
from linework.codes.value import Sourced


@cache
def stated(folder: str, key: str, edition: str = "") -> Sourced[float]:
    """The figure under this key in ``resources/tables/<folder>/limits.csv``.

    Its clause is as the table has it, without standard and edition.
    """
    row = by(f"{folder}/limits", "id")[key]
    return Sourced(
        float(row["value"]),
        row["unit"],
        row["clause"],
        row["row"],
        confidence_of(row),
        row["sources"],
        edition,
    )
