"""What there is in the guide, in its order, and each page by its key."""

from __future__ import annotations

from dataclasses import dataclass

from linework.guide import beginning, method, terms
from linework.guide.kinds import FOLDER as KINDS
from linework.guide.kinds import RUN, RUN_TITLE, kind_page, run_page
from linework.guide.model import Page
from linework.guide.rules import FOLDER as RULES
from linework.guide.rules import GROUPS, grouped, rule_page
from linework.kinds import STRIP, is_known, kinds
from linework.words import say

FIRST = beginning.KEY


@dataclass(frozen=True)
class Entry:
    """One page by its key and title."""

    key: str
    title: str


@dataclass(frozen=True)
class Chapter:
    """Pages that belong together."""

    title: str
    entries: tuple[Entry, ...]


def chapters(family: str) -> tuple[Chapter, ...]:
    """The contents."""
    first = (
        Entry(beginning.KEY, say(beginning.TITLE)),
        Entry(terms.KEY, say(terms.TITLE)),
        Entry(method.KEY, say(method.TITLE)),
    )
    parts = [
        Entry(KINDS + kind.key, _capital(say(kind.name, family=family)))
        for place in STRIP
        for kind in kinds().values()
        if kind.strip == place
    ]
    parts.append(Entry(KINDS + RUN, say(RUN_TITLE)))
    found = [Chapter(say("How to"), first), Chapter(say("Parts"), tuple(parts))]
    return (*found, *_rules(family))


def _rules(family: str) -> list[Chapter]:
    # Late: rules bring the solver's libraries along, for which the window must not wait.
    from linework.findings.registry import rules

    found = []
    for folder, ids in grouped().items():
        titled = [Entry(RULES + rule, say(rules()[rule].title, family=family)) for rule in ids]
        entries = tuple(sorted(titled, key=lambda each: each.title))
        found.append(Chapter(say(GROUPS[folder], family=family), entries))
    return found


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def page(key: str, family: str) -> Page:
    """The page with this key. LookupError if there is none."""
    if key == beginning.KEY:
        return beginning.beginning_page(family)
    if key == terms.KEY:
        return terms.terms_page(family)
    if key == method.KEY:
        return method.method_page()
    folder, _, name = key.partition("/")
    if folder + "/" == RULES and name in {rule for ids in grouped().values() for rule in ids}:
        return rule_page(name, family)
    if folder + "/" == KINDS and name == RUN:
        return run_page(family)
    if folder + "/" == KINDS and is_known(name):
        return kind_page(name, family)
    raise LookupError(f"There is no page {key!r} in the guide.")
