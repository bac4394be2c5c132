"""Words of the trade as this program uses them, each in a sentence or two."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from linework.guide.model import Page, Rows
from linework.guide.term import Term
from linework.guide.terms_of_parts import OF_PARTS
from linework.guide.terms_of_practice import OF_PRACTICE
from linework.words import N_, say

KEY = "words"
TITLE = N_("Words of the trade")
_HEADS = (N_("Word"), N_("What is meant"), N_("Source"))
_ENDS = r"(?:s|es)?"


@cache
def terms(family: str) -> tuple[Term, ...]:
    """All of them in a family's words, by their names."""
    said = (each.said(family) for each in (*OF_PARTS, *OF_PRACTICE))
    return tuple(sorted(said, key=lambda term: term.name.casefold()))


def terms_in(text: str, family: str) -> Sequence[Term]:
    """Those that a text uses, in the order in which it does; the longer where one holds another."""
    found: dict[str, Term] = {}
    for match in _pattern(family).finditer(text):
        term = _by_word(family)[_plain(match.group(1))]
        found.setdefault(term.name, term)
    return tuple(found.values())


@cache
def _by_word(family: str) -> dict[str, Term]:
    return {_plain(word): term for term in terms(family) for word in (term.name, *term.also)}


@cache
def _pattern(family: str) -> re.Pattern[str]:
    words = sorted(_by_word(family), key=len, reverse=True)
    return re.compile(rf"\b({'|'.join(map(re.escape, words))}){_ENDS}\b", re.IGNORECASE)


def _plain(word: str) -> str:
    return word.casefold()


def terms_page(family: str) -> Page:
    """All words in one table."""
    rows = tuple((term.name, term.text, term.source) for term in terms(family))
    heads = tuple(say(head) for head in _HEADS)
    return Page(KEY, say(TITLE), (Rows(heads, rows),))
