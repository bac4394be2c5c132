"""Alarms where people sleep beside an engine, a battery or a flame.

What is checked
    Whether the place is one where people sleep (recreational vehicle, boat,
    building) and a generator or battery is drawn.
Why it matters
    Carbon monoxide and smoke do not wake anybody.
How to cure it
    Alarms for carbon monoxide and smoke, and for gas where there is gas; test
    them, and mind their date.
Limits
    A drawing does not show alarms. This caution is never accepted away.
Sources
    NFPA 1192, ABYC A-24, NFPA 72 (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.words import N_

MESSAGE = N_(
    "People may sleep near {where}: fit alarms for carbon monoxide and smoke, and for gas where"
    " there is gas; test them before each stay."
)


def check(view: View) -> Iterator[Outcome]:
    """One note, at the first generator or battery."""
    engines = view.parts_that(lambda kind: kind.source.driven)
    parts = [*engines, *view.parts_that(lambda kind: kind.source.stores)]
    parts = [part for part in parts if view.place_of(part).slept_in]
    if parts:
        yield Hit(
            Level.NOTE,
            (parts[0],),
            MESSAGE,
            {"where": ", ".join(map(view.name, parts))},
            (Evidence(N_("engines and batteries"), float(len(parts)), "count"),),
        )


RULE = Rule(
    "alarms",
    N_("Alarms"),
    check,
    {"NA": "NFPA 1192, NFPA 72 (from memory)", "INT": "practice"},
    always_printed=True,
)
