"""Which receptacle rating belongs on which circuit (NFPA 70 210.21(B))."""

from __future__ import annotations

from linework.codes.answers import Allowed
from linework.codes.errors import not_in_table
from linework.codes.na.edition import LATEST, cite, fact
from linework.codes.tables import by, confidence_of
from linework.codes.value import Sourced
from linework.data import Confidence


def receptacle_ratings(circuit_a: float, edition: str = LATEST) -> Sourced[tuple[float, ...]]:
    """Ratings in ampere of the receptacles on a circuit with several (table 210.21(B)(3)).

    CodesError for a circuit that is none of 15, 20, 30, 40, 50 A.
    """
    clause = cite("Table 210.21(B)(3)", edition)
    table = by("na/receptacles_210_21_B_3", "circuit_rating_A")
    row = table.get(f"{circuit_a:g}")
    if row is None:
        raise not_in_table(f"{circuit_a:g} A", clause, [f"{each} A" for each in table])
    return Sourced(
        tuple(float(part) for part in row["allowed_receptacle_ratings_A"].split(";")),
        "A",
        clause,
        f"circuit of {circuit_a:g} A",
        confidence_of(row),
        row["sources"],
        edition,
        row["note"],
    )


def receptacle_allowed(
    circuit_a: float, receptacle_a: float, contact_sets: int, edition: str = LATEST
) -> Allowed:
    """Whether a receptacle may be on a circuit that carries ``contact_sets`` of them in all.

    One alone is not rated below its circuit (210.21(B)(1)); a duplex counts as two. CodesError
    for several on a circuit outside table 210.21(B)(3).
    """
    if contact_sets <= 1:
        rule = fact("G20", edition)
        where = f"{receptacle_a:g} A alone on {circuit_a:g} A"
        return Allowed(
            receptacle_a >= circuit_a, rule.became(rule.value, "", where, Confidence.PUBLISHED)
        )
    ratings = receptacle_ratings(circuit_a, edition)
    return Allowed(
        receptacle_a in ratings.value,
        ratings.became(
            ratings.note,
            "",
            f"{ratings.row}, receptacle of {receptacle_a:g} A",
            Confidence.PUBLISHED,
        ),
    )
