"""Surges from a line, an array or a mast.

What is checked
    Whether a building or field station hangs on a supply or has solar modules
    outside, and no surge protective device is drawn on their conductors.
Why it matters
    A stroke a mile away comes in on any long conductor and ends the electronics,
    sometimes the insulation.
How to cure it
    Surge protective devices where conductors come in, on short leads, and all
    metal joined at one place; unplug what can wait.
Limits
    What a device on the conductors lets through is not known. Antennas and
    telephone lines are not drawn. This caution is never accepted away.
Sources
    NFPA 70 (2023) 230.67, 242 (from memory); IEC 60364-4-44 443.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.ways.banks import rows
from linework.words import N_

MESSAGE = N_(
    "Surges come in at {where}: fit surge protective devices there on short leads, join all metal"
    " at one place, and unplug what can wait when it thunders."
)


def check(view: View) -> Iterator[Outcome]:
    """One note, at the first part that leads outside."""
    guarded = {owner for look in view.settled_looks for owner in _guarded(view, look)}
    found = view.parts_that(lambda kind: kind.source.off_site or kind.source.solar)
    ashore = (part for part in found if not view.place_of(part).aboard)
    parts = [part for part in ashore if part not in guarded]
    if parts:
        yield Hit(
            Level.NOTE,
            (parts[0],),
            MESSAGE,
            {"where": ", ".join(map(view.name, parts))},
            (Evidence(N_("ways in"), float(len(parts)), "count"),),
        )


def _guarded(view: View, look: Look) -> Iterator[str]:
    """The sources on whose conductors a surge protective device lies; of arrays in series all."""
    situation, sources = look.studies.situation, look.studies.circuit.sources
    strings = rows(situation)
    for part in view.parts_that(lambda kind: kind.arrests):
        for nodes in situation.circuit.terminals_of.get(part, ()):
            for system in (s for node in nodes.values() for s in situation.feeds(node)):
                yield system.owner
                beside = (s.cells for s in strings if system.source in s.cells)
                yield from (sources[i].owner for cells in beside for i in cells)


RULE = Rule(
    "surge-and-lightning",
    N_("Surges and lightning"),
    check,
    {"NA": "230.67, 242", "INT": "4-44 443"},
    always_printed=True,
    whole=True,
)
