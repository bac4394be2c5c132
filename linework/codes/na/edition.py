"""Which editions of NFPA 70 are known, and how their clauses are called."""

from __future__ import annotations

from functools import cache

from linework.codes.errors import not_among
from linework.codes.tables import Row, by, confidence_of
from linework.codes.value import Sourced

EDITIONS = ("2011", "2014", "2017", "2020", "2023")
LATEST = "2023"

# Three tables were renumbered in 2020. Section numbers within article 250 part II moved in
# 2023; they are not used here.
_BEFORE_2020 = {
    "Table 310.16": "Table 310.15(B)(16)",
    "Table 310.17": "Table 310.15(B)(17)",
    "Table 310.15(B)(1)": "Table 310.15(B)(2)(a)",
    "Table 310.15(C)(1)": "Table 310.15(B)(3)(a)",
    "Table 400.5(A)(1)": "Table 400.5(A)(1)",
}


def cite(clause: str, edition: str = LATEST) -> str:
    """The clause with standard and edition: "NFPA 70 (2023) Table 310.16".

    CodesError for an edition whose text no source showed.
    """
    if edition not in EDITIONS:
        raise not_among(edition, EDITIONS)
    name = _BEFORE_2020.get(clause, clause) if edition < "2020" else clause
    return f"NFPA 70 ({edition}) {name}"


def valid_in(row: Row, edition: str) -> bool:
    """Whether a row with ``first_edition`` (and ``last_edition``) holds in an edition."""
    last = row.get("last_edition", "")
    return row["first_edition"] <= edition and (not last or edition <= last)


@cache
def _facts() -> dict[str, Row]:
    return dict(by("na/clauses", "id"))


def fact(key: str, edition: str = LATEST) -> Sourced[str]:
    """A rule of the clause list ("G01", "M32" ...): its meaning in plain words, with its source."""
    row = _facts()[key]
    own = row["clause"].startswith(("ABYC", "UL", "listing", "practice"))
    clause = row["clause"] if own else cite(row["clause"], edition)
    return Sourced(
        row["plain_meaning"],
        "",
        clause,
        row["topic"],
        confidence_of(row),
        row["sources"],
        edition,
        row["edition_note"],
    )


def constant(key: str, value: float, unit: str, edition: str = LATEST) -> Sourced[float]:
    """A figure that a rule of the clause list states."""
    rule = fact(key, edition)
    return Sourced(
        value, unit, rule.clause, rule.row, rule.confidence, rule.source, edition, rule.value
    )
