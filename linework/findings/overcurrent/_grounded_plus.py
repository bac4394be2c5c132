"""Batteries of which metal is joined to the plus: their live conductor is the minus."""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level
from linework.findings.view import Look, View
from linework.study.situation import Situation
from linework.study.ways.banks import grounded_plus
from linework.study.ways.protection import reached
from linework.words import N_

MESSAGE = N_(
    "Metal is joined to the plus of {source}, so that its minus is the live conductor, and no"
    " device lies in that before {loads}. A short of it ends only when something burns."
)


def bare_minus(view: View, look: Look) -> Iterator[Hit]:
    """One hit for each whose minus comes to a load past all devices; the starter of an engine is
    exempt, as on a grounded minus."""
    situation = look.studies.situation
    circuit = situation.circuit
    for index in sorted(grounded_plus(situation)):
        source = circuit.sources[index]
        loads = _loads(situation, source.minus)
        if loads:
            yield look.hit(
                Level.DANGER,
                (source.owner,),
                MESSAGE,
                {"source": view.name(source.owner), "loads": view.names(loads)},
                (Evidence(N_("loads without a device"), float(len(loads)), "count"),),
                touches=loads,
            )


def _loads(situation: Situation, minus: int) -> frozenset[str]:
    bare = reached(situation.wires(), minus, situation.circuit.device_of)
    return frozenset(
        load.owner
        for _, load in situation.loads
        if load.data.hertz == 0.0 and load.data.lasts != "seconds" and load.b in bare
    )
