"""Voltage lost on the way to a load.

What is checked
    In every state, with the drawn loads on: the voltage at each load against
    that of its source, against 3 and 5 % (advice), 10 %, and the band in which
    the load works.
Why it matters
    Motors overheat, lamps dim, electronics switch off.
How to cure it
    A thicker or shorter cable, or a higher system voltage.
Limits
    3 % and 5 % are advice in North America, not a rule. Conductors are taken at
    75 C; lengths are one way, the way back is counted.
Sources
    NFPA 70 (2023) 210.19, 215.2 (informational notes); IEC 60364-5-52 525.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import Load
from linework.findings.model import Evidence, Hit, Level, Outcome, Rule
from linework.findings.view import Look, View
from linework.study.paths import way
from linework.words import N_

ADVICE = N_("{where} loses {percent} % on the way ({volts} V of {source} V); advice is {limit} %.")
BELOW = N_("{where} gets {volts} V and works from {least} V on: the cable loses {percent} %.")
MUCH = N_("{where} loses {percent} % on the way: {volts} V of {source} V.")

_TOTAL, _MUCH = 5.0, 10.0


def check(view: View) -> Iterator[Outcome]:
    """One hit for each load."""
    for look in view.settled_looks:
        if look.studies.loaded.solved:
            for index in look.studies.energised.fed:
                yield from _load(view, look, index)


def _load(view: View, look: Look, index: int) -> Iterator[Hit]:
    load = look.studies.circuit.loads[index]
    if load.data.name != "load":
        return
    source = _source_v(look, load)
    volts = look.studies.loaded.load_v.get(index, 0.0)
    if source <= 0.0 or not _known(look, load):
        return
    percent = 100.0 * (1.0 - volts / source)
    least = load.data.works_v[0]
    if volts < least <= source:
        yield _hit(view, look, load, Level.WARNING, BELOW, volts, source, percent)
    elif percent > _MUCH:
        yield _hit(view, look, load, Level.WARNING, MUCH, volts, source, percent)
    elif percent > _TOTAL:
        yield _hit(view, look, load, Level.NOTE, ADVICE, volts, source, percent)


def _source_v(look: Look, load: Load) -> float:
    """Voltage between the ends of the load at its source, all legs counted."""
    situation, sources = look.studies.situation, look.studies.circuit.sources
    total = 0.0
    for node in (load.a, load.b):
        volts = [
            sources[s.source].data.volts
            for s in situation.feeds(node)
            if sources[s.source].data.group != "charger"
        ]
        total += min(volts, default=0.0)
    return total


def _known(look: Look, load: Load) -> bool:
    """Whether every conductor on the way has its size and length."""
    situation = look.studies.situation
    for node in (load.a, load.b):
        for system in situation.feeds(node):
            steps = way(situation, situation.circuit.sources[system.source].plus, node) or []
            if not all(situation.circuit.branches[i].known for i in steps):
                return False
    return True


def _hit(
    view: View,
    look: Look,
    load: Load,
    level: Level,
    message: str,
    volts: float,
    source: float,
    percent: float,
) -> Hit:
    return Hit(
        level,
        (load.owner,),
        message,
        {
            "where": view.name(load.owner),
            "percent": f"{percent:.1f}",
            "volts": f"{volts:.1f}",
            "source": f"{source:g}",
            "least": f"{load.data.works_v[0]:.4g}",
            "limit": f"{_TOTAL:g}",
        },
        (
            Evidence(N_("voltage drop"), percent / 100.0, "ratio"),
            Evidence(N_("voltage at it"), volts, "voltage"),
            Evidence(N_("voltage of the source"), source, "voltage"),
        ),
        look.state,
        look.case,
    )


RULE = Rule(
    "voltage-drop-high",
    N_("Voltage drop high"),
    check,
    {"NA": "210.19, 215.2 (informational)", "INT": "525"},
    causes=("voltage-wrong",),
)
