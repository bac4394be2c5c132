"""Flexible cords (NFPA 70 article 400)."""

from __future__ import annotations

from collections.abc import Iterable

from linework.codes.errors import CodesError, not_in_table
from linework.codes.na.ampacity import ambient_factor, grouping_factor
from linework.codes.na.edition import LATEST, cite, constant, fact
from linework.codes.sizes import nearest_sizes, size_of
from linework.codes.tables import by, confidence_of, number, rows
from linework.codes.value import Sourced, Worked, Working
from linework.data import Confidence
from linework.wiring import Pole, is_protective
from linework.words import say

_M_PER_FT = 0.3048


def counted_conductors(
    poles: Iterable[Pole], *, neutral_nonlinear: bool = False, edition: str = LATEST
) -> Sourced[int]:
    """How many conductors of a cord count as current-carrying.

    Every live one; a neutral beside two lines of a 120/240 V supply carries only the unbalance
    and does not count, unless most of its load is non-linear. Two lines *in phase* have no
    such neutral: count it then. Protective conductors never count.
    """
    live = [pole for pole in poles if not is_protective(pole)]
    lines = [pole for pole in live if pole is not Pole.N]
    spared = Pole.N in live and len(lines) == 2 and not neutral_nonlinear
    count = len(live) - 1 if spared else len(live)
    return fact("G15", edition).became(count, "", " ".join(live), Confidence.MEMORY)


def base_cord_ampacity(size: str, counted: int, edition: str = LATEST) -> Sourced[float]:
    """Ampacity in ampere of a copper cord at 30 C with two, or three or more, counted conductors.

    Table 400.5(A)(1). CodesError for a size that it leaves out, and for a count below one.
    """
    clause = cite("Table 400.5(A)(1)", edition)
    if counted < 1:
        raise CodesError(say("a cord needs at least one current-carrying conductor"))
    table = by("na/cord_ampacity_400_5", "size")
    text = size_of(size).text
    row = table.get(text)
    column = "two" if counted <= 2 else "three"
    amps = number(row[f"{column}_current_carrying_A"]) if row is not None else None
    if row is None or amps is None:
        raise not_in_table(f"{text}, {column} conductors", clause, nearest_sizes(text, table))
    mark = confidence_of(row, f"confidence_{column}")
    where = f"{text}, {column} current-carrying conductors"
    return Sourced(amps, "A", clause, where, mark, row["sources"], edition)


def cord_ampacity(
    size: str,
    counted: int,
    *,
    insulation_c: float = 60.0,
    ambient_c: float = 30.0,
    edition: str = LATEST,
) -> Worked[float]:
    """Ampacity in ampere of a copper cord as used, with its steps.

    ``insulation_c``: temperature class of the cord, 60 C where nothing is printed on it. Over
    three counted conductors: 400.5(A)(3), the percentages of table 310.15(C)(1).
    """
    work = Working(say("Table value"), base_cord_ampacity(size, counted, edition))
    ambient = ambient_factor(insulation_c, ambient_c, edition)
    work.times(say("Ambient temperature"), ambient.remarked(fact("G17", edition).value))
    if counted > 3:
        share = grouping_factor(counted, edition)
        rule = constant("G16", share.value, "", edition)
        work.times(say("Conductors together"), rule)
    return work.done()


def cord_mark(size: str, length_m: float) -> Sourced[float] | None:
    """What makers mark on cord sets of this size and length, in ampere; None for those that are
    marked for their ampacity or their plug."""
    text = size_of(size).text
    for row in rows("na/cord_set_marks"):
        if row["size"] == text and length_m > float(row["above_ft"]) * _M_PER_FT:
            where = f"{text}, longer than {row['above_ft']} ft"
            mark = confidence_of(row)
            return Sourced(float(row["marked_A"]), "A", "practice", where, mark, row["sources"])
    return None
