"""How much current a conductor may carry for good (NFPA 70 310.15 and 110.14(C))."""

from __future__ import annotations

from math import sqrt

from linework.codes.errors import not_in_table
from linework.codes.materials import Material, material_of
from linework.codes.na.edition import LATEST, cite, fact
from linework.codes.sizes import nearest_sizes, size_of
from linework.codes.tables import by, confidence_of, number, rows
from linework.codes.value import Sourced, Worked, Working
from linework.data import Confidence
from linework.words import say

_COLUMNS = (60, 75, 90)
_TABLES = {False: ("na/ampacity_310_16", "310.16"), True: ("na/ampacity_310_17", "310.17")}


def insulation_column(insulation_c: float) -> int:
    """The column of the ampacity tables for an insulation: 60, 75 or 90 C.

    Insulation above 90 C takes the 90 C column, as the tables have no other. CodesError below 60.
    """
    fitting = [column for column in _COLUMNS if column <= insulation_c]
    if not fitting:
        raise not_in_table(f"{insulation_c:g} C", "the ampacity tables", ("60 C",))
    return fitting[-1]


def base_ampacity(
    size: str,
    material: str = "copper",
    insulation_c: float = 75.0,
    *,
    free_air: bool = False,
    edition: str = LATEST,
) -> Sourced[float]:
    """Ampacity in ampere at 30 C of one conductor among at most three.

    Table 310.16 (raceway or cable), or 310.17 with ``free_air``. CodesError, naming the nearest
    rows, for a size or column that the table leaves blank: a metric size is in neither.
    """
    name, number_ = _TABLES[free_air]
    metal, column = material_of(material), insulation_column(insulation_c)
    table = by(name, "size")
    text = size_of(size).text
    clause = cite(f"Table {number_}", edition)
    row = table.get(text)
    if row is None:
        raise not_in_table(text, clause, nearest_sizes(text, table))
    prefix = "cu" if metal.is_copper else "al_cca"
    amps = None if metal is Material.STEEL else number(row[f"{prefix}_{column}C_A"])
    if amps is None:
        raise not_in_table(f"{text}, {metal}, {column} C", clause, _filled(name, prefix, column))
    of_metal = f"confidence_{prefix[:2]}"
    mark = confidence_of(row, of_metal if of_metal in row else f"{of_metal}_{column}C")
    where = f"{text}, {metal.core}, {column} C column"
    return Sourced(amps, "A", clause, where, mark, row["sources"], edition)


def _filled(name: str, prefix: str, column: int) -> tuple[str, ...]:
    """The thinnest size that has an entry in a column."""
    return tuple(row["size"] for row in rows(name) if row[f"{prefix}_{column}C_A"])[:1]


def ambient_factor(insulation_c: float, ambient_c: float, edition: str = LATEST) -> Sourced[float]:
    """Correction for an ambient other than 30 C.

    Table 310.15(B)(1): the row of the next higher band end. Where the table ends or is blank,
    the equation sqrt((Tc - Ta) / (Tc - 30)) of 310.15(B); zero at and above Tc.
    """
    column = insulation_column(insulation_c)
    clause = cite("Table 310.15(B)(1)", edition)
    for row in rows("na/ambient_310_15_B_1"):
        text = row[f"factor_{column}C"]
        if ambient_c <= float(row["ambient_max_C"]) and text:
            where = f"{row['ambient_min_C'] or 'to'} to {row['ambient_max_C']} C, {column} C column"
            return Sourced(
                float(text), "", clause, where, confidence_of(row), row["sources"], edition
            )
    left = max(column - ambient_c, 0.0)
    where = f"sqrt(({column} - {ambient_c:g}) / ({column} - 30))"
    source = "the equation that gives every cell of the table"
    factor = sqrt(left / (column - 30.0))
    return Sourced(
        factor, "", cite("310.15(B)", edition), where, Confidence.DERIVED, source, edition
    )


