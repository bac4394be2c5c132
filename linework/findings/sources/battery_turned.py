"""A battery that is turned round.

What is checked
    In every state: each battery whose posts lie the other way round than those
    of a battery beside it, of the next ones in its string, or of several loads.
Why it matters
    Beside another both drive all they have through each other and burst; in a
    string they cancel, and what is in between gets a wrong voltage.
How to cure it
    Turn it round, with all switches open and the fuse out.
Limits
    Where nothing tells which of two it is, both are named. A single load that
    is wired the wrong way round is polarity-reversed.
Sources
    Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.ways.banks import Turned, on_banks, turned
from linework.words import N_

ROUND = N_(
    "{battery} is turned round: its minus lies where the plus belongs. Do not close a switch before"
    " it is right."
)
RING = N_(
    "{battery} is turned round beside another battery: each drives all it has through the other."
    " Fuses blow at the best; without them cables burn and batteries burst."
)
ONE_OF = N_("{battery}: one of them is turned round, so that their voltages cancel.")
ONE_IN_RING = N_(
    "{battery}: one of them is turned round, so that each drives all it has through the other."
    " Fuses blow at the best; without them cables burn and batteries burst."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each battery, or for two of which one is turned round."""
    found = [(look, each) for look in view.settled_looks for each in turned(look.studies.situation)]
    sure = {owner for look, each in found if each.sure for owner in _owners(look, each)}
    for look, each in found:
        here = sure & on_banks(look.studies.situation)
        if each.sure or not here:
            yield _hit(view, look, each)
        elif which := tuple(i for i in each.cells if _owner(look, i) in here):
            yield _hit(view, look, replace(each, cells=which))


def _owner(look: Look, source: int) -> str:
    return look.studies.circuit.sources[source].owner


def _owners(look: Look, each: Turned) -> set[str]:
    return {_owner(look, i) for i in each.cells}


def _hit(view: View, look: Look, each: Turned) -> Hit:
    sources = look.studies.circuit.sources
    owners = tuple(sorted(_owners(look, each), key=view.order))
    messages = (RING, ONE_IN_RING) if each.ring else (ROUND, ONE_OF)
    volts = max(sources[i].data.volts for i in each.cells)
    return look.hit(
        Level.DANGER,
        owners,
        messages[len(owners) > 1],
        {"battery": view.names(owners)},
        (Evidence(N_("voltage of the battery"), volts, "voltage"),),
        touches=on_banks(look.studies.situation),
    )


RULE = Rule(
    "battery-turned",
    N_("Battery turned round"),
    check,
    {"NA": "practice", "INT": "practice"},
    hangs_on=("polarity-reversed",),
)
