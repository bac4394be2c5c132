"""Every kind as it may be rated: by default, with what it needs, with each of its choices."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from linework.kinds import Answer, Kind, Rating, Ratings, Values
from linework.quantity import KINDS, write

SETTING = {
    "voltage": "120 V",
    "frequency": "60 Hz",
    "family": "NA",
    "place": "vehicle",
    "outage": "no",
}
"""What a design with nothing changed tells its parts."""


@dataclass(frozen=True)
class Rated:
    """A kind with answers; ``name`` says which, for a failing test to show."""

    kind: Kind
    name: str
    values: Values


def rated(kind: Kind, **answers: Answer) -> Values:
    """The values of a part of a kind with these answers, each of which must fit."""
    for key, answer in answers.items():
        kind.declared[key].check(answer)
    return kind.values(Ratings.of(answers), None, SETTING)


def every_case(kind: Kind) -> Iterator[Rated]:
    """No answers; only what is needed; every pair of choices beside that; everything given."""
    yield Rated(kind, "nothing", rated(kind))
    needed = {r.key: sample(r) for r in kind.ratings if r.needed}
    yield Rated(kind, "needed", rated(kind, **needed))
    choices = [r for r in kind.ratings if r.choices]
    for one, other in product(choices, choices):
        for a, b in product(one.choices, other.choices):
            chosen = {**needed, one.key: a.value, other.key: b.value}
            yield Rated(kind, f"{one.key}={a.value} {other.key}={b.value}", rated(kind, **chosen))
    filled = {r.key: sample(r) for r in kind.ratings if not r.choices}
    for choice in choices:
        for option in choice.choices:
            name = f"all, {choice.key}={option.value}"
            yield Rated(kind, name, rated(kind, **filled, **{choice.key: option.value}))


def sample(rating: Rating) -> str:
    """Some answer that fits."""
    if rating.quantity in KINDS:
        least = rating.low if rating.low is not None else 1.0
        for text in (KINDS[rating.quantity].example, write(least, rating.quantity)):
            try:
                rating.check(text)
            except ValueError:
                continue
            return text
    samples = {"size": "12 AWG", "configuration": "5-15", "text": "words"}
    return samples[rating.quantity]
