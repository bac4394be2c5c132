"""The rows of the tables in resources/tables, read once."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from linework.data import Confidence, read_csv

Row = Mapping[str, str]


@cache
def rows(name: str) -> tuple[Row, ...]:
    """The rows of ``resources/tables/<name>.csv``; ResourceError if it is missing or damaged."""
    return tuple(MappingProxyType(row) for row in read_csv(f"tables/{name}.csv"))


@cache
def by(name: str, key: str) -> Mapping[str, Row]:
    """The rows of a table by one column, whose texts must differ."""
    found = {row[key]: row for row in rows(name)}
    if len(found) != len(rows(name)):
        raise ValueError(f"table {name}: column {key} names a row twice")
    return MappingProxyType(found)


def number(text: str) -> float | None:
    """The figure in a cell, None where it is empty."""
    return float(text) if text else None


def confidence_of(row: Row, column: str = "confidence") -> Confidence:
    """How sure a row is by its mark; ValueError for a mark that is none."""
    return Confidence(row[column])


@cache
def source_titles() -> Mapping[str, str]:
    """Title and address of each source code (``S01`` ...) that the tables name."""
    return MappingProxyType({row["code"]: row["source"] for row in rows("na/sources")})


@cache
def forums() -> frozenset[str]:
    """The codes of the sources that are said in a forum, whose addresses are not printed."""
    return frozenset(row["code"] for row in rows("na/sources") if row["forum"] == "yes")
