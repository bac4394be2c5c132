"""Every row of every table: provenance is complete and can be looked up."""

from __future__ import annotations

import re

import pytest

from linework.codes import source_titles
from linework.codes.tables import forums, number, rows
from linework.data import Confidence, names, read_text

TABLES = [
    name.removeprefix("tables/").removesuffix(".csv")
    for folder in ("tables/na", "tables/international", "tables/common", "tables/energy")
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
def test_no_row_rests_on_a_page_without_a_name(name):
    assert not [row for row in rows(name) if re.search(r"\bU\b", row["sources"])]


def test_a_forum_is_known_as_one():
    titles = source_titles()
    said = {code for code, title in titles.items() if re.search("forum|thread|chatroom", title)}
    assert said <= forums()
    assert "S120" not in titles  # the page of S37 under another name
    assert titles["S72"].startswith("a recorded talk on testers")


@pytest.mark.parametrize("name", TABLES)
def test_every_table_is_named_in_the_list_of_sources(name):
    assert f"`{name.split('/')[1]}`" in read_text("tables/SOURCES.md")


def test_an_empty_cell_is_no_number():
    assert number("") is None
    assert number("0.5") == 0.5
