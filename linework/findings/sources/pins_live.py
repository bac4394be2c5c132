"""Bare pins that are live from behind.

What is checked
    In every permitted position: whether the pins of an inlet without a cord,
    or of a plug that is in no outlet, hang on a source's live conductor.
Why it matters
    A hand or a child's fingers on the pins close the circuit.
How to cure it
    Let the lever or relay cut the pins off from every other source; never a
    cord with plugs at both ends.
Limits
    Pins behind a follower are judged in its position of rest and while it moves.
Sources
    NFPA 70 (2023) 406.7(B); IEC 60364-7-721.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.words import N_

MESSAGE = N_("The bare pins of {where} are live from {source}.")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each set of pins."""
    for look in view.looks:
        for pins in look.studies.energised.live_pins:
            sources = [s for s in look.studies.circuit.sources if s.owner in pins.sources]
            yield look.hit(
                Level.DANGER,
                (pins.owner,),
                MESSAGE,
                {
                    "where": view.name(pins.owner),
                    "source": ", ".join(view.name(o) for o in pins.sources),
                },
                (
                    Evidence(
                        N_("voltage on the pins"), max(s.data.volts for s in sources), "voltage"
                    ),
                ),
                touches=frozenset(pins.sources),
            )


RULE = Rule(
    "pins-live",
    N_("Bare pins are live"),
    check,
    {"NA": "406.7(B)", "INT": "7-721"},
)
