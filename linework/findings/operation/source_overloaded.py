"""The drawn loads ask for more than a source gives.

What is checked
    In every state, with all drawn loads on: the current of each source, leg by
    leg, against its rated current; that of a supply against its breaker.
Why it matters
    The source trips, sags or overheats; a breaker opens just when it is needed.
How to cure it
    Fewer loads at once, a larger source, or loads moved to another leg.
Limits
    All drawn loads are taken to run together; which of them really do is for
    the user to say. Starting currents are judged elsewhere.
Sources
    NFPA 70 (2023) 445.13, 220; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, Outcome, Rule
from linework.findings.trust import loaded_or_none
from linework.findings.view import Look, View
from linework.study.loaded import Loaded
from linework.words import N_

MESSAGE = N_("{where} would give {amps} A with all drawn loads on; it is rated {rated} A.")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each source winding beyond its rating."""
    for look in view.settled_looks:
        loaded = loaded_or_none(look)
        if loaded is not None:
            yield from _look(view, look, loaded)


def _look(view: View, look: Look, loaded: Loaded) -> Iterator[Hit]:
    circuit = look.studies.circuit
    for index, current in loaded.source_a.items():
        source = circuit.sources[index]
        rated = source.data.rated_a or _breaker_a(look, source.owner)
        if source.data.group in ("charger", "solar") or rated is None:  # neither can give more
            continue
        amps = abs(current)
        if amps > rated * (1.0 + 1e-9):
            yield Hit(
                Level.WARNING,
                (source.owner,),
                MESSAGE,
                {"where": view.name(source.owner), "amps": f"{amps:.1f}", "rated": f"{rated:.1f}"},
                (
                    Evidence(N_("current"), amps, "current"),
                    Evidence(N_("rated"), rated, "current"),
                ),
                look.state,
                look.case,
            )


def _breaker_a(look: Look, owner: str) -> float | None:
    """The breaker of a supply stands for what it gives; a battery has no such limit here."""
    found = [d.data.rating_a for d in look.studies.circuit.devices if d.owner == owner]
    return min(found, default=None)


RULE = Rule(
    "source-overloaded",
    N_("Source overloaded"),
    check,
    {"NA": "445.13, 220", "INT": "551"},
)
