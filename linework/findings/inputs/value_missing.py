"""A rating without which a part or run cannot be judged.

What is checked
    Every rating that its kind declares as needed, and size and length of every run.
Why it matters
    What is not known cannot be found sound.
How to cure it
    Give the value on the card; three figures fit where only a band is known.
Limits
    A value that has a default is "assumed", not missing.
Sources
    The declarations of the kinds.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.design.names import natural
from linework.findings.model import NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.kinds import RUN_RATINGS, Rating, Values
from linework.words import N_, say_within

MESSAGE = N_("{what} is not given")


def check(view: View) -> Iterator[Outcome]:
    """One gap for each part or run, naming all that is missing."""
    for part in sorted(view.design.parts, key=lambda p: natural(p.designation)):
        yield from _gap(view, part.id, view.kind(part.id).ratings, view.values(part.id))
    for run in sorted(view.design.runs, key=lambda r: natural(r.designation)):
        yield from _gap(view, run.id, tuple(RUN_RATINGS.values()), view.run_values(run.id))


def _gap(
    view: View, subject: str, ratings: tuple[Rating, ...], values: Values
) -> Iterator[NotChecked]:
    lost = [
        say_within(r.label, family=view.family)
        for r in ratings
        if r.needed and not values.has(r.key)
    ]
    if lost:
        yield NotChecked(MESSAGE, {"what": ", ".join(lost)}, (subject,))


RULE = Rule(
    "value-missing",
    N_("A value is missing"),
    check,
    {"NA": "110.3", "INT": "132"},
)
