"""Every row of every table: provenance is complete and can be looked up."""

from __future__ import annotations

import re

import pytest

from linework.codes import source_titles
from linework.codes.tables import number, rows
from linework.data import Confidence, names, read_text

TABLES = [
    name.removeprefix("tables/").removesuffix(".csv")
    for folder in ("tables/na", "tables/international", "tables/common")
    for name in names(folder)
    if name.endswith(".csv") and not name.endswith("sources.csv")
]


def test_the_folders_hold_tables():
    assert len([name for name in TABLES if name.startswith("na/")]) > 25
    assert len([name for name in TABLES if name.startswith("common/")]) > 8


@pytest.mark.parametrize("name", TABLES)
def test_every_row_has_known_marks_and_a_source(name):
    for row in rows(name):
        assert [
            Confidence(text) for key, text in row.items() if key.startswith("confidence") and text
        ]
        assert row["sources"]


@pytest.mark.parametrize("name", TABLES)
def test_every_source_code_has_a_title(name):
    known = source_titles()
    for row in rows(name):
        for code in re.findall(r"\bS\d+[a-z]?\b", row["sources"]):
            assert code in known, f"{name}: {code}"


@pytest.mark.parametrize("name", TABLES)
def test_every_table_is_named_in_the_list_of_sources(name):
    assert f"`{name.split('/')[1]}`" in read_text("tables/SOURCES.md")


def test_an_empty_cell_is_no_number():
    assert number("") is None
    assert number("0.5") == 0.5
