"""How flexible cords are used.

What is checked
    Whether a flexible cord, a plug or a cord set is drawn; and which of them turns
    most into heat with the drawn loads on.
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

from linework.codes import stated
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.study.answers.trust import loaded_or_none
from linework.study.loads.cords import cord_watts
from linework.words import N_

MESSAGE = N_(
    "Cords ({where}): uncoil them, keep them dry and out of doorways, look them over before each"
    " use, and do not join one to another in the wet. They are no fixed wiring."
)
HOT = N_(
    "Cords ({where}): uncoil them, keep them dry and out of doorways, look them over before each"
    " use, and do not join one to another in the wet. They are no fixed wiring. The drawn loads"
    " turn {watts} W into heat in {cord}: laid out it sheds them, on its reel or in a coil it does"
    " not, and melts."
)


def check(view: View) -> Iterator[Outcome]:
    """One note, at the first cord."""
    cords = [r.id for r in view.design.runs if view.run_values(r.id).pick("installation") == "cord"]
    cords += view.parts_that(lambda kind: kind.cord)
    if cords:
        cords.sort(key=view.order)
        watts, hottest = _hottest(view, cords)
        hot = watts >= stated("common", "cord_heat").value
        heat = (Evidence(N_("heat along it"), watts, "power"),) if hot else ()
        yield Hit(
            Level.NOTE,
            (cords[0],),
            HOT if hot else MESSAGE,
            {
                "where": ", ".join(map(view.name, cords)),
                "watts": f"{watts:.0f}",
                "cord": view.name(hottest),
            },
            (Evidence(N_("cords"), float(len(cords)), "count"), *heat),
        )


def _hottest(view: View, cords: list[str]) -> tuple[float, str]:
    """The cord that turns most into heat in any state, and how much, in watt."""
    most = (0.0, cords[0])
    for look in view.settled_looks:
        if loaded_or_none(look.studies) is not None:
            watts = cord_watts(look.studies.situation, look.studies.loaded, cords)
            most = max(most, *((heat, cord) for cord, heat in watts.items()))
    return most


RULE = Rule(
    "cord-use",
    N_("Use of cords"),
    check,
    {"NA": "400.10, 400.12", "INT": "practice"},
    always_printed=True,
)
