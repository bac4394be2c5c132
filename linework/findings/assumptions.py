"""Every default that stands in for an answer that was not given."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.data import Confidence
from linework.design import Design, Run
from linework.design.names import natural, run_name
from linework.kinds import RUN_RATINGS, Answer, Band, Choice, OneOf, Rating, Values
from linework.quantity import in_signs
from linework.study.neutral.ashore import loose_leads
from linework.words import say


@dataclass(frozen=True)
class Assumed:
    """One default in use: designations, rating, value as shown, where it comes from, how sure.

    ``subjects`` are ids: one part, or all runs for which the same is assumed. ``key``: of the
    rating that an answer would be given to; "" where no answer on a card settles it.
    """

    where: str
    subjects: tuple[str, ...]
    rating: str
    value: str
    source: str
    confidence: Confidence
    key: str = ""


def assumed_values(design: Design) -> Iterator[Assumed]:
    """The defaults in use, by designation. Quiet ones ("none fitted") assume nothing."""
    leads = loose_leads(design)
    for part in sorted(design.parts, key=lambda item: natural(item.designation)):
        values, told = design.values(part), _NOWHERE if part.id in leads else frozenset()
        missing = [
            r for r in design.kind(part).ratings if r.key not in told and values.assumes(r.key)
        ]
        yield from _lines(design, part.designation, (part.id,), values, missing)
    groups: dict[tuple[str, ...], list[Run]] = {}
    for run in design.runs:
        values = design.run_values(run)
        bare = _CARRYING if values.pick("installation") == "jumper" else frozenset()
        keys = tuple(key for key in RUN_RATINGS if key not in bare and values.assumes(key))
        groups.setdefault(keys, []).append(run)
    for keys, runs in groups.items():
        names = sorted(
            ((run_name(design, run.id), run.id) for run in runs), key=lambda n: natural(n[0])
        )
        where, ids = ", ".join(n for n, _ in names), tuple(i for _, i in names)
        missing = [RUN_RATINGS[key] for key in keys]
        yield from _lines(design, where, ids, design.run_values(runs[0]), missing)


_NOWHERE = frozenset({"area"})
"""What is not asked of the outlet at a cord's end, which lies where it is used."""

_CARRYING = frozenset({"insulation", "ambient"})
"""What decides how much current a run carries: nothing is asked of this in a bonding jumper."""


def _lines(
    design: Design,
    where: str,
    subjects: tuple[str, ...],
    values: Values,
    missing: list[Rating],
) -> Iterator[Assumed]:
    family = design.settings.family
    for rating in missing:
        yield Assumed(
            where,
            subjects,
            say(rating.label, family=family),
            answer_text(rating.choices, values.answer(rating.key), family),
            say(rating.source.text, family=family),
            rating.source.confidence,
            rating.key,
        )


def answer_text(choices: tuple[Choice, ...], answer: Answer | None, family: str) -> str:
    """An answer as a person reads it: a text, three figures, or possibilities."""
    words = {c.value: say(c.label, family=family) for c in choices}
    if isinstance(answer, Band):
        return " / ".join(map(in_signs, (answer.low, answer.usual, answer.high)))
    if isinstance(answer, OneOf):
        options = " / ".join(words.get(option, option) for option in answer.options)
        return say("not known: {options}", options=options)
    return words.get(str(answer), in_signs(str(answer)))
