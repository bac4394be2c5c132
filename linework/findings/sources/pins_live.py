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
    Direct current below the voltage that may be touched for good hurts nobody:
    what it can burn is a note.
Sources
    NFPA 70 (2023) 406.7(B); IEC 60364-7-721.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.study.slack import within
from linework.study.wires.ratings import rules_of
from linework.words import N_

MESSAGE = N_("The bare pins of {where} are live from {source}.")


LOW = N_(
    "On the bare pins of {where} lie {volts} V of {source}. That hurts nobody, but metal across"
    " them shorts it: keep a cap on them."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each set of pins."""
    for look in view.looks:
        for pins in look.studies.energised.live_pins:
            sources = [s.data for s in look.studies.circuit.sources if s.owner in pins.sources]
            volts = max(source.volts for source in sources)
            harmless = all(s.hertz == 0.0 for s in sources) and within(volts, _touched_v(view))
            yield look.hit(
                Level.NOTE if harmless else Level.DANGER,
                (pins.owner,),
                LOW if harmless else MESSAGE,
                {
                    "where": view.name(pins.owner),
                    "source": ", ".join(view.name(o) for o in pins.sources),
                    "volts": f"{volts:.3g}",
                },
                (Evidence(N_("voltage on the pins"), volts, "voltage"),),
                touches=frozenset(pins.sources),
            )


def _touched_v(view: View) -> float:
    """Direct voltage that may be touched for good; wet, as plugs lie outdoors."""
    return rules_of(view.design).touch_limit_v(dc=True, wet=True).value


RULE = Rule(
    "pins-live",
    N_("Bare pins are live"),
    check,
    {"NA": "406.7(B)", "INT": "7-721"},
)
