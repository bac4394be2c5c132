"""The refusal of a question that the tables cannot answer."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

from linework.words import say


class CodesError(ValueError):
    """What is not in which table, and what is near it: a rule answers "not checked" with it."""


def not_in_table(what: str, table: str, near: Iterable[str]) -> CodesError:
    """The error for a missing row; ``near`` are the nearest rows there are."""
    rows = ", ".join(near)
    if not rows:
        return CodesError(say("{what} is not in {table}", what=what, table=table))
    return CodesError(
        say(
            "{what} is not in {table}; the nearest rows are {rows}",
            what=what,
            table=table,
            rows=rows,
        )
    )


def closest(word: str, known: Iterable[str]) -> list[str]:
    """Up to five of ``known`` that look like ``word``, else the first five."""
    names = list(known)
    return get_close_matches(word, names, 5, 0.5) or names[:5]


def not_among(what: str, known: Iterable[str]) -> CodesError:
    """The error for a word outside a closed list."""
    names = list(known)
    if len(names) == 1:
        text = say("only {known} is known here, not '{what}'", what=what, known=names[0])
        return CodesError(text)
    return CodesError(say("'{what}' is not among {known}", what=what, known=", ".join(names)))