def grouping_factor(conductors: int, edition: str = LATEST) -> Sourced[float]:
    """Adjustment for more than three current-carrying conductors in a raceway or bundle.

    Count them without ground wires and without a neutral that carries only the unbalance.
    CodesError below one.
    """
    clause = cite("Table 310.15(C)(1)", edition)
    for row in rows("na/grouping_310_15_C_1"):
        least = int(row["current_carrying_conductors_min"])
        most = number(row["current_carrying_conductors_max"])
        if least <= conductors and (most is None or conductors <= most):
            where = f"{conductors} conductors: {row['percent_of_ampacity']} %"
            value = float(row["percent_of_ampacity"]) / 100.0
            return Sourced(value, "", clause, where, confidence_of(row), row["sources"], edition)
    raise not_in_table(f"{conductors}", clause, ("1",))


def terminal_temperature(
    size: str, device_a: float | None, marked_c: int | None = None, edition: str = LATEST
) -> Sourced[int]:
    """The column in C that terminals allow (110.14(C)(1)).

    Marked terminals as marked, but not above 75 C (90 C terminals are not found on listed
    equipment of this size: from memory). Otherwise 60 C up to 100 A, 75 C above; without a known
    device 60 C for 14 to 1 AWG and thinner, 75 C for thicker ones.
    """
    rule = fact("G09", edition)
    if marked_c is not None:
        return rule.became(min(marked_c, 75), "C", f"marked {marked_c} C", Confidence.PUBLISHED)
    if device_a is not None:
        small, where = device_a <= 100.0, f"{device_a:g} A, not marked"
    else:
        small, where = size_of(size).cmil <= size_of("1 AWG").cmil, f"{size}, not marked"
    return rule.became(60 if small else 75, "C", where, Confidence.PUBLISHED)


def ampacity(
    size: str,
    material: str = "copper",
    insulation_c: float = 75.0,
    *,
    ambient_c: float = 30.0,
    grouped: int = 3,
    terminal_c: int | None,
    free_air: bool = False,
    house_cable: bool = False,
    in_insulation: bool = False,
    edition: str = LATEST,
) -> Worked[float]:
    """Ampacity in ampere as installed, with its steps.

    Table value of the insulation's column, times ambient, times grouping, then at most: the 60 C
    column for house cable (NM, 334.80), the terminals' column of table 310.16 (110.14(C)).
    ``terminal_c`` None: terminals are not considered. ``in_insulation``: NFPA 70 gives no factor
    for thermal insulation; a step of one, from memory, says so. CodesError where a table has no
    row.
    """
    base = base_ampacity(size, material, insulation_c, free_air=free_air, edition=edition)
    work = Working(say("Table value"), base)
    work.times(say("Ambient temperature"), ambient_factor(insulation_c, ambient_c, edition))
    work.times(say("Conductors together"), grouping_factor(grouped, edition))
    if in_insulation:
        work.times(say("Thermal insulation"), _no_insulation_factor(edition))
    if house_cable:
        cap = base_ampacity(size, material, 60.0, edition=edition)
        rule = fact("G08", edition)
        work.at_most(say("House cable"), _under(cap, rule))
    if terminal_c is not None:
        cap = base_ampacity(size, material, float(terminal_c), edition=edition)
        work.at_most(say("Terminals"), _under(cap, fact("G09", edition)))
    return work.done()


def _no_insulation_factor(edition: str) -> Sourced[float]:
    where = "no factor; 334.80 only counts more than two cables together"
    return Sourced(
        1.0, "", cite("310.14(A)(3)", edition), where, Confidence.MEMORY, "from memory", edition
    )


def _under(cap: Sourced[float], rule: Sourced[str]) -> Sourced[float]:
    """A table value that counts because of a rule: the rule's clause, the table's row."""
    limited = rule.became(cap.value, cap.unit, f"{cap.clause}, {cap.row}", cap.confidence)
    return limited.remarked("")
