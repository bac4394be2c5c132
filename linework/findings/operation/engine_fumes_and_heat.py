"""An engine: carbon monoxide, heat, fuel.

What is checked
    Whether a generator is drawn, and where it stands.
Why it matters
    Carbon monoxide has no smell and kills within minutes in a closed space.
How to cure it
    Outdoors, away from openings; in a vehicle only in a compartment that is
    sealed from the inside and made for it, with its exhaust led out; alarms
    where people sleep.
Limits
    A drawing cannot show ventilation. This caution is never accepted away.
Sources
    NFPA 70 (2023) 445, 551.30; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.words import N_

OUTDOORS = N_(
    "{where} gives off carbon monoxide and heat: run it outdoors, away from doors, windows and"
    " vents, and fit an alarm where people sleep."
)
INSIDE = N_(
    "{where} stands in a compartment: it must be sealed from the inside and made for it, its"
    " exhaust led out clear of openings, its heat led away; fit an alarm where people sleep."
)


def check(view: View) -> Iterator[Outcome]:
    """One note for each generator."""
    for part in view.parts_that(lambda kind: kind.source.driven):
        values = view.values(part)
        inside = "indoors" in values.declared and values.pick("indoors") == "compartment"
        yield Hit(
            Level.NOTE,
            (part,),
            INSIDE if inside else OUTDOORS,
            {"where": view.name(part)},
            (Evidence(N_("gives off"), None, "text", "CO"),),
        )


RULE = Rule(
    "engine-fumes-and-heat",
    N_("Engine: fumes and heat"),
    check,
    {"NA": "445, 551.30", "INT": "551"},
    always_printed=True,
)
