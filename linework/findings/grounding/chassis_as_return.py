"""The metal of a vehicle as the return conductor of an inverter.

What is checked
    In every state: each inverter in a vehicle whose direct current comes back to
    its battery only through the metal of a chassis or frame.
Why it matters
    It takes its greatest current at the lowest voltage of the battery. Sheet
    metal, bolts and spot welds in its way are not made for that: they get warm,
    rust, and take voltage away, and a joint that opens leaves the current to
    brake lines, hitches and shields of cables.
How to cure it
    A minus lead of its own back to the battery, as thick as the plus; the chassis
    joined to minus at one point.
Limits
    Lamps and other small loads may come back by the chassis of a land vehicle.
    A hull is judged by a rule of its own.
Sources
    Makers' manuals of inverters, from memory; NFPA 70 (2023) 552.10(B) lets a chassis be the
    return path of low voltage.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.grounding._by_metal import only_by_metal, past_ties, runs_at, ties_of
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.loads.at_rating import AtRating, at_rating
from linework.words import N_

MESSAGE = N_(
    "The current of {inverter}, up to {amps} A, comes back through the metal of {body}, by {where}:"
    " joints in it get warm and take voltage away. Run a minus lead back to the battery, as thick"
    " as the plus."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each inverter."""
    bodies = [
        part for part in view.parts_that(lambda kind: kind.body) if not view.place_of(part).afloat
    ]
    for look in view.settled_looks if bodies else ():
        situation = look.studies.situation
        ties = ties_of(situation, bodies)
        label = past_ties(situation, ties)
        for each in at_rating(situation):
            runs = runs_at(situation, ties, each.load, label)
            if runs and only_by_metal(situation, each.load, label):
                yield _hit(view, look, each, runs, bodies)


def _hit(view: View, look: Look, each: AtRating, runs: list[str], bodies: list[str]) -> Hit:
    return look.hit(
        Level.WARNING,
        (each.load.owner, *runs),
        MESSAGE,
        {
            "inverter": view.name(each.load.owner),
            "amps": f"{each.amps:.3g}",
            "body": view.names(bodies),
            "where": view.names(runs),
        },
        (Evidence(N_("current in the metal"), each.amps, "current"),),
        touches=frozenset(bodies),
    )


RULE = Rule(
    "chassis-as-return",
    N_("Chassis as return of an inverter"),
    check,
    {"NA": "maker", "INT": "maker"},
)
