"""Ratings in words, for schedules and bills: what was not given and is assumed, in brackets."""

from __future__ import annotations

from collections.abc import Container

from linework.findings.assumptions import answer_text
from linework.handover.standing_in import stands_in
from linework.kinds import Kind, Rating, Values
from linework.words import say


def rating_text(kind: Kind, values: Values, key: str, family: str) -> str:
    """One rating with its label; empty where it means nothing here or none is fitted."""
    shown = value_text(kind.declared[key], values, family)
    label = say(kind.declared[key].label, family=family).rstrip("?")
    return f"{label}: {shown}" if shown else ""


def value_text(rating: Rating, values: Values, family: str) -> str:
    """The answer alone, by the words of the standard that names it; empty where it means nothing
    here, none is fitted, or nobody said more than the ordinary "no"."""
    answer = values.answer(rating.key)
    ordinary = rating.quiet and not values.given(rating.key) and answer == "no"
    if not values.applies(rating.key) or ordinary or answer in (None, "none", ""):
        return ""
    value = answer_text(rating.choices, answer, family)
    standard = next((c.standard for c in rating.choices if c.value == answer), "")
    value = f"{value} ({standard})" if standard else value
    return f"[{value}]" if stands_in(values, rating.key) else value


def ratings_text(
    kind: Kind, values: Values, family: str, without: Container[str] = frozenset()
) -> str:
    """All that stands in the kind's schedule, ``without`` what is said elsewhere."""
    keys = (key for key in kind.columns if key not in without)
    told = (rating_text(kind, values, key, family) for key in keys)
    return "; ".join(filter(None, told))


def captions_text(kind: Kind, values: Values, family: str) -> str:
    """The ratings that stand at the symbol, in one line, without their labels."""
    told = (value_text(kind.declared[key], values, family) for key in kind.captions)
    return ", ".join(filter(None, told))
