"""Overcurrent protection of transformers (NFPA 70 article 450), up to 1000 V."""

from __future__ import annotations

from linework.codes.families import WindingSide
from linework.codes.na.edition import LATEST, cite
from linework.codes.na.protection import standard_up
from linework.codes.tables import confidence_of, rows
from linework.codes.value import Sourced

_ROWS = {
    "primary": ("primary", "primary"),
    "primary of both": ("both", "primary"),
    "secondary": ("both", "secondary"),
}


def transformer_device(side: WindingSide, rated_a: float, edition: str = LATEST) -> Sourced[float]:
    """The largest device in ampere before or behind a transformer of this rated current.

    ``side``: "primary" alone, "primary of both" where the secondary is protected too, and
    "secondary" for that. Percent of the rated current, and the next standard rating where the
    table has it so (450.3(B); of autotransformers 450.4(A), by the same figures).
    """
    protection, column = _ROWS[side]
    row = next(
        row
        for row in rows("na/transformer_device_450_3_B")
        if row["protection"] == protection and rated_a >= float(row["from_a"])
    )
    amps = round(rated_a * float(row[f"{column}_pct"]) / 100.0, 9)
    where = f"{side}, {rated_a:.3g} A: {row[f'{column}_pct']} %"
    clause = cite("Table 450.3(B)", edition)
    if row[f"{column}_next_up"] == "yes":
        amps = standard_up(amps, "breaker", edition).value
    return Sourced(amps, "A", clause, where, confidence_of(row), row["sources"], edition)
