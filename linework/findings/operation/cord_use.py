"""How flexible cords are used.

What is checked
    Whether a flexible cord, a plug or a cord set is drawn.
Why it matters
    A coiled cord overheats at its own rating; a cut in its jacket shows first
    when somebody kneels on it in the wet.
How to cure it
    Lay it out whole, dry and seen; look it over before each use; never make it
    do for fixed wiring.
Limits
    How a cord is handled no drawing shows. This caution is never accepted away.
Sources
    NFPA 70 (2023) 400.10, 400.12; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.words import N_

MESSAGE = N_(
    "Cords ({where}): uncoil them, keep them dry and out of doorways, look them over before each"
    " use, and do not join one to another in the wet. They are no fixed wiring."
)


def check(view: View) -> Iterator[Outcome]:
    """One note, at the first cord."""
    cords = [r.id for r in view.design.runs if view.run_values(r.id).pick("installation") == "cord"]
    cords += view.parts_that(lambda kind: kind.cord)
    if cords:
        cords.sort(key=view.name)
        yield Hit(
            Level.NOTE,
            (cords[0],),
            MESSAGE,
            {"where": ", ".join(map(view.name, cords))},
            (Evidence(N_("cords"), float(len(cords)), "count"),),
        )


RULE = Rule(
    "cord-use",
    N_("Use of cords"),
    check,
    {"NA": "400.10, 400.12", "INT": "practice"},
    always_printed=True,
)
