"""Voltage lost on the way to a load.

What is checked
    In every state, with the drawn loads on: the voltage at each load against
    that at its source, over all, behind the last overcurrent device and, on
    alternating current, before it; and against the band in which the load works.
    One finding for each run that loses most, with the load that fares worst.
    An outlet into which nothing is plugged is judged at 80 % of its circuit's
    device, alone; the battery side of an inverter at its full rating, alone;
    that of a charge controller at the greatest power of its array.
Why it matters
    Motors overheat, lamps dim, electronics switch off.
How to cure it
    A thicker or shorter cable, or a higher system voltage.
Limits
    On the low-voltage wiring of a boat, 10 % at the rated currents by the
    sizing formula of ABYC E-11, 3 % at a board and where safety depends on the
    load; a starter of an engine anywhere 10 % at its cranking current, alone. Elsewhere
    3 % behind the last device and 5 % in all are advice in North America, not
    a rule; so are 3 % before the last device, of feeders. Conductors are taken at
    75 C; lengths are one way, the way back is counted. A return through other
    runs than the way out counts in the whole, not behind the last device. What a
    source or site loses inside is not counted as drop, but counts against the
    band in which a load works; of a motor on direct current only where its lowest
    voltage is given. Other starting currents are not judged here. Loads fed
    through a run of unknown size or length are not judged; "value missing" names
    the run.
Sources
    NFPA 70 (2023) 210.19, 215.2 (informational notes); IEC 60364-5-52 525;
    ABYC E-11; ISO 13297; 10 % elsewhere, that of a starter, the 3 % of an array
    and the 80 % of an outlet: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import inf

from linework.circuit.model import FaceAt, Load
from linework.codes import CodesError, stated
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.operation._each_run_once import each_run_once
from linework.findings.operation._thicker import Most, thicker
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.trust import loaded_or_none
from linework.study.loads.afloat import carrying_cool, drop_cool, is_afloat
from linework.study.loads.drop import (
    Drop,
    Drops,
    Sunny,
    array_inputs,
    converter_inputs,
    idle_faces,
    sunny_a,
)
from linework.study.loads.loaded import Loaded
from linework.study.loads.potentials import open_volts
from linework.study.situation import Situation
from linework.study.ways.protection import device_at
from linework.study.wires.drop_limits import DropLimits, drop_limits
from linework.wiring import Pole
from linework.words import N_

NO_LIMIT = N_("{fault}")
BELOW = N_(
    "{where} gets {volts} V and works from {least} V on; {total} % is lost on the way, most of it"
    " in {run}."
)
MUCH = N_("{where} loses {total} % on the way, most of it in {run}: {volts} V of {source} V.")
IN_ALL = N_(
    "{where} loses {total} % on the way, most of it in {run}: {volts} V of {source} V. Advice is"
    " {limit} % in all."
)
BRANCH = N_(
    "{where} loses {branch} % behind the last overcurrent device, most of it in {run}: {volts} V of"
    " {source} V. Advice is {limit} %."
)
FEEDER = N_(
    "{where} loses {feeder} % before the last overcurrent device, most of it in {run}: {volts} V of"
    " {source} V. Advice is {limit} %."
)
OUTLET = N_(
    "A load of {amps} A at {where} ({share} % of its circuit) would lose {total} %, most of it in"
    " {run}; {branch} % behind the last overcurrent device. Advice is {most} % there and"
    " {most_in_all} % in all."
)

RATED = N_(
    "{where} takes {amps} A at its full rating and then loses {total} % on the way, most of it in"
    " {run}: {volts} V of {source} V."
)

AFLOAT = N_(
    "{where} loses {total} % of {source} V on the way with all drawn loads on, most of it in {run};"
    " {limit} % is the most for it afloat."
)
SUN = N_(
    "In full sun {amps} A flow to {where} and {total} % is lost on the way, most of it in {run}."
    " Advice is {limit} %."
)
CRANKING = N_(
    "{where} takes {amps} A while it cranks and loses {total} % on the way, most of it in {run}:"
    " {volts} V of {source} V."
)

_SAME_CAUSE = (BELOW, MUCH, IN_ALL, BRANCH, FEEDER, OUTLET)
"""Words on one use of a run, the gravest first; each of the others is a use of its own."""


@dataclass(frozen=True)
class _Word:
    """What is said of a drop: of which run, against which limit, and what may be lost."""

    level: Level
    message: str
    run: str
    limit: float
    most: Most


def check(view: View) -> Iterator[Outcome]:
    """One hit for each run that loses most, the worst that holds of what it feeds."""
    try:
        drop_limits(view.design)
    except CodesError as fault:
        yield NotChecked(NO_LIMIT, {"fault": fault})
        return
    yield from each_run_once(view, list(_hits(view)), _SAME_CAUSE)


def _hits(view: View) -> Iterator[Hit]:
    for look in view.settled_looks:
        loaded = loaded_or_none(look.studies)
        if loaded is None:
            continue
        drops = Drops(look.studies.situation)
        for _, load in look.studies.situation.loads:
            if load.data.own:  # what a converter takes is not a load of its own
                yield from _load(view, look, loaded, load, drops)
        for load, amps in converter_inputs(look.studies.situation):
            yield from _converter(view, look, load, amps, drops)
        for sunny in array_inputs(look.studies.situation):
            yield from _sunny(view, look, drops, sunny)
        yield from _boards_afloat(view, look, drops)
        for face in idle_faces(look.studies.situation):
            yield from _outlet(view, look, face, drops)


def _load(view: View, look: Look, loaded: Loaded, load: Load, drops: Drops) -> Iterator[Hit]:
    if load.data.lasts == "seconds":
        yield from _cranking(view, look, load, drops)
        return
    drop = drops.load(loaded, load)
    if drop is None or not drop.known:
        return
    limits = drop_limits(view.design)
    nominal = max(
        open_volts(look.studies.situation, load.a, load.b, hertz) for hertz in loaded.volts
    )
    most = _advised(limits, load.data.hertz != 0.0)
    ashore = _ashore(drop, limits, most)
    if drop.load_v < load.data.works_v[0] <= nominal and _has_band(view, load):
        word = _Word(Level.WARNING, BELOW, drop.worst_run, limits.total, most)
        yield _hit(view, look, load, drop, word)
    elif is_afloat(view.design, drop):
        yield from _afloat(view, look, load, drops)
    elif ashore is not None:
        yield _hit(view, look, load, drop, ashore)


def _advised(limits: DropLimits, alternating: bool) -> Most:
    """What may be lost on the way to a load; feeders are those of alternating current."""
    return Most(limits.total, limits.branch, limits.feeder if alternating else inf)


def _ashore(drop: Drop, limits: DropLimits, most: Most) -> _Word | None:
    """What is said of a load that works; None within advice."""
    for level, message, runs, share, limit in (
        (Level.WARNING, MUCH, tuple(drop.runs), drop.total_share, limits.much),
        (Level.NOTE, IN_ALL, tuple(drop.runs), drop.total_share, limits.total),
        (Level.NOTE, BRANCH, drop.branch_runs, drop.branch_share, limits.branch),
        (Level.NOTE, FEEDER, drop.feeder_runs, drop.feeder_share, most.feeder),
    ):
        if _beyond(share, limit):
            return _Word(level, message, drop.worst_of(runs), limit, most)
    return None


def _has_band(view: View, load: Load) -> bool:
    """Whether too low a voltage stops a load: motors on direct current just run slower."""
    values = view.values(load.owner)
    slows = view.kind(load.owner).turns and load.data.hertz == 0.0
    return not slows or values.given("least_voltage")


def _afloat(view: View, look: Look, load: Load, drops: Drops) -> Iterator[Hit]:
    values = view.values(load.owner)
    critical = "critical" in values.declared and values.pick("critical") == "yes"
    limit = drop_limits(view.design).afloat(critical)
    drop = drop_cool(view.design, drops, look.studies.demand, load.a, load.b)
    if drop is not None and _beyond(drop.total_share, limit):
        yield _hit(view, look, load, drop, _whole(drop, Level.WARNING, AFLOAT, limit))


def _sunny(view: View, look: Look, drops: Drops, sunny: Sunny) -> Iterator[Hit]:
    """The way from solar arrays to their controller, at their greatest power."""
    situation, load, amps = look.studies.situation, sunny.load, sunny.amps
    wires = situation.circuit.branches

    def lost(i: int) -> float:
        return wires[i].r_hot * sunny_a(situation, sunny, i)

    drop = drops.losing(load.a, load.b, lost)
    if drop is None or not drop.known:
        return
    drop = replace(drop, source_v=sunny.volts, load_v=sunny.volts - (drop.source_v - drop.load_v))
    limits = drop_limits(view.design)
    if _beyond(drop.total_share, limits.branch):
        level = Level.WARNING if _beyond(drop.total_share, limits.much) else Level.NOTE
        hit = _hit(view, look, load, drop, _whole(drop, level, SUN, limits.branch))
        yield replace(hit, values={**hit.values, "amps": f"{amps:.3g}"})


def _boards_afloat(view: View, look: Look, drops: Drops) -> Iterator[Hit]:
    """The mains of direct-current boards: safety depends on them as on what they feed."""
    limits = drop_limits(view.design)
    for (part, terminal), nodes in look.studies.circuit.terminals.items():
        main = terminal == "feed" and view.kind(part).board and Pole.POS in nodes
        if not main or not view.place_of(part).afloat:
            continue
        a, b = nodes[Pole.POS], nodes[Pole.NEG]
        drop = drop_cool(view.design, drops, look.studies.demand, a, b)
        if drop is None or not (drop.known and is_afloat(view.design, drop)):
            continue
        limit = limits.afloat(critical=True)
        if _beyond(drop.total_share, limit):
            word = _whole(drop, Level.WARNING, AFLOAT, limit)
            yield _told(view, look, (part, 0.0), drop, word)


def _cranking(view: View, look: Look, load: Load, drops: Drops) -> Iterator[Hit]:
    """A starter alone, its wires still near the temperature of the air."""
    amps = load.data.start_a or 0.0
    drop = carrying_cool(view.design, drops, load, amps)
    much = drop_limits(view.design).much
    if drop is not None and drop.known and _beyond(drop.total_share, much):
        hit = _hit(view, look, load, drop, _whole(drop, Level.WARNING, CRANKING, much))
        yield replace(hit, values={**hit.values, "amps": f"{amps:.0f}"})


def _converter(view: View, look: Look, load: Load, amps: float, drops: Drops) -> Iterator[Hit]:
    """The cable of an inverter, at its full rating: it switches off before its loads notice."""
    limits = drop_limits(view.design)
    drop, least = drops.carrying(load.a, load.b, amps), limits.total
    if drop is not None and is_afloat(view.design, drop):
        drop = carrying_cool(view.design, drops, load, amps)
        least = limits.afloat(critical=False)
    if drop is None or not drop.known or not _beyond(drop.total_share, least):
        return
    level = Level.WARNING if _beyond(drop.total_share, limits.much) else Level.NOTE
    hit = _hit(view, look, load, drop, _whole(drop, level, RATED, least))
    current = Evidence(N_("current at its full rating"), amps, "current")
    yield replace(
        hit, values={**hit.values, "amps": f"{amps:.0f}"}, evidence=(*hit.evidence, current)
    )


def _whole(drop: Drop, level: Level, message: str, limit: float) -> _Word:
    """A word on the whole way, against one limit."""
    return _Word(level, message, drop.worst_run, limit, Most(limit))


def _hit(view: View, look: Look, load: Load, drop: Drop, word: _Word) -> Hit:
    return _told(view, look, (load.owner, load.data.works_v[0]), drop, word)


def _told(view: View, look: Look, where: tuple[str, float], drop: Drop, word: _Word) -> Hit:
    """``where``: a part, and the least voltage with which it works."""
    owner, least_v = where
    return look.hit(
        word.level,
        (owner, word.run) if word.run else (owner,),
        word.message,
        {
            "where": view.name(owner),
            "run": view.name(word.run) if word.run else "-",
            "total": _percent(drop.total_share),
            "branch": _percent(drop.branch_share),
            "feeder": _percent(drop.feeder_share),
            "volts": f"{drop.load_v:.1f}",
            "source": f"{drop.source_v:.1f}",
            "least": f"{least_v:.4g}",
            "limit": f"{100.0 * word.limit:g}",
        },
        (
            Evidence(N_("voltage drop"), drop.total_share, "ratio"),
            Evidence(N_("behind the last device"), drop.branch_share, "ratio"),
            Evidence(N_("voltage at it"), drop.load_v, "voltage"),
            Evidence(N_("voltage of the source"), drop.source_v, "voltage"),
        ),
        touches=frozenset(drop.runs),
        mend=thicker(view, drop, word.most),
        clause=_clause(view, word.message),
    )


def _clause(view: View, message: str) -> str:
    """Where it is written, if elsewhere than the rule says."""
    if message is AFLOAT:
        return view.clause({"NA": "ABYC E-11"})
    return view.clause({"NA": "215.2 (informational)"}) if message is FEEDER else ""


def _beyond(share: float, limit: float) -> bool:
    """Whether a share is beyond a limit in the figures shown, tenths of a percent."""
    return round(share, 3) > limit


def _percent(share: float) -> str:
    return f"{100.0 * share:.1f}"


def _outlet(view: View, look: Look, face: FaceAt, drops: Drops) -> Iterator[Hit]:
    share = stated("common", "outlet_share").value
    amps = share / 100.0 * _circuit_a(look.studies.situation, face)
    drop = drops.outlet(face, amps) if amps > 0.0 else None
    if drop is None or not drop.known or not drop.source_v > 0.0:
        return
    limits = drop_limits(view.design)
    in_all, behind = (drop.total_share, limits.total), (drop.branch_share, limits.branch)
    if _beyond(*in_all) or _beyond(*behind):
        run = drop.worst_run if _beyond(*in_all) else drop.worst_of(drop.branch_runs)
        words = {
            "where": view.name(face.owner),
            "run": view.name(run),
            "amps": f"{amps:g}",
            "total": _percent(drop.total_share),
            "branch": _percent(drop.branch_share),
            "share": f"{share:g}",
            "most": f"{100.0 * limits.branch:g}",
            "most_in_all": f"{100.0 * limits.total:g}",
        }
        evidence = (
            Evidence(N_("voltage drop"), drop.total_share, "ratio"),
            Evidence(N_("behind the last device"), drop.branch_share, "ratio"),
        )
        subjects, touches = (face.owner, run), frozenset(drop.runs)
        mend = thicker(view, drop, Most(limits.total, limits.branch)) if _beyond(*in_all) else None
        yield look.hit(Level.NOTE, subjects, OUTLET, words, evidence, touches=touches, mend=mend)


def _circuit_a(situation: Situation, face: FaceAt) -> float:
    """Rating of the device of an outlet's circuit, in ampere; zero where there is none."""
    found = (
        device_at(situation, system, node)
        for node in face.nodes.values()
        for system in situation.feeds(node)
    )
    return max((device.data.rating_a for device in found if device is not None), default=0.0)


RULE = Rule(
    "voltage-drop-high",
    N_("Voltage drop high"),
    check,
    {"NA": "210.19, 215.2 (informational)", "INT": "525"},
    causes=(
        "batteries-unlike",
        "battery-turned",
        "voltage-wrong",
    ),
    hangs_on=("metal-live", "neutral-missing"),
)
