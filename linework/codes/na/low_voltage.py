"""Direct-current wiring of vehicles, cabins and boats: devices, sizes, distances."""

from __future__ import annotations

from math import sqrt
from typing import Literal

from linework.codes.errors import CodesError, not_among, not_in_table
from linework.codes.na.edition import LATEST, cite, constant
from linework.codes.sizes import nearest_sizes, size_of
from linework.codes.tables import by, confidence_of, number, rows
from linework.codes.value import Sourced, Worked, Working
from linework.data import Confidence
from linework.words import say

METERS_PER_INCH = 0.0254
_TABLE = "na/ampacity_marine_33_cfr_183_425"
_MARINE = "33 CFR 183.425; ABYC E-11"


def low_voltage_device(size: str, edition: str = LATEST) -> Sourced[float]:
    """Greatest device in ampere for a low-voltage vehicle circuit, 18 to 10 AWG.

    Table 552.10(E)(1) for park trailers, taken for other vehicles as practice. CodesError beyond.
    """
    table = by("na/low_voltage_552_10_E_1", "size")
    text = size_of(size).text
    clause = cite("Table 552.10(E)(1)", edition)
    row = table.get(text)
    if row is None:
        raise not_in_table(text, clause, nearest_sizes(text, table))
    return Sourced(
        float(row["max_device_A"]),
        "A",
        clause,
        text,
        confidence_of(row),
        row["sources"],
        edition,
        row["strand_rule"],
    )


def device_distance_m(
    place: str,
    connected_to: Literal["battery", "other source"] = "battery",
    *,
    sheathed: bool = False,
) -> Sourced[float]:
    """How far along the conductor the first device may lie from its source, in meter.

    ``place``: "recreational", "vehicle", "boat", "building" or "field"; ``sheathed``: in a
    sheath or enclosure all the way. A starter cable is exempt. CodesError for other places.
    """
    wanted = (place, connected_to, "yes" if sheathed else "no")
    table = rows("na/battery_device_distance")
    for row in table:
        if (row["place"], row["connected_to"], row["sheathed"]) == wanted:
            inches = float(row["max_distance_in"])
            clause = row["clause"]
            return Sourced(
                inches * METERS_PER_INCH,
                "m",
                cite(clause) if clause.startswith("552") else clause,
                f"{place}, {connected_to}, {'' if sheathed else 'not '}sheathed: {inches:g} in",
                confidence_of(row),
                row["sources"],
            )
    raise not_among(place, dict.fromkeys(row["place"] for row in table))


def battery_interrupting(cranking_a: float, *, main: bool) -> Sourced[float]:
    """Least interrupting rating in ampere by the cranking amperes of a lead bank of 12 to 24 V.

    ABYC E-11, older table V-A; above 2200 A, and for lithium, the battery maker's short-circuit
    figure counts. CodesError there.
    """
    if cranking_a > 2200.0:
        raise CodesError(say("above 2200 cranking amperes the battery maker's figure counts"))
    for row in rows("na/battery_interrupting_abyc_e11"):
        top = number(row["cca_up_to_A"])
        if top is None or cranking_a <= top:
            column = "main_device_min_A" if main else "branch_device_min_A"
            where = f"cranking amperes up to {row['cca_up_to_A'] or '2200'}"
            mark, source = confidence_of(row), row["sources"]
            return Sourced(float(row[column]), "A", "ABYC E-11 table V-A", where, mark, source)
    raise AssertionError("the last row has no upper end")


def marine_base_ampacity(
    size: str, insulation_c: float, *, engine_space: bool = False
) -> Sourced[float]:
    """Ampacity in ampere of a single copper conductor afloat, under 50 V.

    33 CFR 183.425 table 5 (30 C; inside engine spaces 50 C). Insulation takes the column at or
    below it. CodesError outside 18 AWG to 4/0 and below 60 C.
    """
    text = size_of(size).text
    column = _marine_column(insulation_c)
    mine = {r["size"]: r for r in rows(_TABLE) if float(r["insulation_C"]) == column}
    row = mine.get(text)
    if row is None:
        raise not_in_table(text, _MARINE, nearest_sizes(text, mine))
    where = "inside" if engine_space else "outside"
    return Sourced(
        float(row[f"{where}_engine_space_A"]),
        "A",
        _MARINE,
        f"{text}, {column:g} C insulation, {where} engine spaces",
        confidence_of(row, f"confidence_{where}"),
        row["sources"],
    )


def _marine_column(insulation_c: float) -> float:
    fitting = {float(r["insulation_C"]) for r in rows(_TABLE)}
    below = [each for each in fitting if each <= insulation_c]
    if not below:
        raise not_in_table(f"{insulation_c:g} C", _MARINE, (f"{min(fitting):g} C",))
    return max(below)


def marine_ampacity(
    size: str, insulation_c: float, *, ambient_c: float = 30.0, engine_space: bool = False
) -> Worked[float]:
    """Ampacity in ampere afloat as installed, with its steps; bundles are not corrected.

    Hotter than the table's 30 C (engine spaces 50 C): times sqrt((Tc - Ta) / (Tc - T0)), the
    relation that the table's own two columns keep. Cooler surroundings raise nothing.
    """
    work = Working(
        say("Table value"), marine_base_ampacity(size, insulation_c, engine_space=engine_space)
    )
    column, based_c = _marine_column(insulation_c), 50.0 if engine_space else 30.0
    if ambient_c > based_c:
        left = max(column - ambient_c, 0.0) / (column - based_c)
        where = f"sqrt(({column:g} - {ambient_c:g}) / ({column:g} - {based_c:g}))"
        source = "the relation between the two columns of the table"
        factor = Sourced(sqrt(left), "", _MARINE, where, Confidence.DERIVED, source)
        work.times(say("Ambient temperature"), factor)
    return work.done()


MARINE_CONSTANT = 10.75
"""Constant of ABYC E-11's sizing formula in ohm circular mil per foot (copper, about 25 C)."""
MARINE_OVER_AMPACITY = 1.5


def marine_largest_device(ampacity: Sourced[float]) -> Sourced[float]:
    """Greatest device in ampere afloat: where no standard rating fits, up to 150 % of the ampacity.

    ABYC E-11, one source; motors have rules of their own.
    """
    return ampacity.became(
        ampacity.value * MARINE_OVER_AMPACITY,
        "A",
        f"150 % of {ampacity.value:g} A",
        Confidence.PUBLISHED,
    )


def marine_constant() -> Sourced[float]:
    """The constant 10.75 of the marine sizing formula, for a path counted out and back."""
    return constant("G24", MARINE_CONSTANT, "ohm cmil/ft")
