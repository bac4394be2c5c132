"""A source on board that can energise the supply.

What is checked
    In every permitted position: whether a generator or inverter reaches the
    terminals of a utility or shore supply.
Why it matters
    During a power cut people work on lines that they believe dead.
How to cure it
    A transfer switch or interlock between supply and source.
Limits
    A supply that is live at the same time is two sources meeting; this
    finding then stands under that one.
Sources
    NFPA 70 (2023) 702.5; IEC 60364-5-551.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.words import N_

MESSAGE = N_("{source} can energise {supply} from behind.")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each supply and source; in the states of their meeting where they meet."""
    meeting = {
        frozenset((m.one.owner, m.other.owner))
        for look in view.looks
        for m in look.studies.energised.meetings
    }
    for look in view.looks:
        now = {frozenset((m.one.owner, m.other.owner)) for m in look.studies.energised.meetings}
        for supply, source in look.studies.energised.backfed:
            pair = frozenset((supply, source))
            if pair in meeting and pair not in now:
                continue
            volts = max(s.data.volts for s in look.studies.circuit.sources if s.owner == source)
            yield look.hit(
                Level.DANGER,
                (supply, source),
                MESSAGE,
                {"source": view.name(source), "supply": view.name(supply)},
                (Evidence(N_("voltage at the supply"), volts, "voltage"),),
            )


RULE = Rule(
    "supply-backfed",
    N_("Supply fed from behind"),
    check,
    {"NA": "702.5", "INT": "5-551"},
    causes=("sources-meet",),
)
