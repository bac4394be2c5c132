"""Every page of the guide is there, leads on, and says what is so."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest
from PySide6.QtWidgets import QPushButton

from linework import data
from linework.bench.file.startcard import StartCard
from linework.bench.frame.actions import items
from linework.findings.registry import rules
from linework.guide import FIRST, Page, chapters, html_of, page, symbol_picture, terms, terms_in
from linework.guide.beginning import STEPS
from linework.guide.model import Block, Items, Rows, See, Shown, Title
from linework.kinds import kinds
from linework.words import FAMILIES

FAMILY = pytest.mark.parametrize("family", FAMILIES)


def pages(family: str) -> list[Page]:
    return [page(entry.key, family) for chapter in chapters(family) for entry in chapter.entries]


def blocks(family: str, sort: type[Block]) -> list[Block]:
    return [block for each in pages(family) for block in each.blocks if isinstance(block, sort)]


@FAMILY
def test_each_kind_and_each_rule_has_a_page_and_nothing_has_two(family: str) -> None:
    keys = [each.key for each in pages(family)]
    assert len(keys) == len(set(keys))
    assert {f"part/{key}" for key in kinds()} <= set(keys)
    assert {f"rule/{rule}" for rule in rules()} <= set(keys)
    assert keys[0] == FIRST


@FAMILY
def test_the_contents_call_each_page_as_it_calls_itself(family: str) -> None:
    for chapter in chapters(family):
        for entry in chapter.entries:
            assert page(entry.key, family).title == entry.title


@FAMILY
def test_links_lead_to_pages_and_pictures_are_there(family: str) -> None:
    keys = {each.key for each in pages(family)}
    for block in blocks(family, See):
        assert isinstance(block, See)
        assert {key for key, _ in block.pages} <= keys
    shown = blocks(family, Shown)
    assert len(shown) > len(kinds())
    for block in shown:
        assert isinstance(block, Shown)
        if block.symbol:
            assert symbol_picture(block.name).items
        else:
            assert data.exists(f"guide/{block.name}.png")


@FAMILY
def test_no_page_is_empty_and_no_table_is_ragged(family: str) -> None:
    for each in pages(family):
        text = html_of(each, str, lambda shown: shown.name)
        assert len(re.sub(r"<[^>]*>", "", text)) > 150, each.key
    for block in blocks(family, Rows):
        assert isinstance(block, Rows)
        assert {len(row) for row in block.rows} == {len(block.heads)}


def test_a_rule_says_what_why_how_and_where_it_ends() -> None:
    for rule in rules():
        titles = [b.text for b in page(f"rule/{rule}", "NA").blocks if isinstance(b, Title)]
        assert titles[:3] == ["What is checked", "Why it matters", "How to cure it"], rule
        assert "Limits" in titles, rule


class Balanced(HTMLParser):
    """Counts elements that are open."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attrs: object) -> None:
        if tag not in ("img", "br"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def test_what_is_written_is_no_markup() -> None:
    made = Page("x", "a < b & c", (Items(("<b>bold</b>",)), Rows(("<i>",), (("&lt;",),))))
    text = html_of(made, str, lambda shown: shown.name)
    assert "a &lt; b &amp; c" in text
    assert "<b>" not in text
    reader = Balanced()
    reader.feed(text)
    assert reader.open == []


def test_an_unknown_page_is_refused() -> None:
    for key in ("rule/none", "part/none", "nothing", ""):
        with pytest.raises(LookupError):
            page(key, "NA")


# words


@FAMILY
def test_words_are_found_in_a_text_the_longer_before_the_shorter(family: str) -> None:
    text = "A floating source, and a voltage drop on the continuous loads."
    assert [t.name for t in terms_in(text, family)] == [
        "floating source",
        "voltage drop",
        "continuous load",
    ]
    assert not terms_in("Nothing of the kind.", family)


def test_a_word_is_said_as_the_family_says_it() -> None:
    assert terms_in("Each GFCI opens.", "NA")
    assert terms_in("Each RCD opens.", "INT")
    assert not terms_in("Each RCD opens.", "NA")


@FAMILY
def test_each_word_stands_once_with_its_source(family: str) -> None:
    names = [term.name for term in terms(family)]
    assert len(names) == len(set(names)) > 35
    assert all(term.source and len(term.text) > 30 for term in terms(family))


# the example says what the window says


def test_what_the_example_tells_to_press_is_there(qtbot: object) -> None:
    told = " ".join(text for step in STEPS for text in step.do)
    keys = {key for item in items() for key in item.keys}
    named = re.findall(r"\b(?:F\d+|Ctrl\+\w)\b", told)
    assert named
    assert set(named) <= keys
    start = StartCard(())
    assert "New: a few questions first…" in {b.text() for b in start.findChildren(QPushButton)}
    assert "“New: a few questions first…”" in told
