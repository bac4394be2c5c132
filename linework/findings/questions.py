"""What was assumed, as questions that one answer settles, weightiest first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from linework.design import Design, Part
from linework.findings.assumptions import Assumed
from linework.findings.model import Finding, Level

_ITSELF = "value-assumed"
"""The rule that tells of assumed values: that it does so gives none a weight."""


@dataclass(frozen=True)
class Question:
    """The same rating, assumed alike of some parts or runs.

    ``key``: of the rating; ``subjects``: ids; ``names``: their designations. ``numbers``: of the
    open findings at their places that are more than notes, the gravest first.
    """

    key: str
    label: str
    value: str
    source: str
    subjects: tuple[str, ...]
    names: tuple[str, ...]
    numbers: tuple[int, ...] = ()


def questions(
    design: Design, assumed: Iterable[Assumed], findings: Iterable[Finding]
) -> tuple[Question, ...]:
    """Those that an answer on a card settles: first where dangers stand, then where warnings do, of
    these the one most of which is concerned; then the others, those of many first."""
    grave = [
        f for f in findings if f.open and f.level > Level.NOTE and f.rule != _ITSELF and f.number
    ]
    groups: dict[tuple[str, str, str, str], list[Assumed]] = {}
    for each in assumed:
        if each.key:
            kind = _sort(design, each.subjects[0])
            groups.setdefault((kind, each.key, each.value, each.source), []).append(each)
    made = [_question(design, group, grave) for group in groups.values()]
    order = {id(q): n for n, (q, _) in enumerate(made)}
    made.sort(key=lambda each: (-each[1], -_part(each[0]), order[id(each[0])]))
    return tuple(question for question, _ in made)


def _part(question: Question) -> float:
    """How much of what is asked about stands under a finding; of what does not, how much it is."""
    number = len(question.subjects)
    return len(question.numbers) / number if question.numbers else float(number)


def _sort(design: Design, subject: str) -> str:
    """The kind of a part; one word for all runs."""
    element = design.get(subject)
    return element.kind if isinstance(element, Part) else ""


def _question(design: Design, group: list[Assumed], grave: list[Finding]) -> tuple[Question, Level]:
    first = group[0]
    subjects = tuple(dict.fromkeys(s for each in group for s in each.subjects))
    here = [f for f in grave if not {*subjects}.isdisjoint(f.subjects)]
    here.sort(key=lambda f: (-f.level, f.number or 0))
    names = tuple(name for each in group for name in each.where.split(", "))
    numbers = tuple(f.number for f in here if f.number)
    question = Question(
        first.key, first.rating, first.value, first.source, subjects, names, numbers
    )
    return question, max((f.level for f in here), default=Level.NOTE)
