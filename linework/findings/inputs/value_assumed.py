"""Defaults that stand in for answers.

What is checked
    Every rating that was not given and has a default that could change a verdict.
Why it matters
    A verdict is as good as the values it rests on.
How to cure it
    Read the nameplate or the manual and give the value.
Limits
    At most one line a part; runs of which the same is assumed share one. The
    drawing shows the value in brackets.
Sources
    Each default names its own.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.assumptions import Assumed
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.words import N_, begun_small

MESSAGE = N_("{where}: assumed {values}.")


def check(view: View) -> Iterator[Outcome]:
    """One note for each part, and one for all runs of which the same is assumed."""
    groups: dict[tuple[str, ...], list[Assumed]] = {}
    for item in view.assumed:
        groups.setdefault(item.subjects, []).append(item)
    for subjects, items in groups.items():
        yield Hit(
            Level.NOTE,
            subjects,
            MESSAGE,
            {
                "where": items[0].where,
                "values": ", ".join(f"{begun_small(i.rating)} [{i.value}]" for i in items),
            },
            (Evidence(N_("values assumed"), float(len(items)), "count"),),
        )


RULE = Rule(
    "value-assumed",
    N_("Values assumed"),
    check,
    {"NA": "", "INT": ""},  # nothing is cited for what is only assumed
    as_given=True,
)
