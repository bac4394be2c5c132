"""Every default that stands in for an answer that was not given."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.design import Design
from linework.kinds import Answer, Band, Choice, OneOf
from linework.words import say


@dataclass(frozen=True)
class Assumed:
    """One default in use: designation, part id, rating, value as shown, where it comes from."""

    where: str
    subject: str
    rating: str
    value: str
    source: str


def assumed_values(design: Design) -> Iterator[Assumed]:
    """The defaults in use, by designation. Quiet ones ("none fitted") assume nothing."""
    family = design.settings.family
    for part in sorted(design.parts, key=lambda item: item.designation):
        values = design.values(part)
        for rating in design.kind(part).ratings:
            answered = values.given(rating.key) or rating.quiet
            if answered or not values.applies(rating.key) or not values.has(rating.key):
                continue
            yield Assumed(
                part.designation,
                part.id,
                say(rating.label, family=family),
                answer_text(rating.choices, values.answer(rating.key), family),
                say(rating.source, family=family),
            )


def answer_text(choices: tuple[Choice, ...], answer: Answer | None, family: str) -> str:
    """An answer as a person reads it: a text, three figures, or possibilities."""
    words = {c.value: say(c.label, family=family) for c in choices}
    if isinstance(answer, Band):
        return f"{answer.low} / {answer.usual} / {answer.high}"
    if isinstance(answer, OneOf):
        return say("not known: {options}", options=" / ".join(words.get(o, o) for o in answer.options))
    return words.get(str(answer), str(answer))
