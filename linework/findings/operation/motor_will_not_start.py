"""A motor whose start asks more than its source gives.

What is checked
    In every state, with the other drawn loads running: what each motor on
    alternating current asks of its source while it stands, against what an
    electronic set or inverter gives for some seconds, or what the plate of a
    set says; and how far the voltage at the motor falls, sources at their
    weakest and conductors hot. On direct current: whether the voltage at a
    motor whose starting current and lowest voltage are given stays above that.
Why it matters
    The source folds or trips, or the motor hums at its locked-rotor current,
    trips its overload and heats up; contactors and electronics drop out.
How to cure it
    A soft starter, a larger source, fewer loads at the moment of the start;
    where the cable takes the voltage, a thicker one.
Limits
    One motor starts at a time. Where no surge rating is given, an electronic
    source is taken at one and a half times its rating. Some motors start
    nevertheless. A battery counts with the voltage at which a working charger
    holds it. On direct current a motor without these two figures is not
    judged: most only turn slower.
Sources
    Common practice, no source: a fall of 30 % is where contactors drop out
    (from memory); locked-rotor current from the nameplate (NFPA 70 430.7).
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.circuit.model import Load
from linework.circuit.network import NotSolved
from linework.codes import stated
from linework.findings.mending import change_part
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.quantity import read, write
from linework.study.answers.trust import loaded_or_none
from linework.study.loads.drop import Drop, Drops
from linework.study.loads.loaded import Loaded
from linework.study.loads.starting import Start
from linework.study.loads.starting_direct import starting_v
from linework.study.slack import exceeds
from linework.words import N_, say

SURGE = N_(
    "{motor} starts with {start} A; {source} would then give {amps} A with the other drawn loads"
    " on, and for a start it gives {surge} A."
)
ASSUMED = N_(
    "{motor} starts with {start} A; {source} would then give {amps} A with the other drawn loads"
    " on, and for a start it is taken to give {surge} A, [1.5 times its rating]."
)
DIP = N_(
    "When {motor} starts with {start} A, its voltage falls by {dip} % on {source}; beyond {most} %"
    " contactors drop out and it may not come up."
)

CUT_OUT = N_(
    "When {motor} starts with {start} A it gets {volts} V and works from {least} V on; most of what"
    " is lost is lost in {run}."
)

MOST_DIP = 0.30
"""The edge where contactors drop out (common practice, from memory)."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each motor and source."""
    for look in view.settled_looks:
        loaded = loaded_or_none(look.studies)
        if loaded is None:
            continue
        try:
            found = look.studies.starts
        except NotSolved:  # told by "not-analysed"
            continue
        yield from _direct(view, look, loaded)
        for start in found:
            yield from _surge(view, look, start)
            if exceeds(start.dip, MOST_DIP):
                yield _hit(view, look, start, DIP, max(start.asked), start.dip)


def _direct(view: View, look: Look, loaded: Loaded) -> Iterator[Hit]:
    """Motors on direct current that switch off while they start."""
    situation = look.studies.situation
    drops = Drops(situation)
    for index, load in situation.loads:
        values = view.values(load.owner)
        if "least_voltage" not in values.declared or not values.given("least_voltage"):
            continue
        volts, least = starting_v(situation, loaded, index), load.data.works_v[0]
        if volts is None or volts >= least:
            continue
        amps = (load.data.start_a or 0.0) * volts / load.data.volts
        drop = drops.carrying(load.a, load.b, amps)
        if drop is not None and drop.known and drop.source_v >= least:
            yield _cut_out(view, look, load, drop, volts)


def _cut_out(view: View, look: Look, load: Load, drop: Drop, volts: float) -> Hit:
    run, least, start_a = drop.worst_run, load.data.works_v[0], load.data.start_a or 0.0
    lost = drop.source_v - drop.load_v
    words = {
        "motor": view.name(load.owner),
        "run": view.name(run) if run else "-",
        "start": f"{start_a:.3g}",
        "volts": f"{volts:.1f}",
        "least": f"{least:.4g}",
    }
    evidence = (
        Evidence(N_("voltage at it while it starts"), volts, "voltage"),
        Evidence(N_("lost on the way while it starts"), lost, "voltage"),
        Evidence(N_("works from"), least, "voltage"),
    )
    subjects = (load.owner, run) if run else (load.owner,)
    touches = frozenset(drop.runs)
    return look.hit(Level.WARNING, subjects, CUT_OUT, words, evidence, touches=touches)


def _surge(view: View, look: Look, start: Start) -> Iterator[Hit]:
    """The winding that is asked most beyond what it gives."""
    sources = look.studies.circuit.sources
    beyond = {
        index: amps / surge
        for index, amps in start.asked.items()
        if (surge := sources[index].data.surge_a) is not None and exceeds(amps, surge)
    }
    if beyond:
        worst = max(beyond, key=lambda index: beyond[index])
        given = view.values(sources[worst].owner).has("surge")
        yield _hit(view, look, start, SURGE if given else ASSUMED, worst, start.asked[worst])


def _hit(view: View, look: Look, start: Start, message: str, source: int, figure: float) -> Hit:
    circuit = look.studies.circuit
    motor, data = circuit.loads[start.load].owner, circuit.sources[source].data
    owner = circuit.sources[source].owner
    dip = message is DIP
    surge = data.surge_a if data.surge_a is not None else math.nan
    evidence = (
        Evidence(N_("voltage lost at the start"), figure, "ratio")
        if dip
        else Evidence(N_("current of the source at the start"), figure, "current"),
        Evidence(N_("largest fall"), MOST_DIP, "ratio")
        if dip
        else Evidence(N_("given for a start"), surge, "current"),
        Evidence(N_("locked-rotor current"), start.start_a, "current"),
    )
    words = {
        "motor": view.name(motor),
        "source": view.name(owner),
        "start": f"{start.start_a:.3g}",
        "amps": f"{figure:.3g}",
        "surge": f"{surge:.3g}",
        "dip": f"{100.0 * figure:.0f}",
        "most": f"{100.0 * MOST_DIP:.0f}",
    }
    mend = _soft_starter(view, circuit.loads[start.load])
    return look.hit(Level.WARNING, (motor, owner), message, words, evidence, mend=mend)


def _soft_starter(view: View, load: Load) -> Mend | None:
    """One that holds the start to the usual multiple of the running current, where none is."""
    values = view.values(load.owner)
    if "soft_start" not in values.declared or values.given("soft_start"):
        return None
    running = load.data.watts / (load.data.volts * load.data.power_factor)
    held = write(round(stated("common", "soft_start").value * running, 1), "current")
    if not 0.0 < read(held, "current") < (load.data.start_a or 0.0):
        return None
    words = {"what": view.name(load.owner), "held": held}
    title = say("Start {what} by a soft starter that holds it to {held}", **words)
    return change_part(title, load.owner, {"soft_start": held})


RULE = Rule(
    "motor-will-not-start",
    N_("Motor will not start"),
    check,
    {"NA": "practice", "INT": "practice"},
    causes=(
        "batteries-unlike",
        "battery-turned",
        "source-overloaded",
    ),
    hangs_on=("voltage-wrong",),
)
