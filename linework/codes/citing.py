"""Which clauses belong to a place: those of vehicles in vehicles, of boats afloat.

A rule names the clauses of all places in one line ("250.134, 551.56"); what is cited of a finding
is what holds where it was found. Table ``clause_places`` of a family says for the beginning of a
clause in which places it holds and what it needs; the longest beginning counts.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from linework.codes.tables import by, rows
from linework.data import exists

PRACTICE = "practice"
"""Cited where no standard of the place says it."""
_FOLDERS = {"NA": "na", "INT": "international"}
_MORE = re.compile(r", (?=[^(])")
"""Between two clauses; what begins with a parenthesis belongs to the one before."""


@dataclass(frozen=True)
class Where:
    """Where a finding stands: the place, whether solar arrays are there, and whether what it tells
    of is a breaker or a fuse ("" for neither)."""

    place: str
    solar: bool = False
    device: str = ""

    @property
    def has(self) -> frozenset[str]:
        """What a clause may need."""
        return frozenset({"solar"} if self.solar else ()) | frozenset({self.device} - {""})


@dataclass(frozen=True)
class _Scope:
    """In which places the clauses that begin so hold, and what they need ("" nothing)."""

    places: frozenset[str]
    needs: str


def cited(family: str, rule: str, clauses: str, where: Where) -> str:
    """The clauses of a line that hold there; afloat, where none does, the marine standard for what
    the rule tells; else that it is practice. Of a family without such a table all."""
    folder = _FOLDERS.get(family)
    if folder is None or not clauses:
        return clauses
    fitting = [each for each in _MORE.split(clauses) if holds(family, each, where)]
    if fitting:
        return ", ".join(fitting)
    return _afloat(folder).get(rule, PRACTICE) if where.place == "boat" else PRACTICE


def holds(family: str, clause: str, where: Where) -> bool:
    """Whether a clause holds there; one that no row begins does everywhere."""
    scopes = _scopes(_FOLDERS[family])
    known = [prefix for prefix in scopes if _begins(clause, prefix)]
    if not known:
        return True
    scope = scopes[max(known, key=len)]
    return where.place in scope.places and (not scope.needs or scope.needs in where.has)


def _begins(clause: str, prefix: str) -> bool:
    """Whole numbers only: 240.6 is no beginning of 240.60."""
    rest = clause.removeprefix(prefix)
    return clause.startswith(prefix) and not rest[:1].isdigit()


@cache
def _scopes(folder: str) -> dict[str, _Scope]:
    return {
        row["begins"]: _Scope(frozenset(row["places"].split()), row["needs"])
        for row in rows(f"{folder}/clause_places")
    }


@cache
def _afloat(folder: str) -> dict[str, str]:
    name = f"{folder}/clauses_afloat"
    if not exists(f"tables/{name}.csv"):
        return {}
    return {rule: row["clause"] for rule, row in by(name, "rule").items()}
